"""How long a stitched or laced row is."""

from itertools import pairwise
from math import dist

from armorplan.geometry.areas import ring_area_mm2, ring_length_mm
from armorplan.pattern.joining import Joint, JointKind
from armorplan.pattern.pattern import Pattern

ROWS = frozenset((JointKind.STITCH, JointKind.LACE))
"""Joints that are rows; all others but glue sit at one spot."""


def row_mm(pattern: Pattern, joint: Joint) -> float:
    """Return the length in mm of a stitched or laced row; 0 for what is set at one spot.

    As it is written; else along its holes, in the part in which that is longest; else the edge of
    the smaller layer, by the area inside its outline.
    """
    if joint.kind not in ROWS:
        return 0.0
    if joint.length_mm is not None:
        return joint.length_mm
    if joint.stack:
        return _along_holes_mm(pattern, joint)
    layers = [pattern.part(layer).outline for layer in joint.layers]
    return ring_length_mm(min(layers, key=ring_area_mm2))


def _along_holes_mm(pattern: Pattern, joint: Joint) -> float:
    """Return the way in mm from hole to hole of one part, in the order a lace passes them."""
    holes = [pattern.hole(hole) for hole in joint.stack]
    ways = (
        [hole.centre for hole in holes if hole.part == part]
        for part in {hole.part for hole in holes}
    )
    return max(sum(dist(here, there) for here, there in pairwise(way)) for way in ways)
