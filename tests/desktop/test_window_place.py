"""The window opens on the screen, whatever the screen."""

import pytest
from PySide6.QtCore import QRect

from armorplan.desktop.window_place import TITLE_PX, within

USUAL = QRect(0, 0, 1280, 800)


@pytest.mark.parametrize(
    "room",
    [
        QRect(0, 0, 1024, 768),
        QRect(0, 0, 720, 450),  # 1440 by 900 at a scale of 2
        QRect(-1024, 40, 1024, 728),  # a second screen with a bar
    ],
)
@pytest.mark.parametrize("place", [USUAL, QRect(900, 700, 600, 400), QRect(-3000, -9, 900, 640)])
def test_it_lies_wholly_on_the_screen_with_its_title(place, room):
    found = within(place, room)
    assert room.contains(found)
    assert found.top() >= room.top() + TITLE_PX


def test_what_fits_stays_where_it_is():
    place = QRect(300, 200, 1280, 800)
    assert within(place, QRect(0, 0, 1920, 1080)) == place
