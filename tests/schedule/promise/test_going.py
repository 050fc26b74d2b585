from hypothesis import HealthCheck, given, settings
from schedule.pair_shops import pair_shops
from schedule.promise.promise_scenes import (
    DAY,
    DAYTIME,
    MAKER,
    after,
    gone,
    hands,
    plan_of,
    problem_of,
)
from schedule.random_shops import all_plans, shops

from armorplan.schedule.activity import Activity, Demand, Dip, Mode
from armorplan.schedule.checker import violations
from armorplan.schedule.problem import (
    Bath,
    EndsBeforeLast,
    Hold,
    Placed,
    Plan,
    Resource,
    Status,
    Worker,
)
from armorplan.schedule.table import Table


@settings(max_examples=15, suppress_health_check=[HealthCheck.too_slow])
@given(problem=shops(most=3) | pair_shops(most=3))
def test_where_nothing_runs_late_the_plan_holds_and_ends_no_later(problem):
    placed = next(all_plans(problem), None)
    if placed is None:
        return
    plan = Plan(status=Status.GOOD, placed=placed)
    lived = gone(problem, plan)
    again = tuple(
        Placed(
            id=p.id,
            start_min=round(lived[p.id][0]),
            end_min=round(lived[p.id][1]),
            who=p.who,
            mode=p.mode,
        )
        for p in placed
    )
    assert not violations(problem, Plan(status=Status.GOOD, placed=again))
    assert all(one.start_min <= other.start_min for one, other in zip(again, placed, strict=True))


def test_a_pair_waits_for_both_and_keeps_both():
    pair = (Mode(who="apprentice", minutes=60, name="+maker", also=("maker",)),)
    problem = problem_of(
        [
            hands("cut", 60),
            Activity(id="rivet", minutes=0, modes=pair),
            hands("sew", 60),
            Activity(id="tidy", minutes=30, people=("apprentice",)),
        ],
        workers=(MAKER, Worker(id="apprentice", windows=DAYTIME)),
    )
    plan = plan_of(
        cut=(480, 540, "maker"),
        rivet=(540, 600, "apprentice", "+maker"),
        sew=(600, 660, "maker"),
        tidy=(600, 630, "apprentice"),
    )
    assert violations(problem, plan) == ()
    late = gone(problem, plan, cut=2)
    assert (late["rivet"], late["sew"]) == ((600, 660), (660, 720))
    assert late["tidy"] == (480, 510), "nobody waits for the maker idle"
    slow = gone(problem, plan, rivet=2)
    assert slow["rivet"] == (540, 660)
    assert slow["sew"][0] == 660


def test_who_runs_late_begins_the_next_thing_later_and_stops_at_closing_time():
    problem = problem_of([hands("cut", 60), hands("sew", 120), hands("punch", 30)])
    plan = plan_of(cut=(480, 540, "maker"), sew=(840, 960, "maker"), punch=(960, 990, "maker"))
    late = gone(problem, plan, cut=8)
    assert late["cut"] == (480, 960)
    assert late["sew"] == (DAY + 480, DAY + 600), "120 min do not fit before 17:00"
    assert late["punch"] == (960, 990), "nobody stands idle where something later fits"
    assert gone(problem, plan, cut=8.6)["punch"][0] == DAY + 600


def test_a_missed_appointment_goes_to_the_next():
    wearer = Worker(id="wearer", windows=((840, 900), (3 * DAY + 840, 3 * DAY + 900)))
    fit = hands("fit", 45, also=("wearer",))
    problem = problem_of([hands("cut", 300), fit], [after("cut", "fit")], (MAKER, wearer))
    plan = plan_of(cut=(480, 780, "maker"), fit=(840, 885, "maker"))
    assert gone(problem, plan)["fit"][0] == 840
    assert gone(problem, plan, cut=1.25)["fit"][0] == 855
    assert gone(problem, plan, cut=1.3)["fit"][0] == 3 * DAY + 840


def test_who_waits_for_an_appointment_does_meanwhile_what_comes_later():
    wearer = Worker(id="wearer", windows=((840, 900), (3 * DAY + 840, 3 * DAY + 900)))
    activities = [hands("cut", 300), hands("fit", 45, also=("wearer",))]
    activities += [hands("other", 400), hands("more", 400)]
    problem = problem_of(activities, [after("cut", "fit")], (MAKER, wearer))
    plan = plan_of(
        cut=(480, 780, "maker"),
        fit=(840, 885, "maker"),
        other=(DAY + 480, DAY + 880, "maker"),
        more=(2 * DAY + 480, 2 * DAY + 880, "maker"),
    )
    late = gone(problem, plan, cut=1.3)
    assert (late["other"][0], late["more"][0]) == (DAY + 480, 2 * DAY + 480)
    assert late["fit"] == (3 * DAY + 840, 3 * DAY + 885)


def test_what_comes_too_late_for_its_window_is_cased_again():
    case, form = hands("case", 10), hands("form", 30)
    other = hands("other", 30)
    problem = problem_of([case, other, form], [after("case", "form", 20, 60)])
    plan = plan_of(case=(480, 490, "maker"), other=(490, 520, "maker"), form=(520, 550, "maker"))
    assert gone(problem, plan, other=2)["form"][0] == 550
    missed = gone(problem, plan, other=3)
    assert missed["other"][1] == 580
    assert missed["form"] == (580 + 10 + 20, 640), "cased for 10 min, damp enough 20 min later"


def test_a_window_wished_for_costs_nothing_when_missed():
    lags = [after("case", "form", 20, 60, wish=True)]
    problem = problem_of([hands("case", 10), hands("other", 30), hands("form", 30)], lags)
    plan = plan_of(case=(480, 490, "maker"), other=(490, 520, "maker"), form=(520, 550, "maker"))
    assert gone(problem, plan, other=3)["form"][0] == 580


def test_what_is_damp_is_not_begun_before_a_night_that_would_miss_its_window():
    activities = [hands("before", 60, earliest_min=840), hands("case", 10), hands("form", 60)]
    problem = problem_of(activities, [after("case", "form", 20, 60)])
    plan = plan_of(before=(840, 900, "maker"), case=(900, 910, "maker"), form=(930, 990, "maker"))
    late = gone(problem, plan, before=2)
    assert late["case"][0] == DAY + 480, (
        "at 16:00 there were 10 min for the casing, but none for the form"
    )
    assert late["form"][0] == DAY + 510


def test_a_drying_by_the_hour_is_scaled_and_followed_from_its_own_start():
    table = Table(
        grid_min=60, ready=tuple(60 * h + 59 + (200 if h < 12 else 400) for h in range(72))
    )
    dry = Activity(id="dry", minutes=200, table=table)
    problem = problem_of([hands("dye", 30), dry], [after("dye", "dry", 0, 0)])
    plan = plan_of(dye=(480, 510, "maker"), dry=(510, 739, None))
    assert gone(problem, plan)["dry"] == (510, 739)
    assert gone(problem, plan, dry=2)["dry"] == (510, 510 + 2 * 229)
    assert gone(problem, plan, dye=8)["dry"] == (720, 720 + 459)


def test_a_rack_place_is_waited_for_before_the_dip():
    rack = Resource(id="rack", capacity=1)
    hold = [Hold(resource="rack", amount=1, first=f"dye{n}", until=(f"take{n}",)) for n in "12"]
    activities = [hands(f"{work}{n}", 10) for n in "12" for work in ("dye", "take")]
    lags = [after(f"dye{n}", f"take{n}", 60) for n in "12"]
    problem = problem_of(activities, lags, resources=(rack,), holds=tuple(hold))
    plan = plan_of(
        dye1=(480, 490, "maker"),
        take1=(550, 560, "maker"),
        dye2=(560, 570, "maker"),
        take2=(630, 640, "maker"),
    )
    late = gone(problem, plan, dye1=4)
    assert late["take1"] == (580, 590)
    assert late["dye2"] == (570, 580), "it is hung as the other is taken off, at the soonest"


def test_room_for_many_is_taken_over_from_who_gives_it_back_first():
    rack = Resource(id="rack", capacity=2)
    on_rack = (Demand(resource="rack", amount=1),)
    dry = [Activity(id=f"d{n}", minutes=100 * n, demands=on_rack) for n in (1, 2, 3)]
    plan = plan_of(d1=(0, 100, None), d2=(0, 200, None), d3=(100, 400, None))
    problem = problem_of(dry, resources=(rack,))
    assert gone(problem, plan, d2=3)["d3"][0] == 100
    assert gone(problem, plan, d1=3)["d3"][0] == 300


def test_what_two_people_share_is_never_used_at_once_in_whatever_order():
    other = Worker(id="apprentice", windows=DAYTIME)
    at_anvil = (Demand(resource="anvil", amount=1),)
    activities = [
        hands("r1", 30, demands=at_anvil, earliest_min=0),
        Activity(id="a1", minutes=30, people=("apprentice",), demands=at_anvil),
        hands("wait", 30),
        hands("r2", 30, demands=at_anvil),
        hands("r3", 20, demands=at_anvil),
    ]
    problem = problem_of(
        activities, (), (MAKER, other), resources=(Resource(id="anvil", capacity=1),)
    )
    plan = plan_of(
        r1=(480, 510, "maker"),
        a1=(510, 540, "apprentice"),
        wait=(510, 540, "maker"),
        r2=(540, 570, "maker"),
        r3=(570, 590, "maker"),
    )
    late = gone(problem, plan, a1=3)
    assert (late["r1"], late["a1"]) == ((480, 510), (510, 600))
    assert (late["r2"], late["r3"]) == ((600, 630), (630, 650)), "r3 waits for the apprentice too"


def test_a_bath_is_changed_between_colours_and_a_batch_ends_as_one():
    def dip(name, family):
        mode = Mode(who="maker", minutes=10, name="vat", bath="vat")
        return Activity(id=name, minutes=10, modes=(mode,), dip=Dip(family=family, set_up_min=5))

    problem = problem_of(
        [dip("a", "blue"), dip("b", "blue"), dip("c", "brass")],
        baths=(Bath(id="vat", capacity=2, change_min=20, holds="brass"),),
    )
    plan = plan_of(
        a=(480, 505, "maker", "vat"), b=(480, 505, "maker", "vat"), c=(525, 540, "maker", "vat")
    )
    late = gone(problem, plan, a=2)
    assert late["a"] == late["b"] == (480, 515)
    assert late["c"][0] == 535


def test_what_has_to_end_before_the_last_of_some_is_waited_for():
    rule = EndsBeforeLast(first="strap", of=frozenset(("r1", "r2")))
    other = Worker(id="apprentice", windows=DAYTIME)
    strap = Activity(id="strap", minutes=60, people=("apprentice",))
    problem = problem_of(
        [strap, hands("r1", 30), hands("r2", 30)], (), (MAKER, other), before_last=(rule,)
    )
    plan = plan_of(strap=(480, 540, "apprentice"), r1=(480, 510, "maker"), r2=(540, 570, "maker"))
    late = gone(problem, plan, strap=2)
    assert (late["r1"][0], late["r2"][0]) == (480, 600)


def test_history_stands_and_what_runs_ends_now_at_the_soonest():
    done = hands("done", 60, fixed_start_min=-300, fixed_end_min=-200)
    under_way = hands("under_way", 100, fixed_start_min=-90)
    problem = problem_of([done, under_way, hands("next", 10)], [after("under_way", "next")])
    plan = plan_of(
        done=(-300, -200, "maker"), under_way=(-90, 10, "maker"), next=(480, 490, "maker")
    )
    lived = gone(problem, plan, done=9, under_way=0.5)
    assert (lived["done"], lived["under_way"]) == ((-300, -200), (-90, 0))
    assert gone(problem, plan, under_way=9)["next"][0] == 810


def test_pausable_work_goes_on_in_the_morning():
    problem = problem_of([hands("tool", 400, sitting_min=30)])
    plan = plan_of(tool=(900, DAY + 480 + 280, "maker"))
    assert gone(problem, plan)["tool"] == (480, 880)
    late = problem_of([hands("tool", 400, sitting_min=30, earliest_min=900)])
    assert gone(late, plan)["tool"] == (900, DAY + 760)
