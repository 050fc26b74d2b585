"""The picture of a drying on the screen: it stays in sight with the keyboard on it."""

from datetime import UTC, datetime, timedelta

import pytest
from PySide6.QtCore import Qt

from armorplan.desktop.drying_plot import DryingPlot
from armorplan.desktop.widgets.drying_picture import DryingPicture

FROM_AT = datetime(2026, 11, 30, 9, tzinfo=UTC)
WIDE, HIGH = 240, 120


@pytest.fixture
def picture(qtbot):
    made = DryingPicture()
    qtbot.addWidget(made)
    made.resize(WIDE, HIGH)
    pixels = b"".join(bytes((x % 256, y % 256, 90, 255)) for y in range(HIGH) for x in range(WIDE))
    made.show_plot(
        DryingPlot(
            pixels=pixels,
            width=WIDE,
            height=HIGH,
            ratio=1.0,
            left_px=10.0,
            right_px=WIDE - 10.0,
            top_px=4.0,
            foot_px=HIGH - 10.0,
            from_at=FROM_AT,
            until_at=FROM_AT + timedelta(hours=8),
        )
    )
    made.show_now(FROM_AT + timedelta(hours=2))
    made.show()
    qtbot.waitExposed(made)
    return made


def colours_in(picture):
    image = picture.grab().toImage()
    inside = (
        (x, y) for x in range(4, image.width() - 4, 3) for y in range(4, image.height() - 4, 3)
    )
    return {image.pixel(x, y) for x, y in inside}


def test_the_focus_frames_the_picture_and_does_not_paint_it_over(qtbot, picture):
    picture.clearFocus()
    plain, edge = colours_in(picture), picture.grab().toImage().pixel(1, HIGH // 2)
    picture.activateWindow()
    picture.setFocus(Qt.FocusReason.MouseFocusReason)
    qtbot.waitUntil(picture.hasFocus)
    assert colours_in(picture) == plain
    assert len(plain) > 500
    assert picture.grab().toImage().pixel(1, HIGH // 2) != edge
