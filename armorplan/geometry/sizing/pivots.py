"""Pivots after a change of size: an outer plate stays longer from pivot to pivot by what lies under it."""

from collections.abc import Collection
from math import dist

from armorplan.geometry.lames.links import links
from armorplan.geometry.lames.seats import Seat
from armorplan.pattern.parts import Point
from armorplan.pattern.pattern import Pattern

_SAME_MM = 0.005


def nested(pattern: Pattern, spots: dict[str, Point], growing: Collection[str]) -> None:
    """Move pivots of outer plates along their line until they nest as they were drawn.

    The difference of two layers is φ times their distance, whatever the girth is (circle geometry).

    Args:
        pattern: as it was drawn.
        spots: by hole, where it comes to lie; brought up to date.
        growing: ids of the plates that follow a measure.
    """
    settled: set[str] = set()
    for _, link in sorted(links(pattern).items()):
        outer, inner = link.outer, link.inner
        holes = {outer.first.id, outer.second.id}
        if not {outer.part.id, inner.part.id} <= set(growing) or holes & settled:
            continue
        wanted = _now_mm(inner, spots) + outer.span_mm - inner.span_mm
        _spread(outer, spots, wanted)
        settled |= holes | {inner.first.id, inner.second.id}


def _now_mm(seat: Seat, spots: dict[str, Point]) -> float:
    return dist(spots[seat.first.id], spots[seat.second.id])


def _spread(seat: Seat, spots: dict[str, Point], wanted_mm: float) -> None:
    """Move both pivots of a plate along the line between them, alike, until they lie so far apart."""
    (x0, y0), (x1, y1) = spots[seat.first.id], spots[seat.second.id]
    now = dist((x0, y0), (x1, y1))
    if now <= 0.0 or abs(wanted_mm - now) <= _SAME_MM:
        return
    share = (wanted_mm - now) / 2 / now
    by = ((x1 - x0) * share, (y1 - y0) * share)
    spots[seat.first.id] = (x0 - by[0], y0 - by[1])
    spots[seat.second.id] = (x1 + by[0], y1 + by[1])
