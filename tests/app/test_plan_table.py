"""A plan as a table: names, windows, pauses at closing, how late each build is."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from armorplan.app.plan_table import Told, week_table
from armorplan.schedule.activity import Activity, Dip, Mode
from armorplan.schedule.problem import (
    Bath,
    Job,
    Lag,
    Placed,
    Plan,
    Problem,
    Status,
    Worker,
)
from armorplan.schedule.table import Table
from armorplan.workshop.hours import Opening
from armorplan.workshop.places import DipBath
from armorplan.workshop.shop import Person, Shop, Wearer

ORIGIN_AT = datetime(2027, 3, 1, 9, 0, tzinfo=UTC)
HOURS: tuple[Opening, ...] = ()
SHOP = Shop(
    people=(Person(id="ib", name="Ib", hours=HOURS),),
    wearers=(Wearer(id="maud", name="Maud", appointments=()),),
    baths=(DipBath(id="blue", name="Blue tray", area_dm2=20),),
)


def told(activities, placed, **more):
    problem = Problem(
        origin_at=ORIGIN_AT,
        horizon_min=1000,
        activities=activities,
        workers=(Worker(id="ib", windows=((0, 60), (120, 300))),),
        **more,
    )
    plan = Plan(status=Status.GOOD, placed=placed)
    return week_table(problem, plan, SHOP, Told(title="Lantern week", sentence="It holds."))


def minute(at):
    return ORIGIN_AT + timedelta(minutes=at)


def test_people_wearers_and_baths_are_told_by_name():
    dip = Activity(
        id="a/dip",
        minutes=0,
        modes=(Mode(who="ib", minutes=10, name="blue", bath="blue"),),
        dip=Dip(family="dye|blue"),
    )
    fit = Activity(id="a/fit", minutes=10, people=("ib",), also=("maud",), title="Fit it")
    table = told(
        (dip, fit),
        (
            Placed(id="a/fit", start_min=20, end_min=30, who="ib"),
            Placed(id="a/dip", start_min=0, end_min=10, who="ib", mode="blue"),
        ),
        baths=(Bath(id="blue", capacity=20),),
    )
    first, second = table.lines
    assert (first.title, first.who, first.bath) == ("a/dip", "Ib", "Blue tray")
    assert (second.title, second.who, second.also) == ("Fit it", "Ib", ("Maud",))


def test_who_is_beside_is_told_apart_from_who_comes_for_it():
    modes = (Mode(who="ib", minutes=10, name="+ane", also=("ane",)),)
    fit = Activity(id="a/fit", minutes=10, modes=modes, also=("maud",), title="Fit it")
    placed = (Placed(id="a/fit", start_min=0, end_min=10, who="ib", mode="+ane"),)
    problem = Problem(origin_at=ORIGIN_AT, horizon_min=1000, activities=(fit,))
    shop = replace(SHOP, people=(*SHOP.people, Person(id="ane", name="Ane", hours=HOURS)))
    plan = Plan(status=Status.GOOD, placed=placed)
    (line,) = week_table(problem, plan, shop, Told(title="Week", sentence="")).lines
    assert (line.also, line.beside, line.comes) == (("Ane", "Maud"), ("Ane",), ("Maud",))
    assert line.at_bench == "Ib, with Ane beside"
    assert line.hands == "Ib, with Ane beside and Maud"


def test_the_narrowest_window_counts_and_what_follows_at_once_is_none():
    ids = ("damp", "bend", "go_on")
    activities = tuple(Activity(id=one, minutes=10, people=("ib",)) for one in ids)
    closes = Table(grid_min=15, ready=tuple(15 * cell + 40 for cell in range(80)))
    lags = (
        Lag(first="damp", then="bend", min_lag=5, max_lag=60),
        Lag(first="damp", then="bend", closes=closes, reason="It dries."),
        Lag(first="bend", then="go_on", max_lag=0),
    )
    placed = tuple(
        Placed(id=one, start_min=at, end_min=at + 10, who="ib")
        for one, at in zip(ids, (0, 20, 30), strict=True)
    )
    lines = {line.id: line for line in told(activities, placed, lags=lags).lines}
    assert lines["bend"].begin_by_at == minute(closes.open_till(10))
    assert lines["bend"].why == "It dries."
    assert lines["go_on"].begin_by_at is None
    assert lines["damp"].begin_by_at is None


def test_what_is_history_has_no_window_any_more():
    done = Activity(id="b", minutes=5, people=("ib",), fixed_start_min=-5, fixed_end_min=0)
    table = told(
        (Activity(id="a", minutes=5), done),
        (Placed(id="a", start_min=-20, end_min=-10), Placed(id="b", start_min=-5, end_min=0)),
        lags=(Lag(first="a", then="b", max_lag=60),),
    )
    assert [line.begin_by_at for line in table.lines] == [None, None]


def test_a_latest_start_is_a_window_too():
    asked = Activity(id="a", minutes=5, people=("ib",), earliest_min=10, latest_start_min=40)
    (line,) = told((asked,), (Placed(id="a", start_min=12, end_min=17, who="ib"),)).lines
    assert (line.begin_from_at, line.begin_by_at) == (minute(10), minute(40))


def test_what_stops_at_closing_is_told_in_its_stretches():
    cut = Activity(id="a/cut", minutes=60, people=("ib",), sitting_min=15, title="Cut")
    placed = (Placed(id="a/cut", start_min=30, end_min=150, who="ib"),)
    first, second = told((cut,), placed).lines
    assert (first.id, first.start_at, first.end_at) == ("a/cut", minute(30), minute(60))
    assert (second.start_at, second.end_at) == (minute(120), minute(150))
    assert second.title == "Cut (goes on)"
    assert second.step == first.step == "a/cut"
    assert second.id != first.id
    assert first.minutes + second.minutes == 60


def test_each_build_tells_its_finish_and_how_late_it_is():
    activities = tuple(Activity(id=f"{one}/x", minutes=10) for one in "ab")
    placed = (
        Placed(id="a/x", start_min=0, end_min=10),
        Placed(id="b/x", start_min=0, end_min=90),
    )
    jobs = (
        Job(id="a", activities=("a/x",), title="Cop", due_min=60),
        Job(id="b", activities=("b/x",), title="Collar", due_min=60, weight=3),
    )
    cop, collar = told(activities, placed, jobs=jobs).builds
    assert (cop.finish_at, cop.late_min) == (minute(10), 0)
    assert (collar.due_at, collar.late_min, collar.weight) == (minute(60), 30, 3)


def test_a_plan_of_one_pattern_is_one_build():
    (build,) = told(
        (Activity(id="a", minutes=5),), (Placed(id="a", start_min=0, end_min=5),)
    ).builds
    assert (build.title, build.due_at, build.finish_at) == ("Lantern week", None, minute(5))


def test_without_a_plan_builds_stand_with_no_finish():
    jobs = (Job(id="a", activities=("a/x",), title="Cop", due_min=60),)
    (build,) = told((Activity(id="a/x", minutes=5),), (), jobs=jobs).builds
    assert (build.finish_at, build.late_min) == (None, 0)


def dips(*families):
    ways = (Mode(who="ib", minutes=10, name="blue", bath="blue"),)
    return tuple(
        Activity(id=f"a/dip {at}", minutes=0, modes=ways, dip=Dip(family=family))
        for at, family in enumerate(families)
    )


def test_changing_a_bath_is_a_line_of_its_own_with_whose_hands_are_free():
    lies = tuple(
        Placed(id=f"a/dip {at}", start_min=start, end_min=start + 10, who="ib", mode="blue")
        for at, start in enumerate((0, 40))
    )
    bath = Bath(id="blue", capacity=20, change_min=25)
    coats = dips("dye|blue", "dye|tar_black")
    change = told(coats, lies, baths=(bath,)).lines[1]
    assert (change.title, change.who) == ("Change Blue tray to tar black dye", "Ib")
    assert (change.start_at, change.minutes) == (minute(15), 25)
    assert len({line.id for line in told(coats, lies, baths=(bath,)).lines}) == 3


def test_where_nobody_is_free_to_change_a_bath_the_line_says_so():
    coats = dips("dye|blue", "dye|tar_black")
    sew = Activity(id="a/sew", minutes=20, people=("ib",))
    lies = (
        Placed(id="a/dip 0", start_min=0, end_min=10, who="ib", mode="blue"),
        Placed(id="a/sew", start_min=15, end_min=35, who="ib"),
        Placed(id="a/dip 1", start_min=40, end_min=50, who="ib", mode="blue"),
    )
    table = told((*coats, sew), lies, baths=(Bath(id="blue", capacity=20, change_min=25),))
    (change,) = [line for line in table.lines if line.title.startswith("Change")]
    assert change.who == "Nobody is free"
    assert "has to be near" in change.note


def test_a_wearer_who_waits_between_two_fits_is_told_of():
    fits = [Activity(id=f"a/{n}", minutes=10, people=("ib",), also=("maud",)) for n in "xy"]

    def notes(at):
        lies = (
            Placed(id="a/x", start_min=0, end_min=10, who="ib"),
            Placed(id="a/y", start_min=at, end_min=at + 10, who="ib"),
        )
        maud = Worker(id="maud", windows=((0, 300),))
        ib = Worker(id="ib", windows=((0, 300),))
        problem = Problem(
            origin_at=ORIGIN_AT, horizon_min=1000, activities=tuple(fits), workers=(ib, maud)
        )
        plan = Plan(status=Status.GOOD, placed=lies)
        return week_table(problem, plan, SHOP, Told(title="Fits")).notes

    assert notes(10) == ()
    assert notes(85) == ("Maud is here Mon 1 Mar, 09:00 to 10:35, and waits 1 h 15 min of it.",)


def test_what_another_build_does_on_paper_for_this_one_is_no_line():
    served = Activity(id="a/mock", minutes=0, title="Try it (done once, with Gorget)")
    sew = Activity(id="a/sew", minutes=20, people=("ib",))
    lies = (
        Placed(id="a/mock", start_min=5, end_min=5),
        Placed(id="a/sew", start_min=15, end_min=35, who="ib"),
    )
    assert [line.id for line in told((served, sew), lies).lines] == ["a/sew"]
