"""Layers that lay flat on each other, hole on hole, and have to lie so in another size."""

from collections.abc import Sequence
from itertools import starmap

from armorplan.geometry.placing import Fit, fit
from armorplan.pattern.parts import Point

FLAT_MM = 0.1
"""Rows whose holes meet within this lie flat on each other; others are drawn into shape."""

Spots = Sequence[Point]


def hand_of(lead: Spots, other: Spots) -> int:
    """Return how the holes of another layer lie on those of the leading one, flat.

    Returns:
        1: as both are drawn; -1: turned over, too; 0: not flat.
    """
    for hand in (1, -1):
        laid = _laid(other, lead, hand)
        if laid is not None and laid.worst_mm <= FLAT_MM:
            return hand
    return 0


def moved_onto(lead: Spots, other: Spots, hand: int) -> list[Point]:
    """Return the spots of the leading layer moved as one to where the other's lie best."""
    laid = _laid(other, lead, hand)
    return list(other) if laid is None else [laid.place((hand * x, y)) for x, y in lead]


def shared_shape(lead: Spots, others: Sequence[tuple[Spots, int]]) -> list[Point]:
    """Return the shape that all layers can have alike: the mean of theirs, laid on the leading one.

    Args:
        lead: spots of the leading layer.
        others: spots of layers that lie flat on it, each with its hand.
    """
    layers = [list(lead)]
    for spots, hand in others:
        laid = fit(lead, [(hand * x, y) for x, y in spots])
        if laid is not None:
            layers.append([laid.place((hand * x, y)) for x, y in spots])
    return list(starmap(_mean, zip(*layers, strict=True)))


def _mean(*spots: Point) -> Point:
    return sum(x for x, _ in spots) / len(spots), sum(y for _, y in spots) / len(spots)


def _laid(on: Spots, lead: Spots, hand: int) -> Fit | None:
    return fit(on, [(hand * x, y) for x, y in lead])
