"""How much of a bath, a line and a shelf the parts of a step take, from their real outlines."""

from dataclasses import dataclass
from math import ceil

from armorplan.assembly.model import Assembly
from armorplan.geometry.areas import rectangle_mm
from armorplan.kernel.units import MM2_PER_DM2

GAP_MM = 30.0
"""Air between two parts on a line (common practice, no source)."""
USUAL_PART_MM = (250.0, 120.0)
"""Reckoned with where no outline is known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomTaken:
    """Tells the room that parts take, each as the smallest rectangle round its outline.

    Attributes:
        assembly: the parts; ``None``: each is taken for a usual one.
    """

    assembly: Assembly | None

    def bath_dm2(self, parts: tuple[str, ...]) -> int:
        """Return the area that parts take side by side in a bath or on a shelf."""
        area_mm2 = sum(long * short * count for long, short, count in self._sizes(parts))
        return max(1, ceil(area_mm2 / MM2_PER_DM2))

    def line_mm(self, parts: tuple[str, ...]) -> int:
        """Return the length of line that parts take, hung by a short side."""
        return ceil(sum((short + GAP_MM) * count for _, short, count in self._sizes(parts)))

    def sizes_mm(self, part: str) -> tuple[float, float] | None:
        """Return the longer and the shorter side of one part; ``None`` where none is drawn."""
        if self.assembly is None:
            return None
        long, short = rectangle_mm(self.assembly.part(part).part.outline)
        return long, short

    def _sizes(self, parts: tuple[str, ...]) -> list[tuple[float, float, int]]:
        if self.assembly is None:
            return [(*USUAL_PART_MM, 1) for _ in parts]
        found = (self.assembly.part(part).part for part in parts)
        return [(*rectangle_mm(part.outline), part.count) for part in found]
