"""The ways back side by side: one for each means, the one to choose first."""

from dataclasses import replace

from hypothesis import given, settings
from orders.recovery.random_recoveries import SEEDS, dijkstra, mild_first, orderly, without_risk

from armorplan.orders.recovery.by_means import UNDOING, by_means
from armorplan.orders.recovery.checking import faults_of
from armorplan.orders.recovery.model import Bar, Cost, Doing, Means, RecoveryProblem, TakeBack
from armorplan.orders.recovery.search import cheapest, only


def doing(name, does, minutes, means=None, **more):
    cost = Cost(minutes=minutes, risk_pct=more.pop("risk_pct", 0.0), loss_min=0.0)
    spite = frozenset(more.pop("spite", ()))
    return Doing(id=name, does=does, title=name, means=means, cost=cost, in_spite_of=spite, **more)


def back(name, means, clears, minutes, needs_open=()):
    return TakeBack(
        id=name,
        means=means,
        title=name,
        clears=frozenset(clears),
        needs_open=frozenset(needs_open),
        cost=Cost(minutes=minutes),
    )


def bar(first, *of, opening=False):
    return Bar(id=f"{first}<{'+'.join(of)}", first=first, of=frozenset(of), bars_opening=opening)


CLOSED = RecoveryProblem(
    done=frozenset({"row_1", "row_2", "screw"}),
    goal=frozenset({"row_1", "row_2", "screw", "strap"}),
    bars=(bar("strap", "row_1", "row_2"), bar("strap", "screw"), bar("row_2", "screw")),
    moves=(
        doing("strap", "strap", 4),
        doing("stake", "strap", 9, Means.OTHER_TOOL, spite={"strap<row_1+row_2"}),
        doing("live", "strap", 60, Means.AS_IS, spite={"strap<row_1+row_2", "strap<screw"}),
        doing("row_1", "row_1", 3),
        doing("row_2", "row_2", 3),
        doing("screw", "screw", 1),
        back("drill_1", Means.DRILL, {"row_1"}, 6),
        back("drill_2", Means.DRILL, {"row_2"}, 5),
        back("unscrew", Means.UNSCREW, {"screw"}, 1),
    ),
)
"""A strap behind a closed row and a screw, which both have to be opened or reached past."""


def ids(recovery):
    return [move.id for move in recovery.moves]


def test_each_means_has_its_way_and_the_cheapest_is_first():
    told = by_means(CLOSED)
    assert [ids(one) for one in told] == [
        ["unscrew", "stake", "screw"],
        ["unscrew", "drill_2", "strap", "row_2", "screw"],
        ["live"],
    ]
    assert all(one.proved for one in told)
    assert all(faults_of(CLOSED, one.moves) == () for one in told)


def test_a_way_too_risky_stands_last_however_cheap():
    moves = [m for m in CLOSED.moves if m.id != "stake"]
    spite = {"strap<row_1+row_2", "strap<screw"}
    risky = doing("force", "strap", 1, Means.OTHER_TOOL, spite=spite, risk_pct=35.0)
    told = by_means(replace(CLOSED, moves=(*moves, risky)))
    assert ids(told[-1]) == ["force"]
    assert told[-1].ticks == min(one.ticks for one in told)


def test_small_risks_at_many_places_do_not_make_all_of_them_be_cut_anew():
    places = "abc"
    problem = RecoveryProblem(
        done=frozenset(f"{p} cut" for p in places),
        goal=frozenset(f"{p} cut" for p in places) | frozenset(f"{p} mended" for p in places),
        bars=(),
        moves=tuple(
            move
            for p in places
            for move in (
                doing(f"{p} plug", f"{p} mended", 9, Means.PLUG, risk_pct=12.0),
                doing(f"{p} gone", f"{p} mended", 0, needs_open=frozenset({f"{p} cut"})),
                back(f"{p} anew", Means.REMAKE, {f"{p} cut"}, 60),
                doing(f"{p} cut", f"{p} cut", 10),
            )
        ),
    )
    told = by_means(problem)
    assert told[0].means == (Means.PLUG,)
    assert told[0].risk_pct > problem.rates.most_risk_pct
    assert told[-1].means == (Means.REMAKE,)


def test_what_has_no_part_in_a_way_back_makes_none_of_its_own():
    idle = back("drill_badge", Means.REMAKE, {"badge"}, 0)
    problem = replace(
        CLOSED,
        done=CLOSED.done | {"badge"},
        goal=CLOSED.goal | {"badge"},
        moves=(*CLOSED.moves, idle, doing("badge", "badge", 0)),
    )
    assert not any("drill_badge" in ids(one) for one in by_means(problem))


def test_two_places_are_mended_by_the_same_means_where_they_can_be():
    other = RecoveryProblem(
        done=frozenset({"rim"}),
        goal=frozenset({"rim", "boss"}),
        bars=(bar("boss", "rim"),),
        moves=(
            doing("boss", "boss", 2),
            doing("rim", "rim", 2),
            doing("boss_stake", "boss", 20, Means.OTHER_TOOL, spite={"boss<rim"}),
            back("rim_off", Means.UNSCREW, {"rim"}, 1),
        ),
    )
    both = RecoveryProblem(
        done=CLOSED.done | other.done,
        goal=CLOSED.goal | other.goal,
        bars=CLOSED.bars + other.bars,
        moves=CLOSED.moves + other.moves,
    )
    told = [set(ids(one)) for one in by_means(both)]
    assert {"unscrew", "stake", "screw", "boss_stake"} in told
    assert told[0] == {"unscrew", "stake", "screw", "rim_off", "boss", "rim"}


def test_nothing_to_mend_is_one_way_as_usual():
    problem = replace(CLOSED, done=frozenset())
    (told,) = by_means(problem)
    assert told.means == ()
    assert faults_of(problem, told.moves) == ()


@settings(max_examples=30, deadline=None)
@given(SEEDS)
def test_a_means_without_which_nothing_leads_back_is_told_at_its_least_price(seed):
    problem = without_risk(orderly(seed))
    told = by_means(problem)
    for means in sorted({move.means for move in problem.moves if move.means}):
        least = dijkstra(only(problem, UNDOING | {means}))
        if least is not None and dijkstra(only(problem, UNDOING - {means})) is None:
            assert min(one.ticks for one in told if means in one.means) <= least


@settings(max_examples=40, deadline=None)
@given(SEEDS)
def test_every_way_holds_and_the_cheapest_is_among_them(seed):
    problem = orderly(seed)
    told = by_means(problem)
    least, best = mild_first(problem), cheapest(problem)
    assert bool(told) == (least is not None)
    if best is not None:
        assert any(one.ticks == best.ticks for one in told)
        assert best.ticks <= least
    for one in told:
        assert faults_of(problem, one.moves) == ()
        assert one.ticks == problem.ticks(one.moves) >= one.bound
    risky = [len(one.too_risky(problem.rates)) for one in told]
    assert risky == sorted(risky)
    assert len({frozenset(ids(one)) for one in told}) == len(told)
