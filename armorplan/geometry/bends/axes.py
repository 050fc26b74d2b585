"""Where the axis of a form lies on each of its parts: drawn over one, carried to those it is joined to."""

from collections.abc import Sequence
from itertools import pairwise

from armorplan.geometry.bends.kinds import BENT_KINDS
from armorplan.geometry.bends.lines import Axis, as_faced, crosses
from armorplan.geometry.placing import fit
from armorplan.pattern.parts import Part, Point
from armorplan.pattern.pattern import Pattern

_MISS_SHARE = 0.1
"""Rows that miss by more than this share of their length do not tell where an axis comes to lie."""

Axes = dict[tuple[str, str], Axis]
"""By the ids of a form and a part."""
_Shared = dict[tuple[str, str], list[tuple[Point, Point]]]


def bend_axes(pattern: Pattern) -> Axes:
    """Return the axis of each bend on each part over which it is drawn, or carried by two holes."""
    found: Axes = {}
    shared: _Shared | None = None
    for form in pattern.forms:
        if form.axis is None or form.kind not in BENT_KINDS:
            continue
        parts = [pattern.part(part) for part in form.parts]
        drawn = {part.id: form.axis for part in parts if crosses(form.axis, part)}
        if 0 < len(drawn) < len(form.parts):
            shared = _shared(pattern) if shared is None else shared
            _carry(parts, drawn, shared)
        found |= {(form.id, part): axis for part, axis in drawn.items()}
    return found


def _shared(pattern: Pattern) -> _Shared:
    """Return the holes of each two parts that lie on each other, both ways round."""
    found: _Shared = {}
    for joint in pattern.joints:
        for one, other in pairwise(map(pattern.hole, joint.stack)):
            if one.part != other.part:
                found.setdefault((one.part, other.part), []).append((one.centre, other.centre))
                found.setdefault((other.part, one.part), []).append((other.centre, one.centre))
    return found


def _carry(parts: Sequence[Part], drawn: dict[str, Axis], shared: _Shared) -> None:
    """Add the parts of a form that are joined, directly or by others, to one with an axis."""
    of_id = {part.id: part for part in parts}
    grown = True
    while grown:
        grown = False
        for part in parts:
            axis = None if part.id in drawn else _carried(part, drawn, (of_id, shared))
            if axis is not None:
                drawn[part.id] = axis
                grown = True


def _carried(
    part: Part, drawn: dict[str, Axis], joined: tuple[dict[str, Part], _Shared]
) -> Axis | None:
    of_id, shared = joined
    for other, axis in drawn.items():
        spots = shared.get((part.id, other), [])
        there = as_faced([spot for _, spot in spots], of_id[other], part)
        laid = fit([here for here, _ in spots], there)
        if laid is None:
            continue
        xs, ys = zip(*there, strict=True)
        length_mm = max(max(xs) - min(xs), max(ys) - min(ys))
        if laid.worst_mm <= _MISS_SHARE * length_mm:
            one, end = map(laid.place, as_faced(axis, of_id[other], part))
            return one, end
    return None
