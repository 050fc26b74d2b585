"""Rows of two layers across their bend: where each joint lies, and how much longer the outer row is."""

from collections.abc import Iterator
from itertools import pairwise
from statistics import fmean
from typing import NamedTuple

from armorplan.geometry.bends.lines import Across, across_axis, as_faced, crosses, widest
from armorplan.geometry.placing import fit
from armorplan.pattern.joining import Form, Joint
from armorplan.pattern.parts import Hole, Part, Point
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


def hole_in(pattern: Pattern, joint: str, part: str) -> Hole:
    """Return the hole of a part that a joint passes."""
    holes = (pattern.hole(hole) for hole in pattern.joint(joint).stack)
    return next(hole for hole in holes if hole.part == part)


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


def longer_mm(
    placed: list[tuple[float, Row]], across: Across, layers: tuple[Part, Part], *, on_outer: bool
) -> tuple[float, ...]:
    """Return how much longer, across the bend, each spacing of the outer row is drawn.

    Holes of the other layer are laid on those of the one on which the direction is known, turned
    over where the two are drawn from unlike faces. Of several holes at one place their middle counts.
    """
    known = [row.outer if on_outer else row.inner for _, row in placed]
    other = as_faced([row.inner if on_outer else row.outer for _, row in placed], *layers)
    laid = fit(known, other)
    at = _shared_places(placed)
    if laid is None:
        return (0.0,) * (len(at) - 1)
    on_known, on_other = (
        [fmean(across.place_mm(spots[each]) for each in here) for here in at]
        for spots in (known, [laid.place(spot) for spot in other])
    )
    outer, inner = (on_known, on_other) if on_outer else (on_other, on_known)
    return tuple(
        (b - a) - (d - c) for (a, b), (c, d) in zip(pairwise(outer), pairwise(inner), strict=True)
    )


def places_of(placed: list[tuple[float, Row]]) -> Iterator[tuple[float, str]]:
    """Yield the places across a bend at which there are holes, each with its first joint."""
    for here in _shared_places(placed):
        place_mm, row = placed[here[0]]
        yield place_mm, row.joint


def _shared_places(placed: list[tuple[float, Row]]) -> list[list[int]]:
    """Return which of the joints, in their order across the bend, lie at one place of it."""
    found: list[list[int]] = []
    for at, (place_mm, _) in enumerate(placed):
        if found and place_mm - placed[found[-1][0]][0] <= ONE_PLACE_MM:
            found[-1].append(at)
        else:
            found.append([at])
    return found
