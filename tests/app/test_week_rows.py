"""The week of several builds as rows: by person, by bath and rack, by build, against the promise."""

from dataclasses import replace
from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest
from desktop.week_scene import (
    DAY,
    ORIGIN_AT,
    TITLES,
    ZONE,
    facts,
    problem,
    week_plan,
)

from armorplan.app.lane_names import lane_names
from armorplan.app.rows import BenchState, ChartBar
from armorplan.app.shown_plan import ShownPlan
from armorplan.app.week_bars import gaps, pieces
from armorplan.app.week_facts import letters
from armorplan.app.week_lanes import week_of
from armorplan.app.week_loads import loads_of
from armorplan.app.week_rows import BarKind, By, LaneKind
from armorplan.desktop.week_words import company_words, week_rows
from armorplan.schedule.activity import Mode
from armorplan.schedule.checker import violations
from armorplan.schedule.problem import Job
from armorplan.workshop.places import Rack, Station
from armorplan.workshop.shop import Person, Shop, Wearer, usual_hours


def at(minute):
    return ORIGIN_AT + timedelta(minutes=minute)


def bars(week, lane):
    return [bar for bar in week.bars if bar.lane == lane]


def lane(week, name):
    return next(each for each in week.lanes if each.name == name)


def test_the_invented_week_is_a_plan_that_holds():
    plan = week_plan()
    assert violations(plan.problem, plan.shown.plan) == ()


def test_by_person_each_has_the_work_of_all_builds_and_what_dries_hangs_below():
    week = week_of(facts(), By.PERSON)
    assert [each.name for each in week.lanes] == ["Maker", "Apprentice", "Wearer", "Drying"]
    assert {bar.step for bar in bars(week, "Wearer")} == {f"{b}/fit" for b in TITLES}
    assert {bar.kind for bar in bars(week, "drying")} == {BarKind.DRIES}
    assert len(bars(week, "drying")) == len(TITLES)
    fits = [bar for bar in week.bars if bar.step == "Gorget/fit"]
    assert sorted(bar.lane for bar in fits) == ["Maker", "Wearer"]
    assert len({bar.key for bar in week.bars}) == len(week.bars)


def test_a_pair_lies_in_both_lanes_and_takes_the_hours_of_both():
    plan = week_plan()
    rivet = "Belt pouch/rivet"
    modes = (Mode(who="apprentice", minutes=90, name="+maker", also=("maker",)),)
    activities = tuple(
        replace(a, people=(), modes=modes) if a.id == rivet else a for a in plan.problem.activities
    )
    lies = tuple(
        replace(p, who="apprentice", mode="+maker") if p.id == rivet else p
        for p in plan.shown.plan.placed
    )
    before = week_of(facts(), By.PERSON)
    pair = replace(
        plan,
        problem=replace(plan.problem, activities=activities),
        shown=replace(plan.shown, plan=replace(plan.shown.plan, placed=lies)),
    )
    week = week_of(facts(plan=pair), By.PERSON)
    told = {bar.lane: bar for bar in week.bars if bar.step == rivet}
    assert told.keys() == {"Apprentice", "Maker"}
    words = {name: company_words(bar) for name, bar in told.items()}
    assert words == {"Apprentice": "with Maker beside", "Maker": "beside Apprentice"}

    def taken(of, name):
        return sum(load.taken_min for load in lane(of, name).loads)

    assert taken(week, "Maker") == taken(before, "Maker")
    assert taken(week, "Apprentice") == taken(before, "Apprentice") + 90
    spoken = {row.cells[3] for row in week_rows(week) if row.cells[2] == "Rivet the Belt pouch"}
    assert spoken == {"Apprentice, with Maker beside", "Maker, beside Apprentice"}


def test_a_bar_of_another_build_says_whose_it_is_and_the_soonest_due_is_a():
    week = week_of(facts("Breastplate"), By.PERSON)
    by_step = {bar.step: bar for bar in week.bars}
    assert (by_step["Breastplate/cut"].build, by_step["Breastplate/cut"].tag) == ("", "D")
    other = by_step["Gorget/cut"]
    assert (other.build, other.build_title, other.tag) == ("Gorget", "Gorget", "A")
    assert [letters(rank) for rank in (0, 25, 26, 53)] == ["A", "Z", "A2", "B3"]


def test_one_build_alone_has_no_letter():
    plan = week_plan()
    lone = replace(plan, problem=replace(plan.problem, jobs=plan.problem.jobs[:1]))
    assert {bar.tag for bar in week_of(facts(plan=lone), By.PERSON).bars} == {""}


def test_hours_taken_of_hours_there_are_by_person_and_day():
    week = week_of(facts(), By.PERSON)
    monday, tuesday, *_ = lane(week, "Maker").loads
    # By hand: four cuts, a bevel, a batch each of two and one dip: 240 + 45 + 50 + 50 + 30.
    assert (monday.there_min, monday.taken_min) == (540, 415)
    assert (tuesday.there_min, tuesday.taken_min) == (540, 90 + 90 + 90)
    # The right elbow is polished by the apprentice 30 min before closing and 90 after opening.
    assert [load.taken_min for load in lane(week, "Apprentice").loads] == [240, 180, 150, 210]
    assert lane(week, "Wearer").loads[0].taken_min == 90


def test_a_day_of_the_load_ends_at_local_midnight_when_clocks_change():
    # Summer time in Europe/London ends on 25 October 2026 (IANA time zone database).
    night = replace(
        week_plan(),
        problem=replace(
            problem(),
            origin_at=ORIGIN_AT.replace(month=10, day=24, hour=22),
            workers=(replace(problem().workers[0], windows=((0, 30 * 60),)),),
        ),
    )
    night = replace(night, shown=replace(night.shown, origin_at=night.problem.origin_at))
    seen = facts(plan=night)
    days = loads_of(seen, night.problem.workers[0], ZoneInfo(ZONE))
    assert [load.there_min for load in days] == [120, 25 * 60, 3 * 60]


def test_by_bath_and_rack_a_batch_lies_in_its_tray_and_hangs_until_it_is_taken_down():
    week = week_of(facts(), By.PLACE)
    assert [(each.name, each.kind) for each in week.lanes] == [
        ("tray", LaneKind.BATH),
        ("rack", LaneKind.PLACE),
        ("table", LaneKind.PLACE),
    ]
    assert week.families == ("dye|black", "dye|chestnut")
    tray, rack = lane(week, "tray"), lane(week, "rack")
    assert (tray.holds, tray.change_min) == ("dye|black", 20)
    assert [bar.family for bar in bars(week, tray.id)] == [
        "dye|chestnut",
        "dye|chestnut",
        "dye|black",
        "dye|black",
        "dye|chestnut",
    ]
    hung = next(bar for bar in bars(week, rack.id) if bar.step == "Gorget/dye")
    assert (hung.kind, hung.start_at, hung.end_at) == (BarKind.HANGS, at(410), at(1500))
    assert hung.free_at == at(410 + 780)
    assert (rack.most, rack.capacity) == (10, 12)
    assert lane(week, "table").most == 1


def test_what_dries_on_no_rack_is_not_lost_by_place():
    plan = week_plan()
    loose = replace(plan, problem=replace(plan.problem, holds=()))
    week = week_of(facts(plan=loose), By.PLACE)
    assert len(bars(week, "drying")) == len(TITLES)
    assert lane(week, "rack").most == 0


def test_by_build_each_has_its_due_date_and_what_is_to_spare():
    week = week_of(facts(promised=True), By.BUILD)
    told = {each.name: (each.tag, each.late_min) for each in week.lanes}
    # By hand: ends at 3390, 3450, 4470 and 4560; due at 3480, 4560, 4380 and 6000.
    assert told == {
        "Gorget": ("A", -90),
        "Right elbow": ("B", 90),
        "Left elbow": ("C", -1110),
        "Breastplate": ("D", -1440),
        "Belt pouch": ("E", None),
    }
    gorget = lane(week, "Gorget")
    assert (gorget.finish_at, gorget.promised_at) == (at(3390), at(3330))
    assert len(bars(week, "Gorget")) == 7


def test_what_moved_since_the_promise_says_where_it_lay():
    week = week_of(facts(promised=True), By.PERSON)
    moved = {bar.step for bar in week.bars if bar.is_moved}
    assert moved == {f"{build}/polish" for build in TITLES}
    polish = next(bar for bar in week.bars if bar.step == "Gorget/polish")
    assert polish.promised == (at(3210), at(3330))
    assert week.has_promise
    assert not week_of(facts(), By.PERSON).has_promise


def test_a_window_runs_from_what_opens_it_to_the_last_minute_to_begin():
    week = week_of(facts(), By.PERSON)
    rivet = next(bar for bar in week.bars if bar.step == "Gorget/rivet")
    assert rivet.window == (at(1190), at(1790))
    assert next(bar for bar in week.bars if bar.step == "Gorget/cut").window is None


def test_what_pauses_at_closing_rests_through_noon_and_night():
    week = week_of(facts(), By.PERSON)
    polish = next(bar for bar in week.bars if bar.step == "Right elbow/polish")
    assert polish.rests == ((at(2 * DAY + 540), at(3 * DAY + 60)),)
    worked = pieces((polish.start_at, polish.end_at), polish.rests)
    assert sum((end - start for start, end in worked), timedelta()) == timedelta(minutes=120)
    cut = next(bar for bar in week.bars if bar.step == "Gorget/cut")
    assert cut.rests == ()


@pytest.mark.parametrize(
    ("windows", "within", "found"),
    [
        (((0, 10), (20, 30)), (5, 25), ((10, 20),)),
        (((0, 10), (20, 30)), (12, 18), ((12, 18),)),
        ((), (1, 2), ((1, 2),)),
        (((0, 10),), (2, 8), ()),
        (((0, 10), (20, 30), (40, 50)), (20, 45), ((30, 40),)),
    ],
)
def test_gaps_are_what_windows_leave_open(windows, within, found):
    assert gaps(windows, within) == found


def test_the_open_build_s_bars_have_the_state_and_the_instants_of_its_ledger():
    seen = facts()
    begun = ChartBar(
        step="Gorget/cut",
        title="Cut out the Gorget",
        lane="Maker",
        start_at=at(65),
        end_at=at(130),
        attended=True,
        state=BenchState.DONE,
    )
    aside = replace(begun, step="Gorget/extra", title="Extra", state=BenchState.READY)
    seen = replace(seen, chart=replace(seen.chart, bars=(begun, aside)))
    by_step = {bar.step: bar for bar in week_of(seen, By.PERSON).bars}
    cut = by_step["Gorget/cut"]
    assert (cut.title, cut.state, cut.start_at) == ("Cut out the Gorget", BenchState.DONE, at(65))
    assert by_step["Gorget/extra"].lane == "Maker"
    assert [bar.lane for bar in week_of(seen, By.BUILD).bars if bar.step == "Gorget/extra"] == [
        "Gorget"
    ]


def test_a_plan_older_than_its_problem_still_lies_where_it_was_laid():
    plan = week_plan()
    later = timedelta(minutes=30)
    moved = replace(plan.problem, origin_at=plan.problem.origin_at + later)
    kept = ShownPlan(plan=plan.shown.plan, origin_at=plan.shown.origin_at)
    week = week_of(facts(plan=replace(plan, problem=moved, shown=kept)), By.PERSON)
    assert next(bar for bar in week.bars if bar.step == "Gorget/cut").start_at == at(60)


def test_without_any_plan_there_is_the_open_build_alone():
    seen = replace(facts(), problem=None, shown=None)
    for by in By:
        week = week_of(seen, by)
        assert week.bars == ()
        assert week.lanes


def test_steps_done_in_another_build_are_done():
    plan = week_plan()
    cut = plan.problem.activities[7]
    fixed = replace(cut, fixed_start_min=120, fixed_end_min=180, fixed_who="maker")
    activities = (*plan.problem.activities[:7], fixed, *plan.problem.activities[8:])
    seen = facts(plan=replace(plan, problem=replace(plan.problem, activities=activities)))
    by_step = {bar.step: bar.state for bar in week_of(seen, By.PERSON).bars}
    assert by_step["Left elbow/cut"] is BenchState.DONE
    assert by_step["Left elbow/bevel"] is BenchState.WAITING


def test_jobs_due_at_the_same_time_keep_one_order():
    plan = week_plan()
    jobs = tuple(replace(job, due_min=100) for job in reversed(plan.problem.jobs))
    assert all(isinstance(job, Job) for job in jobs)
    seen = facts(plan=replace(plan, problem=replace(plan.problem, jobs=jobs)))
    assert list(seen.tags) == sorted(TITLES)


def test_lanes_are_called_as_the_shop_calls_them():
    shop = Shop(
        people=(Person(id="maker", name="The maker", hours=usual_hours()),),
        wearers=(Wearer(id="captain", name="Captain"),),
        racks=(Rack(id="loft", name="Loft", line_mm=900, shelf_dm2=40.0),),
        stations=(Station(id="anvil", name="Big anvil", kinds=("rivet",)),),
    )
    assert dict(lane_names(shop)) == {
        "maker": "The maker",
        "captain": "Captain",
        "place:anvil": "Big anvil",
        "place:loft.line": "Loft, line",
        "place:loft.shelf": "Loft, shelf",
    }
    # What is not named goes by its id.
    assert facts().name("bath:dye_tray") == "dye tray"


def test_a_bath_that_is_changed_is_a_bar_of_who_is_free():
    week = week_of(facts(), By.PERSON)
    changes = [bar for bar in week.bars if bar.key.endswith("@change")]
    assert changes
    assert {bar.title for bar in changes} <= {
        "Change tray to chestnut dye",
        "Change tray to black dye",
    }
    for change in changes:
        assert (change.lane, change.end_at - change.start_at) == (
            change.who,
            timedelta(minutes=20),
        )
        others = [bar for bar in bars(week, change.lane) if bar is not change]
        assert all(b.end_at <= change.start_at or change.end_at <= b.start_at for b in others)
