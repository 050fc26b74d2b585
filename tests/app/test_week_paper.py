"""The week on paper: the same lanes and bars as in the window, with due dates, hours and promises."""

from dataclasses import replace

from desktop.week_scene import facts

from armorplan.app.week_lanes import week_of
from armorplan.app.week_paper import week_figure_of
from armorplan.app.week_rows import By
from armorplan.sheets.week_bars import legend
from armorplan.sheets.week_chart import _lane_rows, _rows
from armorplan.sheets.week_marks import DueMark, LoadMark, PromisedMark


def figure(by, *, compares=False):
    week = week_of(facts(promised=True), by)
    return week_figure_of(week, title="The week", sentence="It holds.", compares=compares)


def marks(drawn, kind):
    return [mark for mark in drawn.marks if isinstance(mark, kind)]


def test_by_person_each_step_says_its_build_and_each_day_its_hours():
    drawn = figure(By.PERSON)
    assert drawn.title == "The week, by person"
    assert drawn.lanes == ("Maker", "Apprentice", "Wearer", "Drying")
    assert any(bar.title == "A: Cut the Gorget" and bar.lane == "Maker" for bar in drawn.bars)
    assert {mark.words for mark in marks(drawn, LoadMark) if mark.lane == "Maker"} >= {"4.5/9 h"}
    assert marks(drawn, PromisedMark) == []


def test_by_build_each_is_due_with_what_is_to_spare_and_each_step_says_who():
    drawn = figure(By.BUILD, compares=True)
    assert drawn.lanes[0] == "A  Gorget"
    told = {mark.lane: (mark.words, mark.late) for mark in marks(drawn, DueMark)}
    assert told["A  Gorget"] == ("due, 1 h 30 min to spare", False)
    assert told["B  Right elbow"] == ("due, 1 h 30 min late", True)
    assert any(bar.title == "Cut the Gorget (Maker)" for bar in drawn.bars)
    assert len(marks(drawn, PromisedMark)) == 5
    assert any("A  Gorget: Fit the Gorget (Maker) and 1 more" in line for line in legend(drawn))


def test_what_pauses_while_closed_is_drawn_in_its_stretches():
    drawn = figure(By.PERSON)
    polish = [bar for bar in drawn.bars if "Polish the Right elbow" in bar.title]
    assert len(polish) == 2
    assert polish[0].end_at < polish[1].start_at


def test_lanes_of_the_same_name_stay_apart():
    week = week_of(facts(), By.BUILD)
    lanes = tuple(replace(lane, name="Elbow", tag="") for lane in week.lanes)
    drawn = week_figure_of(
        replace(week, lanes=lanes), title="The week", sentence="", compares=False
    )
    assert len(set(drawn.lanes)) == len(lanes)
    assert {bar.lane for bar in drawn.bars} == set(drawn.lanes)


def test_a_lane_with_marks_has_a_free_row_for_them_at_its_foot():
    drawn = figure(By.BUILD)
    rows = _rows(drawn)
    places = _lane_rows(rows)
    assert list(places) == list(drawn.lanes)
    first, after = places["A  Gorget"]
    assert rows[after - 1] == ("", [])
    assert all(rows[at][1] for at in range(first, after - 1))


def test_below_it_each_letter_has_its_build_with_its_date_and_what_is_to_spare():
    drawn = figure(By.PERSON)
    lines = legend(drawn)
    assert (
        lines[0] == "A  Gorget, due Wed 6 May 17:00, finished Wed 6 May 15:30, 1 h 30 min to spare"
    )
    assert lines[1].startswith("B  Right elbow, due Thu 7 May 08:00, ")
    assert lines[1].endswith(", 1 h 30 min late")
    assert lines[4].startswith("E  Belt pouch, finished ")
    assert lines[5] == ""
    assert lines[6].startswith("1  ")


def test_by_person_and_by_place_the_due_dates_stand_under_the_days_by_their_letters():
    for by in (By.PERSON, By.PLACE):
        drawn = figure(by)
        due = marks(drawn, DueMark)
        assert [mark.words for mark in due] == ["A due", "B due, late", "C due", "D due"]
        assert {mark.lane for mark in due} == {drawn.lanes[-1]}
        assert [mark.late for mark in due] == [False, True, False, False]
