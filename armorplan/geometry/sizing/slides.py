"""Slots that posts slide in, after a change of size: as long as the bend asks, the post where it stood.

A wider limb carries the post farther from its pivots, so that it slides more: r·θ at the new r (circle
geometry). The width of a slot is that of its post and stays.
"""

from collections.abc import Iterator
from dataclasses import replace
from math import cos, radians, sin

from armorplan.geometry.lames.articulation import slide_mm
from armorplan.geometry.lames.chains import Turn, declared_chains, hung
from armorplan.geometry.lames.links import links
from armorplan.geometry.lames.slots import Slide, slides
from armorplan.pattern.parts import Hole, Point
from armorplan.pattern.pattern import Pattern

_DIGITS = 3
_LEAST_MM = 0.05


def slid(before: Pattern, after: Pattern) -> dict[str, Hole]:
    """Return the slots that want another length or place, by their ids.

    Args:
        before: as it was drawn.
        after: in its new size, slots moved but as long as they were.
    """
    drawn = {found.slot.id: (turn, found) for turn, found in _all(before)}
    changed: dict[str, Hole] = {}
    for turn, now in _all(after):
        if now.slot.id in drawn:
            slot = _slot(drawn[now.slot.id], (turn, now))
            if abs(slot.travel_mm - now.slot.travel_mm) > _LEAST_MM or _off(slot, now.slot):
                changed[slot.id] = slot
    return changed


def _off(one: Hole, other: Hole) -> bool:
    return max(abs(a - b) for a, b in zip(one.centre, other.centre, strict=True)) > _LEAST_MM


def _all(pattern: Pattern) -> Iterator[tuple[Turn, Slide]]:
    for chain in declared_chains(pattern, hung(pattern, links(pattern))):
        for turn in chain.turns:
            for found in slides(pattern, turn):
                yield turn, found


def _needs_mm(turn: Turn, found: Slide) -> float:
    return slide_mm(found.lever_mm, turn.turn_deg or 0.0)


def _slot(drawn: tuple[Turn, Slide], now: tuple[Turn, Slide]) -> Hole:
    """Return a slot in which the post stands and slides as it did where it was drawn."""
    more = _needs_mm(*now) - _needs_mm(*drawn)
    was, found = drawn[1], now[1]
    travel = max(_LEAST_MM, was.travel_mm + more)
    (ahead_x, ahead_y), (side_x, side_y) = _ways(found)
    # Past the end where it begins by as much as it was, and as far beside the slot.
    along, beside = -travel / 2 - was.behind_mm, _beside_mm(was)
    x, y = found.post
    centre = (
        x - along * ahead_x - beside * side_x,
        y - along * ahead_y - beside * side_y,
    )
    return replace(
        found.slot,
        travel_mm=round(travel, _DIGITS),
        centre=(round(centre[0], _DIGITS), round(centre[1], _DIGITS)),
    )


def _ways(found: Slide) -> tuple[Point, Point]:
    """Return the way the post takes along its slot, and the one beside it."""
    angle = radians(found.slot.travel_deg)
    x, y = cos(angle), -sin(angle)
    if x * found.ahead[0] + y * found.ahead[1] < 0:
        x, y = -x, -y
    return (x, y), (-y, x)


def _beside_mm(found: Slide) -> float:
    _, (x, y) = _ways(found)
    return (found.post[0] - found.slot.centre[0]) * x + (found.post[1] - found.slot.centre[1]) * y
