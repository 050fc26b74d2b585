"""Lames after a change of size: what lies under the neighbour at the end of the bend, and more depth."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from armorplan.geometry.holes.edges import too_close
from armorplan.geometry.lames.chains import Turn, declared_chains, hung
from armorplan.geometry.lames.links import links
from armorplan.geometry.lames.sides import least_left_mm
from armorplan.geometry.sizing.stretches import box_mm
from armorplan.pattern.parts import PartKind, Point
from armorplan.pattern.pattern import Pattern

_SHORT_MM = 0.25
"""So little less under the neighbour than was drawn is let be."""
_EAGER = 1.5
"""A height that grows by less than this many times what is short would take too many rounds."""
MOST_DEEPER = 1.15
"""A lame gets no deeper than by this share beside what its length asks."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Deeper:
    """By how much lames are made deeper, beside what their length asks.

    Attributes:
        factors: of their height, by lame.
        shifts: by pivot, how far it moves inward from the edge that laps, in mm on the drawing.
    """

    factors: Mapping[str, float] = field(default_factory=dict)
    shifts: Mapping[str, Point] = field(default_factory=dict)


def left_of(pattern: Pattern) -> dict[tuple[str, str], float]:
    """Return what stays under at the end of the bend in mm, by upper and lower plate."""
    found = ((turn, least_left_mm(turn)) for turn in _turns(pattern))
    return {(turn.upper, turn.lower): left for turn, left in found if left is not None}


def _turns(pattern: Pattern) -> Iterator[Turn]:
    for chain in declared_chains(pattern, hung(pattern, links(pattern))):
        yield from chain.turns


def deeper(before: Pattern, after: Pattern, kept_mm: float, found: Deeper) -> Deeper:
    """Return by how much more the lames grow in height that came to lie too short.

    A girth that grows carries the edge farther from its pivots, so that it slides more: the overlap
    wants r·θ at the new r. The lame gets as much deeper as its pivots move in from that edge, so that
    the chain stays as long. A lame that shrinks brings its upper and its lower pivots together, which
    want three diameters between them.

    Args:
        before: as it was drawn.
        after: in its new size.
        kept_mm: how much should stay under where it did; less is asked where less was drawn.
        found: what was found before; the answer takes its place.
    """
    factors, shifts = dict(found.factors), dict(found.shifts)
    for turn, part, short in _uncovered(before, after, kept_mm):
        _grow(factors, part, short / _height_mm(after, part))
        for hole, by in _inward(turn, part, short):
            x, y = shifts.get(hole, (0.0, 0.0))
            shifts[hole] = (x + by[0], y + by[1])
    for part, short in _crowded(before, after):
        _grow(factors, part, _EAGER * short / _height_mm(after, part))
    return Deeper(factors=factors, shifts=shifts)


def _grow(factors: dict[str, float], part: str, share: float) -> None:
    factors[part] = min(MOST_DEEPER, factors.get(part, 1.0) * (1.0 + share))


def _uncovered(
    before: Pattern, after: Pattern, kept_mm: float
) -> Iterator[tuple[Turn, str, float]]:
    """Yield the lames whose overlap runs out, with their share of what is short."""
    drawn = left_of(before)
    for turn in _turns(after):
        left = least_left_mm(turn)
        if left is None:
            continue
        pair = (turn.upper, turn.lower)
        short = min(kept_mm, drawn.get(pair, kept_mm)) - left
        lames = [part for part in pair if after.part(part).kind is PartKind.LAME]
        if short > _SHORT_MM:
            yield from ((turn, part, short / len(lames)) for part in lames)


def _inward(turn: Turn, part: str, by_mm: float) -> Iterator[tuple[str, Point]]:
    """Yield the pivots of a lame with their moves away from the edge that laps its neighbour."""
    if turn.link is None:
        return
    seat = turn.link.seat(part)
    way = by_mm if part == turn.upper else -by_mm
    for hole in (seat.first, seat.second):
        yield hole.id, (way * seat.up[0], way * seat.up[1])


def _crowded(before: Pattern, after: Pattern) -> Iterator[tuple[str, float]]:
    """Yield the lames whose holes came to lie too near each other, and were not drawn so."""
    for part in after.parts:
        if part.kind is not PartKind.LAME:
            continue
        drawn = {(pair.one.id, pair.other.id) for pair in too_close(before.part(part.id))}
        lacks = [p.lacks_mm for p in too_close(part) if (p.one.id, p.other.id) not in drawn]
        if lacks:
            yield part.id, max(lacks)


def _height_mm(pattern: Pattern, part: str) -> float:
    return box_mm(pattern.part(part).outline, pattern.part(part).up_deg)[0]
