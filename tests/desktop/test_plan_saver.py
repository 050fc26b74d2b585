"""The plan goes to a file of its kind off the window's thread; what hinders that is said."""

import icalendar
import pytest
from desktop.fake_session import FakeSession
from PySide6.QtWidgets import QWidget
from sheets.week_scene import NOW_AT, table

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets import file_writer
from armorplan.desktop.widgets.plan_saver import PlanSaver


class _Tabled(FakeSession):
    def tabling_week(self):
        return table


@pytest.fixture
def saver_on(qtbot, clock):
    made = []

    def make(session_type):
        bridge = Bridge(session_type.of(18), clock)
        clock.at = NOW_AT

        holder = QWidget()
        qtbot.addWidget(holder)
        saver = PlanSaver(bridge, holder)
        said = []
        bridge.said.connect(said.append)
        made.append((saver, holder))
        return saver, said

    yield make
    for saver, _ in made:
        saver.end_jobs()


@pytest.mark.parametrize("name", ["week.ics", "week.csv", "week.PDF"])
def test_the_plan_is_written_by_the_ending(saver_on, tmp_path, qtbot, name):
    saver, said = saver_on(_Tabled)
    path = tmp_path / name
    saver.write(path)
    qtbot.waitUntil(lambda: f"Written: {path}" in said)
    data = path.read_bytes()
    if name.endswith("ics"):
        assert len(icalendar.Calendar.from_ical(data).walk("VEVENT")) == 4
    assert data


def test_an_ending_that_says_no_kind_is_told(saver_on, tmp_path):
    saver, said = saver_on(_Tabled)
    saver.write(tmp_path / "week.doc")
    assert said == [
        f"{tmp_path / 'week.doc'}: let the name of the file end in one of .csv, .ics, .pdf."
    ]
    assert not list(tmp_path.iterdir())


def test_without_a_plan_nothing_is_written(saver_on, tmp_path):
    saver, said = saver_on(FakeSession)
    saver.write(tmp_path / "week.ics")
    assert said == ["There is no plan yet that could be saved."]


def test_what_cannot_be_written_over_is_told_and_left(saver_on, tmp_path, qtbot):
    saver, said = saver_on(_Tabled)
    path = tmp_path / "week.ics"
    path.write_text("my notes", encoding="utf-8")
    saver.write(path)
    qtbot.waitUntil(lambda: any("no calendar" in words for words in said))
    assert path.read_text(encoding="utf-8") == "my notes"


def test_the_file_chosen_is_written(saver_on, tmp_path, qtbot, monkeypatch):
    saver, said = saver_on(_Tabled)
    path = tmp_path / "week.csv"
    monkeypatch.setattr(file_writer.QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    saver.ask_file()
    qtbot.waitUntil(lambda: f"Written: {path}" in said)
