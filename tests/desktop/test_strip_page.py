"""The page of the test strip: K while one types, plain words for a bad one, kept for a leather."""

from math import pi

import pytest
from PySide6.QtWidgets import QLineEdit

from armorplan.desktop.strip_fields import FIELDS, StripBench, strip_of, strip_picture
from armorplan.desktop.widgets.strip_page import StripPage
from armorplan.geometry.bends.strip import Strip
from armorplan.kernel.errors import ArmorplanError

LEATHERS = (("strap", "Strap leather"), ("plate", "Plate leather"))
# A quarter turn round 30 mm that keeps its length at 0.4 of 4 mm: BA = π/2 (30 + 1.6).
BEND_MM = pi / 2 * 31.6
GOOD = {
    "flat": "150",
    "first": f"{(150 - BEND_MM) / 2:.2f}",
    "second": f"{(150 - BEND_MM) / 2:.2f}".replace(".", ","),
    "radius": "30",
    "angle": "90",
    "thickness": "4",
}


class Keeper:
    def __init__(self):
        self.kept = []
        self.fault = ""

    def __call__(self, leather, result):
        if self.fault:
            raise ArmorplanError(self.fault)
        self.kept.append((leather, result.neutral))
        return f"Kept for {leather}."


@pytest.fixture
def keeper():
    return Keeper()


@pytest.fixture
def page(qtbot, keeper):
    made = StripPage(StripBench(lambda: LEATHERS, keeper))
    qtbot.addWidget(made)
    made.show()
    qtbot.waitUntil(lambda: made.leathers.count() == 2)
    yield made
    made.close()


def measure(page, **changes):
    for key, text in (GOOD | changes).items():
        page.fields[key].setText(text)


def test_k_stands_there_with_its_formula_as_soon_as_all_is_typed(page):
    assert "Still to measure: flat length, first leg" in page.told.toPlainText()
    assert not page.keep.isEnabled()
    measure(page, thickness="")
    assert page.told.toPlainText() == "Still to measure: thickness."
    measure(page)
    text = page.told.toPlainText()
    assert "K = 0.40: the bend keeps its length at 40 % of the thickness." in text
    assert "- 30) / 4 = 0.400" in text
    assert page.picture.isVisible()
    assert page.keep.isEnabled()


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"first": "10"}, "lies between 0 and 1"),
        ({"first": "80", "second": "80"}, "leave nothing"),
        ({"radius": "thirty"}, "Radius of the rod: 'thirty' is no number"),
        ({"radius": "nan"}, "Radius of the rod: 'nan' is no number"),
        ({"flat": "1,000"}, "1000 or 1.000"),
        ({"angle": "0"}, "Write an angle above 0°"),
        ({"thickness": "0"}, "thickness is 0 mm"),
    ],
)
def test_a_bad_measurement_is_told_in_plain_words_and_cannot_be_kept(page, changes, words):
    measure(page, **changes)
    assert words in page.told.toPlainText()
    assert not page.keep.isEnabled()


def test_it_is_kept_for_the_chosen_leather_off_the_windows_thread(page, keeper, qtbot):
    measure(page)
    page.leathers.setCurrentIndex(1)
    page.keep.click()
    qtbot.waitUntil(lambda: page.kept.text() == "Kept for plate.")
    assert keeper.kept == [("plate", 0.4)]
    assert page.keep.isEnabled()
    page.fields["flat"].setText("151")
    assert page.kept.text() == ""


def test_what_could_not_be_written_is_said(page, keeper, qtbot):
    keeper.fault = "The folder cannot be made: refused. Nothing was kept."
    measure(page)
    page.keep.click()
    qtbot.waitUntil(lambda: "Nothing was kept." in page.kept.text())
    assert keeper.kept == []


def test_every_field_has_a_name_a_unit_and_help(page):
    assert len(page.findChildren(QLineEdit)) == len(FIELDS)
    assert page.fields["radius"].accessibleName() == "Radius of the rod, mm"
    assert all(line.accessibleDescription() for line in page.fields.values())


def test_the_field_with_the_keyboard_says_what_to_measure(page, qtbot):
    page.activateWindow()
    page.fields["first"].setFocus()
    qtbot.waitUntil(lambda: "where the bend begins" in page.hint.text())
    page.focusNextChild()
    assert page.fields["second"].hasFocus()


def test_legs_to_the_outer_corner_are_shortened_to_the_bend(qapp):
    strip = strip_of(GOOD, outside=True)
    assert isinstance(strip, Strip)
    assert strip.outside
    picture = strip_picture(strip, past_mm=10.0)
    assert picture.legs_mm[0] == pytest.approx(strip.legs_mm[0] - 10.0)
    assert strip_picture(strip, past_mm=60.0) is None
