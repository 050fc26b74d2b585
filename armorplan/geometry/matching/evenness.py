"""Parts that look the same once they are turned half about the middle of a row: its ends are alike."""

from collections.abc import Set as AbstractSet

import numpy as np

from armorplan.geometry.alike.closed_lines import Spots
from armorplan.pattern.parts import Part

_OFF_MM = 2.0
"""By so much a drawing is off what was meant to be even (common practice, no source)."""


def looks_even(part: Part, row: AbstractSet[str]) -> bool:
    """Tell whether a half turn about the middle of some of its holes leaves a part as it was.

    Args:
        part: a part with its outline and holes.
        row: ids of the holes.
    """
    import shapely

    held = [hole.centre for hole in part.holes if hole.id in row]
    middle = np.mean(held, axis=0)
    ring = shapely.LinearRing(part.outline)
    # The cheapest question first: it answers nearly always.
    bounds = np.array(ring.bounds)
    if np.abs(bounds[:2] + bounds[2:] - 2 * middle).max() > 2 * _OFF_MM:
        return False
    turned = shapely.LinearRing(2 * middle - np.array(part.outline))
    if ring.hausdorff_distance(turned) > _OFF_MM:
        return False
    spots = _spots(part)
    far = np.abs((2 * complex(*middle) - spots)[:, None] - spots)
    return bool((far.min(axis=1) <= _OFF_MM).all())


def _spots(part: Part) -> Spots:
    return np.array([complex(*hole.centre) for hole in part.holes])
