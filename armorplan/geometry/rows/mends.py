"""What is mended: the lighter of two parts, and leather that is cut already."""

from collections.abc import Iterable
from math import inf

from armorplan.geometry.areas import ring_area_mm2
from armorplan.geometry.widths import STIFF, across_mm, is_strap
from armorplan.pattern.parts import Hole
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

STRAP_SHARE = 3.0
"""A hole may take up the width of a strap by this part of it (common practice, no source)."""


def bears_mm(pattern: Pattern, holes: Iterable[Hole]) -> float:
    """Return by how much holes may be made oval before one is more than a strap bears, in mm."""
    found = [inf]
    for hole in holes:
        part = pattern.part(hole.part)
        across = across_mm(part, hole.centre) if is_strap(part) else None
        if across is not None:
            found.append(max(sum(across) / STRAP_SHARE - hole.diameter_mm, 0.0))
    return min(found)


def cut_leather(
    off_mm: float, holes: tuple[Hole, ...], constants: Constants, *, bears_mm: float = inf
) -> str:
    """Return what is left to do once the leather is cut: small misses are eased, others plugged."""
    wide_mm = min((hole.diameter_mm for hole in holes), default=0.0)
    anew = "in leather already cut plug it and punch it anew:"
    if abs(off_mm) > constants.oval.value * wide_mm:
        return (
            f"{anew} {abs(off_mm):.1f} mm is more than "
            f"{constants.oval.value:g} times its {wide_mm:.1f} mm."
        )
    if abs(off_mm) > bears_mm:
        return (
            f"{anew} oval by {abs(off_mm):.1f} mm it would take more than a third of the strap's "
            "width."
        )
    return "in leather already cut make it oval, plug it, hide it under a cap, or leave it."


def lighter(pattern: Pattern, one: str, other: str) -> str:
    """Return the part of two that is less work to draw anew, the second where they are alike.

    A strap or trim before a plate, then what fewer joints hold, then what is smaller.
    """
    held = dict.fromkeys((one, other), 0)
    for joint in pattern.joints:
        for part in held.keys() & set(pattern.stack_parts(joint.id)):
            held[part] += 1

    def work(part_id: str) -> tuple[bool, int, float]:
        part = pattern.part(part_id)
        stiff = part.kind in STIFF and not is_strap(part)
        return stiff, held[part_id], ring_area_mm2(part.outline)

    return one if work(one) < work(other) else other
