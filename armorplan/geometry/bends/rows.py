"""Rows of two layers across their bend: where each joint lies, and how much longer the outer row is."""

from collections.abc import Iterator
from itertools import pairwise
from math import inf
from typing import NamedTuple

from armorplan.geometry.bends.lines import Across, across_axis, crosses, widest
from armorplan.geometry.placing import fit
from armorplan.pattern.joining import Form, Joint
from armorplan.pattern.parts import Part, Point
from armorplan.pattern.pattern import Pattern

ONE_PLACE_MM = 1.0
"""Holes nearer to each other than this across the bend lie at one place of it."""


class Row(NamedTuple):
    """A joint through two layers, with the spots of its hole on either and its width in the outer."""

    joint: str
    outer: Point
    inner: Point
    hole_mm: float


def row_of(pattern: Pattern, joint: Joint, pair: tuple[str, str]) -> Row:
    """Return a joint's spots on two layers that lie on each other in its stack."""
    holes = [pattern.hole(hole) for hole in joint.stack]
    outer, inner = next(two for two in pairwise(holes) if (two[0].part, two[1].part) == pair)
    return Row(joint.id, outer.centre, inner.centre, outer.diameter_mm)


def across_of(
    over: tuple[Form, Part], under: tuple[Form, Part], rows: list[Row]
) -> tuple[Across, bool]:
    """Return the direction across the bend, and whether it is that of the outer part's drawing.

    An axis lies over one part of the drawing; of a part that lies elsewhere it tells the direction
    only. Without an axis holes are taken to lie across the bend as far as they can.
    """
    for (form, part), on_outer in ((under, False), (over, True)):
        if form.axis is not None and crosses(form.axis, part):
            across = across_axis(form.axis)
            if across is not None:
                return across, on_outer
    for (form, _), on_outer in ((over, True), (under, False)):
        across = across_axis(form.axis, lies_here=False) if form.axis is not None else None
        if across is not None:
            return across, on_outer
    return widest([row.inner for row in rows]), False


def wider_mm(
    placed: list[tuple[float, Row]], across: Across, layers: tuple[Part, Part], *, on_outer: bool
) -> float:
    """Return how much further apart, across the bend, the ends of the outer row lie.

    Holes of the other layer are laid on those of the one on which the direction is known, turned
    over where the two are drawn from unlike faces. Of several holes at an end their middle counts.
    """
    known = [row.outer if on_outer else row.inner for _, row in placed]
    other = [row.inner if on_outer else row.outer for _, row in placed]
    if layers[0].drawn_from_inside != layers[1].drawn_from_inside:
        other = [(-x, y) for x, y in other]
    laid = fit(known, other)
    if laid is None:
        return 0.0
    long_mm, other_mm = (
        _long_mm(placed, [across.place_mm(spot) for spot in spots])
        for spots in (known, map(laid.place, other))
    )
    return long_mm - other_mm if on_outer else other_mm - long_mm


def _long_mm(placed: list[tuple[float, Row]], places: list[float]) -> float:
    ends = [
        [
            place
            for (at_mm, _), place in zip(placed, places, strict=True)
            if abs(at_mm - end) <= ONE_PLACE_MM
        ]
        for end in (placed[0][0], placed[-1][0])
    ]
    first_mm, last_mm = (sum(each) / len(each) for each in ends)
    return last_mm - first_mm


def places_of(placed: list[tuple[float, Row]]) -> Iterator[tuple[float, str]]:
    """Yield the places across a bend at which there are holes, each with its first joint."""
    last_mm = -inf
    for place_mm, row in placed:
        if place_mm - last_mm > ONE_PLACE_MM:
            yield place_mm, row.joint
            last_mm = place_mm
