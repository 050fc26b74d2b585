"""Every kind of constraint means what its docstring says; statuses are honest."""

import threading
from dataclasses import replace

import pytest
from solving.small_models import long_search, two_tasks

from armorplan.solving import cpsat
from armorplan.solving.model import (
    AtLeastOne,
    Cumulative,
    Effort,
    Element,
    ExactlyOne,
    Interval,
    Latest,
    Least,
    Linear,
    Model,
    ModelError,
    NoOverlap,
    Number,
    Outcome,
    at_least,
    at_most,
)

EFFORT = Effort(seconds=20)


def solve(model, on_better=None):
    return cpsat.solve(model, threading.Event(), on_better)


def number(name, low=0, high=20):
    return Number(name=name, ranges=((low, high),))


def least(*terms, **parts):
    answer = solve(Model(effort=EFFORT, objective=Least(terms=terms), **parts))
    assert answer.status is Outcome.BEST
    return answer.objective, dict(answer.values)


def test_domains_with_gaps_no_overlap_and_the_latest_end():
    answer = solve(two_tasks())
    values = dict(answer.values)
    assert answer.status is Outcome.BEST
    assert (answer.objective, answer.bound, values["a"]) == (15, 15, 10)


def test_the_latest_end_is_never_below_its_range():
    model = replace(two_tasks(), objective=Latest(of=(("a", 5), ("b", 4)), ranges=((40, 100),)))
    answer = solve(model)
    assert (answer.objective, answer.bound) == (40, 40)


def test_linear_holds_only_if_its_literals_do():
    wanted = Linear(terms=(("x", 1),), ranges=at_least(7), only_if=("on", "~off"))
    parts = {"numbers": (number("x"),), "booleans": ("on", "off"), "constraints": (wanted,)}
    assert least(("x", 1), **parts)[0] == 0
    held = {**parts, "constraints": (wanted, ExactlyOne(literals=("on",)))}
    assert least(("x", 1), ("off", 3), **held)[0] == 3
    both = (*held["constraints"], ExactlyOne(literals=("~off",)))
    assert least(("x", 1), **{**held, "constraints": both})[0] == 7


def test_element_looks_up_its_table():
    look_up = Element(index="at", table=(9, 4, 6), target="x")
    best, values = least(("x", 1), numbers=(number("at"), number("x")), constraints=(look_up,))
    assert (best, values["at"]) == (4, 1)


def test_cumulative_keeps_to_its_capacity():
    names = ("a", "b", "c")
    parts = {
        "numbers": tuple(number(n) for n in names),
        "intervals": tuple(Interval(name=f"i{n}", start=n, size=5) for n in names),
        "constraints": (Cumulative(intervals=("ia", "ib", "ic"), demands=(1, 1, 2), capacity=2),),
    }
    _, values = least(*((n, 1) for n in names), **parts)
    assert values == {"a": 0, "b": 0, "c": 5}


def test_an_optional_interval_takes_no_time_where_it_is_not():
    parts = {
        "numbers": (number("a", 0, 4),),
        "booleans": ("is",),
        "intervals": (
            Interval(name="i", start="a", size=3, only_if="is"),
            Interval(name="wall", start=0, size=10),
        ),
        "constraints": (NoOverlap(intervals=("i", "wall")),),
    }
    assert least(("is", -1), **parts)[1]["is"] == 0


def test_an_interval_may_have_a_variable_size():
    parts = {
        "numbers": (number("s"), number("size", 2, 6), number("e")),
        "intervals": (
            Interval(name="i", start="s", size="size", end="e"),
            Interval(name="wall", start=3, size=10),
        ),
        "constraints": (
            NoOverlap(intervals=("i", "wall")),
            Linear(terms=(("size", 1),), ranges=at_least(4)),
        ),
    }
    assert least(("e", 1), **parts)[0] == 17


def test_at_least_and_exactly_one():
    parts = {"booleans": ("x", "y")}
    two = AtLeastOne(literals=("x", "y"))
    one = ExactlyOne(literals=("x", "y"))
    assert least(("x", -1), ("y", -1), constraints=(two,), **parts)[0] == -2
    assert least(("x", -1), ("y", -1), constraints=(one,), **parts)[0] == -1
    assert least(("x", 1), ("y", 1), constraints=(two,), **parts)[0] == 1


def test_what_cannot_be_is_called_so():
    clash = (
        Linear(terms=(("x", 1),), ranges=at_most(3)),
        Linear(terms=(("x", 1),), ranges=at_least(4)),
    )
    answer = solve(Model(effort=EFFORT, numbers=(number("x"),), constraints=clash))
    assert (answer.status, answer.values) == (Outcome.NONE, ())


def test_a_ring_of_orders_cannot_be():
    steps = [f"p{n}" for n in range(6)]
    before = [(a, b) for a, b in zip(steps, steps[1:] + steps[:1], strict=True)]
    model = Model(
        effort=EFFORT,
        numbers=tuple(number(s, 0, 5) for s in steps),
        intervals=tuple(Interval(name=f"i{s}", start=s, size=1) for s in steps),
        constraints=(
            NoOverlap(intervals=tuple(f"i{s}" for s in steps)),
            *(Linear(terms=((b, 1), (a, -1)), ranges=at_least(1)) for a, b in before),
        ),
    )
    assert solve(model).status is Outcome.NONE


def test_better_answers_are_told_and_get_better():
    told, stop = [], threading.Event()

    def on_better(answer):
        told.append(answer)
        if len(told) >= 2:
            stop.set()

    answer = cpsat.solve(long_search(seconds=60.0), stop, on_better)
    values = [a.objective for a in told]
    assert len(values) > 1
    assert values == sorted(values, reverse=True)
    assert answer.objective == values[-1]
    assert answer.status is Outcome.STOPPED
    assert answer.bound is not None
    assert answer.bound < answer.objective


def test_a_stop_before_the_search_is_heard():
    stop = threading.Event()
    stop.set()
    assert cpsat.solve(long_search(), stop).status is Outcome.STOPPED


def test_a_stop_in_the_search_is_never_called_best():
    stop = threading.Event()
    answer = cpsat.solve(long_search(), stop, lambda _: stop.set())
    assert answer.status is Outcome.STOPPED
    assert answer.values


def test_out_of_time_without_an_answer():
    assert solve(long_search(seconds=0.0)).status is Outcome.OUT_OF_TIME


def test_the_work_limit_gives_the_same_answer_again():
    model = replace(long_search(tasks=25), effort=Effort(seconds=60, work=0.05))
    assert solve(model).values == solve(model).values


def test_hints_are_started_from():
    plain, hinted = [], []
    found = solve(long_search(seconds=2.0), plain.append)
    model = replace(long_search(seconds=2.0), hints=found.values)
    solve(model, hinted.append)
    assert plain[0].objective > found.objective
    assert hinted[0].objective <= found.objective


@pytest.mark.parametrize(
    "parts",
    [
        {"constraints": (NoOverlap(intervals=("nowhere",)),)},
        {"objective": Least(terms=(("nobody", 1),))},
        {"constraints": (ExactlyOne(literals=("~nobody",)),)},
        {"numbers": (Number(name="x", ranges=((0, 2**70),)),)},
    ],
)
def test_a_model_that_makes_no_sense_is_refused(parts):
    with pytest.raises((ModelError, OverflowError, TypeError)):
        solve(Model(effort=EFFORT, **parts))
