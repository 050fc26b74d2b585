"""Orders of pinning counted through the state space of pins, against published sequences.

Parts are pinned to each other along a graph; each pin after the first holds on to what is held. The
first pin takes two parts, in either order, and each further one of a tree one more: so the orders
of pins, twice, are the connected part orders. Those are 2^(n-1) of a chain and 2 (n-1)! of a star
(L. S. Homem de Mello and A. C. Sanderson, AND/OR graphs of assembly plans, 1991). Without that,
all orders of the joins of a tree of n parts count: (n-1)!.

The fewest rounds that see every two of v rows together, k at a time, are the covering numbers
C(v, k, 2): C(6, 3, 2) = 6, C(7, 3, 2) = 7 (the Fano plane), C(6, 4, 2) = 3, C(7, 4, 2) = 5 (D. M.
Gordon, G. Kuperberg and O. Patashnik, New constructions for covering designs, 1995, table 2; from
memory), none below the bound of J. Schönheim (1964).
"""

import threading
from functools import cache
from itertools import combinations
from math import ceil, factorial

import pytest

from armorplan.orders.pinning import exact
from armorplan.orders.pinning.bounds import fewest_by_counting
from armorplan.orders.pinning.checking import faults_of
from armorplan.orders.pinning.model import PinProblem, PinSpot, PinStock, SeamNeed
from armorplan.orders.pinning.ordering import order_of_pins
from armorplan.orders.pinning.rounds import fewest_rounds
from armorplan.solving import cpsat


def chain(size):
    return {f"{at}": {at, at + 1} for at in range(size - 1)}


def star(size):
    return {f"{at}": {0, at} for at in range(1, size)}


def loose(parts):
    """The same pins as if each held the others' parts: nothing is ever in the air."""
    return {pin: {"all"} for pin in parts}


def lasts(parts, pins):
    """The pins that the program lets go in last, each where it is the one that would like to."""
    held = {pin: parts[pin] for pin in pins}
    return [
        pin
        for pin in sorted(pins)
        if order_of_pins(held, lambda *_: True, {**dict.fromkeys(pins, 0), pin: 1}).order[-1]
        == pin
    ]


def count_orders(parts):
    """Count the orders of pins from their back, as the program looks for one."""

    @cache
    def orders(pins):
        return sum(orders(pins - {pin}) for pin in lasts(parts, pins)) if pins else 1

    return orders(frozenset(parts))


@pytest.mark.parametrize("size", range(2, 8))
def test_connected_part_orders(size):
    assert 2 * count_orders(chain(size)) == 2 ** (size - 1)
    assert 2 * count_orders(star(size)) == 2 * factorial(size - 1)
    assert count_orders(loose(chain(size))) == factorial(size - 1)


@pytest.mark.parametrize(
    ("rows", "at_once", "fewest", "sets"),
    [
        (6, 3, 6, exact.MOST_SETS),
        (7, 3, 7, exact.MOST_SETS),
        (6, 4, 3, exact.MOST_SETS),
        (7, 4, 5, exact.MOST_SETS),
        pytest.param(6, 3, 6, 0, id="by the solver"),
        pytest.param(7, 3, 7, 0, id="by the solver as well"),
    ],
)
def test_covering_numbers(monkeypatch, rows, at_once, fewest, sets):
    monkeypatch.setattr(exact, "MOST_SETS", sets)
    seams = tuple(
        SeamNeed(
            id=str(at), spots=tuple(PinSpot(joint=f"{at}.{n}", kinds=("pin",)) for n in range(2))
        )
        for at in range(rows)
    )
    pairs = tuple(combinations((seam.id for seam in seams), 2))
    problem = PinProblem(seams=seams, together=pairs, stock=PinStock(counts={"pin": 2 * at_once}))
    found = fewest_rounds(problem, lambda model: cpsat.solve(model, threading.Event()))
    assert faults_of(problem, found) == ()
    assert (len(found.rounds), found.proved) == (fewest, True)
    assert fewest_by_counting(problem) == ceil(rows / at_once * ceil((rows - 1) / (at_once - 1)))
