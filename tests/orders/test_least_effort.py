import random
import threading

import pytest
from hypothesis import given, settings
from orders.effort_cases import allowed, best_by_all, problem, problems, rise, work

from armorplan.orders.effort_bits import EffortBits, cost_of
from armorplan.orders.effort_greedy import greedy
from armorplan.orders.effort_model import Atom, EffortProblem
from armorplan.orders.effort_solver import by_solver
from armorplan.orders.least_effort import least_effort
from armorplan.solving import cpsat
from armorplan.solving.keeper import SolverKeeper
from armorplan.solving.model import Answer, Outcome


def solve(model):
    """Ask the solver here; the program asks it in a process of its own."""
    return cpsat.solve(model, threading.Event())


@given(problems())
@settings(max_examples=30, deadline=None)
def test_no_order_takes_less_work(case):
    best = best_by_all(case)
    found = least_effort(case)
    if best is None:
        assert found.order == ()
        assert not found.proved
        return
    assert sorted(found.order) == sorted(atom.id for atom in case.atoms)
    assert allowed(found.order, case)
    assert found.spent.work_min == pytest.approx(work(found.order, case))
    assert found.spent.work_min == pytest.approx(best)
    assert found.bound_min == pytest.approx(best)
    assert found.proved


@pytest.mark.long
@given(problems())
@settings(max_examples=500, deadline=None)
def test_no_order_takes_less_work_in_many_drawings(case):
    test_no_order_takes_less_work.hypothesis.inner_test(case)


@given(problems())
@settings(max_examples=30, deadline=None)
def test_the_start_keeps_what_is_hard_and_is_there_whenever_an_order_is(case):
    bits = EffortBits(case)
    start = greedy(bits)
    if start is None:
        assert best_by_all(case) is None
    else:
        assert allowed([bits.ids[at] for at in start], case)
        assert sum(bits.base) + bits.bound() <= round(100 * best_by_all(case))


@pytest.mark.long
@given(problems())
@settings(max_examples=500, deadline=None)
def test_the_start_keeps_what_is_hard_and_is_there_whenever_an_order_is_in_many_drawings(case):
    test_the_start_keeps_what_is_hard_and_is_there_whenever_an_order_is.hypothesis.inner_test(case)


@given(problems(names="abcde"))
@settings(max_examples=15, deadline=None)
def test_the_solver_agrees_with_every_order_tried(case):
    best, bits = best_by_all(case), EffortBits(case)
    start = greedy(bits)
    if start is None:
        return
    order, bound = by_solver(bits, start, solve)
    assert allowed([bits.ids[at] for at in order], case)
    assert sum(bits.base) + sum(bits.extras(order)) == round(100 * best)
    assert sum(bits.base) + bound == round(100 * best)


def test_equal_efforts_leave_the_listing():
    assert least_effort(problem("cab")).order == tuple("cab")
    tied = problem("cab", rises=[rise("a", "c", 2), rise("c", "a", 2)])
    assert least_effort(tied).order == tuple("cab")


def test_a_strap_is_set_before_the_cop_is_closed():
    case = problem(["side", "strap"], rises=[rise("strap", ["side"], 4)])
    found = least_effort(case)
    assert found.order == ("strap", "side")
    assert (found.spent.work_min, found.bound_min, found.proved) == (20, 20, True)


def test_what_the_other_order_would_cost():
    case = problem(["side", "strap"], rises=[rise("strap", ["side"], 4, tool="stake")])
    other = cost_of(case)(["side", "strap"])
    assert other.work_min == 24
    assert dict(other.by_atom) == {"side": 10, "strap": 14}


def test_a_rise_counts_once_all_it_follows_is_done():
    case = problem("abj", rises=[rise("j", "ab", 5)])
    assert cost_of(case)("ajb").work_min == 30
    assert cost_of(case)("abj").work_min == 35


def test_of_rises_of_one_reason_the_dearest_counts_and_reasons_add_up():
    case = problem(
        "abj",
        rises=[
            rise("j", "a", 2, why="depth"),
            rise("j", "ab", 5, why="depth"),
            rise("j", "b", 1, why="wish"),
        ],
    )
    assert cost_of(case)("abj").work_min == 36


def test_tools_come_second():
    atoms = tuple(
        Atom(id=name, minutes=1, tool=tool)
        for name, tool in zip("abcd", ["anvil", "stake", "anvil", "stake"], strict=True)
    )
    case = EffortProblem(atoms=atoms, tool_change_min=1)
    found = least_effort(case)
    assert found.order == tuple("acbd")
    assert found.spent.change_min == found.change_bound_min == 1
    dearer = EffortProblem(atoms=atoms, tool_change_min=1, rises=(rise("b", "c", 0.5),))
    assert least_effort(dearer).spent.work_min == 4


def test_where_any_tool_serves_the_one_in_hand_stays():
    tools = ["anvil", "", "anvil"]
    atoms = tuple(Atom(id=n, minutes=1, tool=t) for n, t in zip("abc", tools, strict=True))
    case = EffortProblem(atoms=atoms, tool_change_min=1)
    assert least_effort(case).spent.change_min == 0


def test_the_work_is_turned_over_as_seldom_as_it_can_be():
    atoms = tuple(Atom(id=n, minutes=1, way=w) for n, w in zip("abc", "xyx", strict=True))
    found = least_effort(EffortProblem(atoms=atoms, turn_over_min=0.5))
    assert found.order == tuple("acb")
    assert found.spent.change_min == 0.5


def test_a_contradiction_leaves_no_order():
    assert least_effort(problem("ab", before=(("a", "b"), ("b", "a")))).order == ()
    assert least_effort(problem("a", before=(("a", "a"),))).order == ()


def tangle(size, *, seed):
    """Return atoms in one group that cannot all be had cheap."""
    pick = random.Random(seed)  # noqa: S311 - the same tangle every time
    names = [f"row {at}" for at in range(size)]
    rises = []
    for name in names:
        for _ in range(3):
            after = pick.sample([n for n in names if n != name], pick.randint(1, 3))
            rises.append(rise(name, after, pick.randint(1, 8) / 2))
    return problem(names, rises=rises)


def test_beyond_the_subsets_there_is_an_order_with_an_honest_bound():
    case = tangle(20, seed=1)
    found = least_effort(case)
    assert sorted(found.order) == sorted(atom.id for atom in case.atoms)
    assert found.bound_min <= found.spent.work_min
    assert not found.proved


def test_beyond_the_subsets_the_solver_proves_it():
    case = tangle(20, seed=1)
    alone, proved = least_effort(case), least_effort(case, solve=solve)
    assert proved.proved
    assert alone.bound_min <= proved.bound_min == proved.spent.work_min <= alone.spent.work_min
    assert work(proved.order, case) == pytest.approx(proved.spent.work_min)


def test_the_solver_proves_it_in_a_process_of_its_own():
    case = tangle(16, seed=3)
    with SolverKeeper() as keeper:
        found = least_effort(case, solve=keeper.solve)
    assert found.proved
    assert allowed(found.order, case)


def test_a_solver_stopped_early_leaves_the_start_and_its_bound():
    case = tangle(20, seed=1)
    alone = least_effort(case)
    stopped = least_effort(case, solve=lambda _: Answer(status=Outcome.STOPPED))
    assert (stopped.order, stopped.bound_min, stopped.proved) == (
        alone.order,
        alone.bound_min,
        False,
    )


def test_the_solver_agrees_with_the_subsets():
    case = tangle(12, seed=2)
    bits = EffortBits(case)
    order, bound = by_solver(bits, greedy(bits), solve)
    found = least_effort(case)
    assert sum(bits.extras(order)) == bound
    assert found.spent.work_min == 120 + bound / 100


def test_the_bound_of_what_must_come_before():
    # b has to come after a and is then dearer: no order saves that.
    case = problem("abc", before=(("a", "b"),), rises=[rise("b", "a", 3), rise("c", "b", 1)])
    found = least_effort(case)
    assert found.order == tuple("acb")
    assert found.spent.work_min == found.bound_min == 33
