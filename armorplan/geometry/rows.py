"""Rows that meet: the spacing of a seam's holes, neighbour by neighbour.

Only spacing is judged. Rows of unlike curvature are what draws leather into shape. A slot that a
joint slides in takes any spacing within its travel, and is left out.
"""

from collections.abc import Iterator
from itertools import pairwise
from math import dist

from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Seam
from armorplan.pattern.parts import Hole, Part
from armorplan.pattern.pattern import Pattern

MISFIT_MM = 0.5
"""Up to here punch and leather make up the difference (common practice, no source)."""
BAD_MISFIT_MM = 1.0
"""Beyond here the slack of two holes no longer does: 0.25–0.38 mm each round the shank is the
fastener makers' clearance, and the layers buckle between the rivets."""


def _single_holes(pattern: Pattern, joint_id: str) -> dict[str, Hole]:
    """Return the round hole of each part that a joint passes exactly once."""
    holes = [pattern.hole(hole) for hole in pattern.joint(joint_id).stack]
    passed = [hole.part for hole in holes]
    return {
        hole.part: hole for hole in holes if passed.count(hole.part) == 1 and not hole.travel_mm
    }


def _misfit(seam: Seam, number: int, spans: dict[str, float], pattern: Pattern) -> Finding | None:
    far, near = max(spans, key=spans.__getitem__), min(spans, key=spans.__getitem__)
    miss_mm = spans[far] - spans[near]
    if miss_mm <= MISFIT_MM:
        return None
    wide: Part = pattern.part(far)
    tight: Part = pattern.part(near)
    return Finding(
        code="row-misfit",
        severity=Severity.ERROR if miss_mm > BAD_MISFIT_MM else Severity.WARNING,
        text=(
            f"Holes {number} and {number + 1} of '{seam.name}' are {spans[far]:.1f} mm apart on "
            f"{wide.name} but {spans[near]:.1f} mm on {tight.name}: they miss by {miss_mm:.1f} mm."
        ),
        remedy=(
            f"In the drawing move one of them by {miss_mm:.1f} mm along the row; in leather "
            "already cut make it oval, plug it, hide it under a cap, or leave it."
        ),
        about=(seam.id, *seam.joints[number - 1 : number + 1], far, near),
    )


def row_findings(pattern: Pattern) -> Iterator[Finding]:
    """Yield each pair of neighbours in a seam whose spacing differs between its layers, in mm."""
    for seam in pattern.seams:
        rows = [_single_holes(pattern, joint) for joint in seam.joints]
        for number, (here, beyond) in enumerate(pairwise(rows), start=1):
            shared = [part for part in here if part in beyond]
            spans = {part: dist(here[part].centre, beyond[part].centre) for part in shared}
            found = _misfit(seam, number, spans, pattern) if spans else None
            if found is not None:
                yield found
