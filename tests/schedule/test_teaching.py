"""Work that is learned beside somebody: the checker, and what may give way for it, one by one."""

from dataclasses import replace

import pytest
from schedule.pair_shops import alone, pair
from schedule.small_problems import kinds, problem
from schedule.test_pairs import APPRENTICE, MAKER, in_pair, laid

from armorplan.schedule.activity import Activity, Demand
from armorplan.schedule.checker import violations
from armorplan.schedule.facing import plan_words
from armorplan.schedule.keeping_to import kept_plan, stood_in
from armorplan.schedule.measures import goals
from armorplan.schedule.planning import best_plan, first_plan
from armorplan.schedule.problem import Hold, Job, Lag, Resource, Worker
from armorplan.schedule.promise.work import pieces_of_work
from armorplan.schedule.sittings import in_sittings
from armorplan.schedule.stages import MOVED
from armorplan.schedule.teaching import learned_in, taught, taught_plan
from armorplan.schedule.what_if import AnotherPair, changed

RIVET = Activity(
    id="rivet", minutes=0, modes=(alone("maker", 12),), taught=(pair(16),), cause="rivet"
)
SEW = Activity(id="sew", minutes=10, people=("maker",))
TIDY = Activity(id="tidy", minutes=10, people=("apprentice",))
LATER = replace(SEW, earliest_min=100)
EARLY = replace(APPRENTICE, windows=MAKER.windows)
ALONE = ("rivet", 10, 22, "maker", "")
LEARNED = in_pair("rivet", 10, 26)


def shop(*activities, workers=(MAKER, APPRENTICE), **parts):
    return problem(*activities, workers=workers, **parts)


def spans(placed):
    return {p.id: (p.start_min, p.end_min, p.who) for p in placed}


def learned(bench, *places, earlier=()):
    """Where everything lies once what can be learned is; the plan before has to hold."""
    plan = laid(*places)
    assert violations(bench, plan) == ()
    found = taught(bench, plan.placed, earlier)
    assert violations(bench, replace(plan, placed=found)) == ()
    return spans(found)


@pytest.mark.parametrize(
    ("places", "found"),
    [
        ((LEARNED, ("sew", 26, 36, "maker", "")), set()),
        ((in_pair("rivet", 10, 22), ("sew", 26, 36, "maker", "")), {"duration"}),
        ((LEARNED, ("sew", 22, 32, "maker", "")), {"two at once"}),
        ((in_pair("rivet", 0, 16), ("sew", 26, 36, "maker", "")), {"outside hours"}),
        ((in_pair("rivet", 40, 56), ("sew", 26, 36, "maker", "")), {"outside hours"}),
        ((("rivet", 10, 26, "apprentice", ""), ("sew", 26, 36, "maker", "")), {"wrong person"}),
        ((("rivet", 10, 26, "maker", "+maker"), ("sew", 26, 36, "maker", "")), {"wrong person"}),
    ],
    ids=["holds", "as quick as alone", "the teacher sews", "before the learner comes",
         "after the learner went", "nobody beside", "learned by the teacher"],
)  # fmt: skip
def test_the_checker_names_every_fault_of_a_lesson(places, found):
    assert kinds(shop(RIVET, SEW), laid(*places)) == found


def test_a_lesson_is_given_in_one_go():
    cut = replace(RIVET, sitting_min=5, modes=(alone("maker", 30),), taught=(pair(30),))
    bench = shop(cut)
    assert kinds(bench, laid(("rivet", 40, 110, "maker", ""))) == set()
    assert kinds(bench, laid(in_pair("rivet", 40, 110))) == {"duration", "outside hours"}
    assert learned(bench, ("rivet", 40, 110, "maker", "")) == {"rivet": (40, 110, "maker")}


def test_no_search_takes_a_lesson(solver):
    rivets = [replace(RIVET, id=f"rivet{n}") for n in range(4)]
    bench, plain = (
        shop(*(replace(r, taught=lessons) for r in rivets), SEW) for lessons in ((pair(12),), ())
    )
    assert first_plan(bench) == first_plan(plain)
    found, other = (best_plan(each, solver, seconds=5) for each in (bench, plain))
    assert found.placed == other.placed
    assert not learned_in(bench, found.placed)


def test_it_is_learned_where_the_longer_time_fits():
    bench = shop(RIVET, SEW)
    sew = ("sew", 100, 110, "maker", "")
    assert learned(bench, ALONE, sew) == {
        "rivet": (10, 26, "apprentice"),
        "sew": (100, 110, "maker"),
    }
    # Between 44 and 60 the apprentice is gone at 50.
    late = learned(bench, ("rivet", 40, 52, "maker", ""), sew)
    assert late["rivet"] == (40, 52, "maker")


def test_the_learner_has_other_work():
    assert learned(shop(RIVET, TIDY), ALONE, ("tidy", 20, 30, "apprentice", ""))["rivet"][2] == (
        "maker"
    )


def test_what_the_teacher_does_next_begins_later_for_it_if_nobody_goes_by_the_plan():
    bench = shop(RIVET, SEW, jobs=(Job(id="cop", activities=("rivet",)),))
    bench = replace(bench, jobs=(), activities=(*bench.activities, TIDY))
    places = (ALONE, ("sew", 22, 32, "maker", ""), ("tidy", 100, 110, "apprentice", ""))
    assert learned(bench, *places) == {
        "rivet": (10, 26, "apprentice"),
        "sew": (26, 36, "maker"),
        "tidy": (100, 110, "apprentice"),
    }
    stood = stood_in(bench, laid(*places))
    assert learned(stood, *places)["rivet"] == (10, 22, "maker")


@pytest.mark.parametrize(
    "parts",
    [
        {"jobs": (Job(id="cop", activities=("rivet",)), Job(id="cap", activities=("sew", "tidy")))},
        {"jobs": (Job(id="cop", activities=("rivet", "tidy")), Job(id="cap", activities=("sew",)))},
        {"lags": (Lag(first="damp", then="sew", max_lag=30),)},
        {"lags": (Lag(first="sew", then="tidy", min_lag=68),)},
        {"sew": {"also": ("wearer",)}},
        {"sew": {"soon": True}},
        {"sew": {"latest_start_min": 23}},
        {"sew": {"ends_outside": ((36, 37),)}},
    ],
    ids=["a build ends later", "another build ends later", "a window gets shorter",
         "something waits for it", "a wearer comes", "a dry-fit", "it is too late", "shut then"],
)  # fmt: skip
def test_nothing_is_learned_for_which_anything_else_would_have_to_give_way(parts):
    sew = replace(SEW, **parts.pop("sew", {}))
    wearer = Worker(id="wearer", windows=((0, 160),))
    damp = Activity(id="damp", minutes=5)
    bench = shop(RIVET, sew, TIDY, damp, workers=(MAKER, APPRENTICE, wearer), **parts)
    places = (ALONE, ("sew", 22, 32, "maker", ""), ("tidy", 100, 110, "apprentice", ""))
    assert learned(bench, *places, ("damp", 0, 5, None, ""))["rivet"] == (10, 22, "maker")


def test_a_place_that_is_taken_meanwhile_is_not_taken_longer():
    anvil = (Demand(resource="anvil", amount=1),)
    bench = shop(
        replace(RIVET, demands=anvil),
        replace(TIDY, demands=anvil, people=("helper",)),
        workers=(MAKER, APPRENTICE, Worker(id="helper", windows=((0, 60),))),
        resources=(Resource(id="anvil", capacity=1),),
    )
    assert learned(bench, ALONE, ("tidy", 24, 34, "helper", ""))["rivet"] == (10, 22, "maker")
    assert learned(bench, ALONE, ("tidy", 26, 36, "helper", ""))["rivet"][2] == "apprentice"


def test_what_hangs_longer_is_reckoned_with():
    """The line is taken from the end of the riveting on; the anvil's neighbour hangs there till 25."""
    line = (Demand(resource="line", amount=1),)
    bench = shop(
        replace(RIVET, demands=line),
        Activity(id="dry", minutes=5),
        Activity(id="take down", minutes=0),
        resources=(Resource(id="line", capacity=1),),
        holds=(Hold(resource="line", amount=1, first="dry", until=("take down",)),),
    )
    dry = (("dry", 18, 23, None, ""), ("take down", 25, 25, None, ""))
    assert learned(bench, ALONE, *dry)["rivet"] == (10, 22, "maker")


def test_kinds_have_their_turn_and_the_dearer_comes_later():
    """Two teach at once and one learns: first the seam, which costs less, then the rivet."""
    other = replace(MAKER, id="sewer")
    rivets = [replace(RIVET, id=f"rivet{n}") for n in range(2)]
    seams = [
        replace(
            RIVET,
            id=f"seam{n}",
            modes=(alone("sewer", 12),),
            taught=(pair(13, beside="sewer"),),
            cause="sew",
        )
        for n in range(2)
    ]
    bench = shop(*rivets, *seams, LATER, workers=(MAKER, EARLY, other))
    places = [("sew", 100, 110, "maker", "")]
    places += [(f"rivet{n}", 20 * n, 20 * n + 12, "maker", "") for n in range(2)]
    places += [(f"seam{n}", 20 * n, 20 * n + 12, "sewer", "") for n in range(2)]
    found = learned(bench, *places, earlier=())
    who = {name: by for name, (_, _, by) in found.items()}
    assert who == {
        "seam0": "apprentice", "rivet0": "maker", "rivet1": "apprentice", "seam1": "sewer",
        "sew": "maker",
    }  # fmt: skip
    stood = laid(*places, in_pair("rivet0", 0, 16)).placed
    again = learned(bench, *places, earlier=stood)
    assert again["rivet0"][2] == "apprentice"
    assert again["seam0"][2] == "sewer"


def test_who_learns_is_no_step_that_is_moved(solver):
    bench, sew = shop(RIVET, SEW), ("sew", 100, 110, "maker", "")
    stood = stood_in(bench, laid(ALONE, sew))
    assert goals(stood, laid(LEARNED, sew).placed)[MOVED] == 0
    for places in ((ALONE, sew), (LEARNED, sew)):
        asked = stood_in(bench, laid(*places))
        assert spans(kept_plan(asked).placed) == spans(laid(*places).placed)
        found = best_plan(asked, solver, hint=laid(LEARNED, sew), seconds=5)
        assert next(s.value for s in found.stages if s.name == MOVED) == 0


def test_a_row_that_is_set_in_one_go_stays_where_it_is_learned():
    """Only the second of three is: done alone in less time, it would tear the row apart."""
    rivets = [replace(RIVET, id=f"rivet{n}") for n in range(3)]
    lags = tuple(Lag(first=f"rivet{n}", then=f"rivet{n + 1}", max_lag=0) for n in range(2))
    bench = shop(*rivets, LATER, workers=(MAKER, EARLY), lags=lags)
    plan = laid(
        ("rivet0", 0, 12, "maker", ""), in_pair("rivet1", 12, 28),
        ("rivet2", 28, 40, "maker", ""), ("sew", 100, 110, "maker", ""),
    )  # fmt: skip
    kept = kept_plan(stood_in(bench, plan))
    assert spans(kept.placed) == spans(plan.placed)
    assert spans(taught(bench, kept.placed, plan.placed))["rivet1"] == (12, 28, "apprentice")


def test_what_is_learned_stays_so_from_plan_to_plan():
    bench = shop(RIVET, replace(RIVET, id="rivet2"), LATER, workers=(MAKER, EARLY))
    plan = taught_plan(bench, first_plan(bench))
    assert learned_in(bench, plan.placed) == {"rivet", "rivet2"}
    went_by = plan
    for _ in range(3):
        kept = kept_plan(stood_in(bench, went_by))
        went_by = taught_plan(bench, kept, went_by.placed)
        assert spans(went_by.placed) == spans(plan.placed)
    # A plan laid anew gives way again for what was learned before.
    laid_anew = taught_plan(bench, first_plan(bench), plan.placed)
    assert spans(laid_anew.placed) == spans(plan.placed)
    # Once something has to lie there, what stood beside is alone again, and nothing is moved for it.
    fetch = replace(TIDY, id="fetch", earliest_min=16, latest_start_min=16)
    busy = replace(bench, activities=(*bench.activities, fetch))
    kept = kept_plan(stood_in(busy, plan))
    now = spans(taught_plan(busy, kept, plan.placed).placed)
    assert (now["rivet"], now["rivet2"]) == ((0, 16, "apprentice"), (16, 28, "maker"))


def test_the_plan_says_what_is_learned():
    bench = shop(RIVET, LATER, workers=(MAKER, EARLY))
    plan = taught_plan(bench, first_plan(bench))
    assert plan.placed != first_plan(bench).placed
    assert violations(bench, plan) == ()
    assert (
        "apprentice does 1 step with maker beside to learn it: both are there anyway, and no build "
        "ends later for it."
    ) in plan_words(plan, bench)[1].splitlines()
    assert "learn" not in plan_words(first_plan(bench), bench)[1]


def test_a_promise_reckons_with_both_and_with_the_longer_time():
    bench = shop(RIVET, SEW)
    placed = {p.id: p for p in laid(LEARNED, ("sew", 26, 36, "maker", "")).placed}
    work = next(w for w in pieces_of_work(bench, placed) if w.first.id == "rivet")
    assert (work.minutes, set(work.people), work.sitting_min) == (16, {"maker", "apprentice"}, 0)


def test_sittings_are_learned_each_and_another_teaches_too():
    long = replace(RIVET, modes=(alone("maker", 100),), taught=(pair(120),))
    parts = in_sittings(shop(long)).activities
    assert [(a.modes[0].minutes, a.taught[0].minutes) for a in parts] == [(50, 60), (50, 60)]
    helped = changed(shop(RIVET), AnotherPair(who="maker")).activities[0]
    assert {w.also for w in helped.taught} == {("maker",), ("maker 2",)}
    assert {w.who for w in helped.ways} == {"maker", "maker 2"}
