"""Parts that look the same once they are turned half about the middle of a row: its ends are alike."""

from collections.abc import Sequence
from collections.abc import Set as AbstractSet

import numpy as np

from armorplan.geometry.alike.closed_lines import Spots
from armorplan.pattern.parts import Part

_OFF_MM = 2.0
"""By so much a drawing is off what was meant to be even (common practice, no source)."""


class Evenness:
    """Tells which of some parts look the same turned half about some of their holes."""

    def __init__(self, parts: Sequence[Part]) -> None:
        self._parts = parts
        self._spots = [{hole.id: complex(*hole.centre) for hole in part.holes} for part in parts]
        self._middles: dict[int, complex] = {}

    def told(self, at: int, row: AbstractSet[str]) -> bool:
        """Tell whether a half turn about the middle of some of its holes leaves a part as it was.

        Args:
            at: number of the part.
            row: ids of the holes.
        """
        spots = self._spots[at]
        middle = sum(spots[hole] for hole in row) / len(row)
        # The cheapest question first: it answers nearly always.
        if abs(middle - self._middle(at)) > _OFF_MM:
            return False
        return _is_even(self._parts[at], np.array(list(spots.values())), middle)

    def _middle(self, at: int) -> complex:
        """Return the middle of a part's extent."""
        if at not in self._middles:
            outline = np.array(self._parts[at].outline)
            self._middles[at] = complex(*(outline.min(axis=0) + outline.max(axis=0)) / 2)
        return self._middles[at]


def _is_even(part: Part, spots: Spots, middle: complex) -> bool:
    import shapely

    ring = shapely.LinearRing(part.outline)
    turned = shapely.LinearRing(2 * np.array((middle.real, middle.imag)) - np.array(part.outline))
    far = np.abs((2 * middle - spots)[:, None] - spots)
    return bool(ring.hausdorff_distance(turned) <= _OFF_MM and (far.min(axis=1) <= _OFF_MM).all())
