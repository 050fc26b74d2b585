"""Lames after a change of size: what lies under the neighbour at the end of the bend, and more depth."""

from collections.abc import Mapping

from armorplan.geometry.lames.chains import declared_chains, hung
from armorplan.geometry.lames.links import links
from armorplan.geometry.lames.sides import least_left_mm
from armorplan.geometry.sizing.stretches import box_mm
from armorplan.pattern.parts import PartKind
from armorplan.pattern.pattern import Pattern

_SHORT_MM = 0.25
"""So little less under the neighbour than was drawn is let be."""
MOST_DEEPER = 1.15
"""A lame gets no deeper than by this share beside what its length asks."""


def left_of(pattern: Pattern) -> dict[tuple[str, str], float]:
    """Return what stays under at the end of the bend in mm, by upper and lower plate."""
    found: dict[tuple[str, str], float] = {}
    for chain in declared_chains(pattern, hung(pattern, links(pattern))):
        for turn in chain.turns:
            left = least_left_mm(turn)
            if left is not None:
                found[turn.upper, turn.lower] = left
    return found


def deeper(
    before: Pattern, after: Pattern, kept_mm: float, depths: Mapping[str, float]
) -> dict[str, float]:
    """Return by how much more the lames grow in height that came to lie too short.

    A girth that grows carries the edge farther from its pivots, so that it slides more: the overlap
    wants r·θ at the new r.

    Args:
        before: as it was drawn.
        after: in its new size.
        kept_mm: how much should stay under where it did; less is asked where less was drawn.
        depths: what was found before, by lame; the answer takes its place.
    """
    drawn, now = left_of(before), left_of(after)
    asked = dict(depths)
    for turn, left in now.items():
        wanted = min(kept_mm, drawn.get(turn, kept_mm))
        short = wanted - left
        if short <= _SHORT_MM:
            continue
        lames = [part for part in turn if after.part(part).kind is PartKind.LAME]
        for part in lames:
            height = _height_mm(after, part)
            more = 1.0 + 1.5 * short / height / len(lames)
            asked[part] = min(MOST_DEEPER, asked.get(part, 1.0) * more)
    return asked


def _height_mm(pattern: Pattern, part: str) -> float:
    return box_mm(pattern.part(part).outline, pattern.part(part).up_deg)[0]
