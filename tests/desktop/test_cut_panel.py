"""The cutting page: what is typed is asked, beds are gone through by key, files and log are kept."""

from itertools import combinations
from unittest.mock import MagicMock

import pytest
from desktop.fake_cutting import beds_on
from PySide6.QtCore import QPoint, QRect, QRectF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit

from armorplan.desktop.colours import LIGHT
from armorplan.desktop.cut_fields import asked_of
from armorplan.desktop.settings import CUTTING, Settings
from armorplan.desktop.widgets.cut_bed_picture import _Laying
from armorplan.desktop.widgets.cut_panel import CutPanel
from armorplan.needs.cutting.model import Bed, CutAsked, Cutter
from armorplan.workshop.cut_settings import CutResult


@pytest.fixture
def panel(qtbot, bridge):
    made = CutPanel(bridge)
    qtbot.addWidget(made)
    made.resize(1000, 700)
    made.show()
    made.begin()
    qtbot.waitUntil(made.save_list.isEnabled)
    yield made
    made.close_jobs()


def asked_last(session) -> CutAsked:
    return session.cutting.asked[-1]


def test_what_is_typed_is_what_is_asked(qtbot, panel, session):
    assert asked_last(session) == CutAsked(bed=Bed(wide_mm=600.0, high_mm=400.0))
    panel.asking.cutters.setCurrentIndex(1)
    panel.asking.bed.setText("300×200")
    panel.asking.margin.setText("2,5")
    panel.asking.kerf.setText("0.2")
    wanted = Bed(wide_mm=300.0, high_mm=200.0, margin_mm=2.5)
    assert asked_last(session) == CutAsked(cutter=Cutter.LASER, bed=wanted, kerf_mm=0.2)
    qtbot.waitUntil(lambda: "300 × 200 mm" in panel.text.toPlainText())
    for words in ("Shoulder, 3.2 mm", "petal", "Mind the blade.", "no nesting is promised"):
        assert words in panel.text.toPlainText()


def test_no_field_lies_on_another_in_a_narrow_page(panel):
    panel.resize(700, 500)
    fields = (panel.asking.cutters, *panel.asking.fields)
    places = [QRect(one.mapTo(panel, QPoint(0, 0)), one.size()) for one in fields]
    for one, other in combinations(places, 2):
        assert not one.intersects(other)
    assert all(place.width() >= 20 for place in places)


@pytest.mark.parametrize(
    ("bed", "margin", "kerf", "said"),
    [
        ("600", "5", "0", "600 x 400"),
        ("600 x wide", "5", "0", "600 x 400"),
        ("0 x 400", "5", "0", "600 x 400"),
        ("600 x 400", "x", "0", "Margin"),
        ("600 x 400", "500", "0", "0 to 100"),
        ("600 x 400", "5", "7", "Kerf"),
    ],
)
def test_what_cannot_be_read_is_told(bed, margin, kerf, said):
    assert said in asked_of(Cutter.HAND, bed, margin, kerf)


def test_a_fault_stays_until_it_is_mended_and_asks_nothing(panel, session):
    count = len(session.cutting.asked)
    panel.asking.bed.setText("600 x")
    assert panel.fault.isVisible()
    assert len(session.cutting.asked) == count
    panel.asking.bed.setText("")
    assert not panel.fault.isVisible()
    assert asked_last(session).bed is None


def test_what_was_typed_stands_there_next_time(qtbot, bridge, tmp_path):
    settings = Settings(tmp_path / "settings.json")
    first = CutPanel(bridge, settings)
    qtbot.addWidget(first)
    first.asking.take("laser; 900 x 600; 3; 0,2")
    first.close_jobs()
    again = CutPanel(bridge, settings)
    qtbot.addWidget(again)
    wanted = Bed(wide_mm=900.0, high_mm=600.0, margin_mm=3.0)
    assert again.asking.asked() == CutAsked(cutter=Cutter.LASER, bed=wanted, kerf_mm=0.2)
    # What cannot be read is not kept.
    again.asking.bed.setText("900 x")
    again.close_jobs()
    assert settings.value(CUTTING) == "laser; 900 x 600; 3; 0,2"


def test_without_a_bed_nothing_is_laid_and_no_drawing_offered(qtbot, panel):
    assert panel.save_beds.isEnabled()
    panel.asking.bed.setText("")
    qtbot.waitUntil(lambda: not panel.save_beds.isEnabled())
    assert panel.save_list.isEnabled()
    assert panel.beds.picture.accessibleDescription() == "Nothing is laid."


def test_keys_go_from_bed_to_bed_and_stop_at_the_last(panel):
    side = panel.beds
    assert "1 of 2" in side.title.text()
    assert not side.former.isEnabled()
    QTest.keyClick(side.picture, Qt.Key.Key_Right)
    assert "2 of 2" in side.title.text()
    assert "petal 2" in side.picture.accessibleDescription()
    assert not side.onward.isEnabled()
    QTest.keyClick(side.picture, Qt.Key.Key_Right)
    assert side.picture.at == 1
    QTest.keyClick(side.picture, Qt.Key.Key_Home)
    assert side.picture.at == 0


def test_the_picture_shows_leather_where_a_blank_lies(panel):
    image = panel.beds.picture.grab().toImage()
    colours = {
        image.pixelColor(x, y).name()
        for x in range(0, image.width(), 3)
        for y in range(0, image.height(), 3)
    }
    assert len(colours) >= 4


def test_what_is_cut_in_a_blank_lies_over_its_name():
    (bed, _) = beds_on(Bed(wide_mm=110.0, high_mm=60.0))
    painter = MagicMock()
    painter.boundingRect.return_value = QRectF(0, 0, 40, 10)
    _Laying(bed, QRectF(0, 0, 400, 300), LIGHT).paint(painter)
    drawn = [name for name, *_ in painter.method_calls]
    assert drawn.index("drawText") < drawn.index("drawEllipse")


def test_the_ending_says_what_is_written(qtbot, panel, bridge, tmp_path):
    said = []
    bridge.said.connect(said.append)
    for name in ("list.csv", "beds.svg", "beds.dxf"):
        panel.saver.save(panel.page, tmp_path / name)
        qtbot.waitUntil(lambda: bool(said) and said[-1].startswith("Written"))
        assert panel.told.text() == said[-1]
        said.clear()
    assert {path.name for path in tmp_path.iterdir()} == {
        "list.csv",
        *(f"beds-cop-{number}.{ending}" for number in (1, 2) for ending in ("svg", "dxf")),
    }


def test_a_trial_is_kept_and_then_stands_as_what_cut_it_last(panel, session):
    log = panel.log
    assert "Nothing is kept yet" in log.good.text()
    log.machine.setText("Loft laser")
    log.words.setText("power 60")
    log.passes.setValue(2)
    log.kerf.setText("0,18")
    log.keep.click()
    (kept,) = session.cutting.kept
    assert (kept.passes, kept.kerf_mm, kept.result) == (2, 0.18, CutResult.THROUGH)
    for words in ("Loft laser", "power 60", "2 times over", "0.18 mm", "Cut through"):
        assert words in log.good.text()
    assert log.log.count() == 1


def test_what_is_missing_is_said_and_nothing_kept(panel, session):
    panel.log.words.setText("power 60")
    panel.log.keep.click()
    assert "Say the machine" in panel.log.told.text()
    panel.log.kerf.setText("thin")
    panel.log.keep.click()
    assert "such as 0.2" in panel.log.told.text()
    assert session.cutting.kept == []


def test_every_control_has_a_name(panel):
    controls = [
        *panel.findChildren(QLineEdit),
        *panel.findChildren(QComboBox),
        *panel.findChildren(QAbstractButton),
    ]
    named = [
        one for one in controls if one.objectName() and not one.objectName().startswith("qt_")
    ]
    assert len(named) > 10
    for one in named:
        text = one.text() if isinstance(one, QAbstractButton) else ""
        assert one.accessibleName() or text, one.objectName()
