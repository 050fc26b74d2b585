"""How a plan keeps to the chosen order."""

from dataclasses import replace

from schedule.small_problems import by_hand, plan_of, problem, waiting

from armorplan.schedule.keeping import jumps, order_pairs
from armorplan.schedule.problem import Job

THREE = problem(*(by_hand(n, priority=at) for at, n in enumerate("abc")))


def test_jumps_count_neighbours_the_other_way_round():
    assert order_pairs(THREE) == (("a", "b"), ("b", "c"))
    assert jumps(THREE, plan_of(THREE, ("a", 0, 10), ("b", 10, 20), ("c", 20, 30)).placed) == 0
    assert jumps(THREE, plan_of(THREE, ("c", 0, 10), ("a", 10, 20), ("b", 20, 30)).placed) == 1
    assert jumps(THREE, plan_of(THREE, ("c", 0, 10), ("b", 10, 20), ("a", 20, 30)).placed) == 2


def test_drying_history_and_equal_priorities_have_no_chosen_order():
    bench = problem(
        by_hand("a", priority=0),
        waiting("dry", priority=1),
        by_hand("past", priority=2, fixed_start_min=-10, fixed_end_min=0),
        by_hand("b", priority=3),
        by_hand("c", priority=3),
    )
    assert order_pairs(bench) == (("a", "b"),)


def test_each_build_has_a_chosen_order_of_its_own():
    bench = problem(*(by_hand(n, priority=at) for at, n in enumerate("axbycz")))
    jobs = tuple(Job(id=name, activities=tuple(name)) for name in ("ab", "xy"))
    bench = replace(bench, jobs=jobs)
    assert order_pairs(bench) == (("a", "b"), ("x", "y"), ("c", "z"))
    plan = plan_of(bench, *((n, 10 * at, 10 * at + 10) for at, n in enumerate("xyabcz")))
    assert jumps(bench, plan.placed) == 0
