"""How wide a way in stands in a state: what is made already narrows rows, never the rims."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from math import inf

from armorplan.geometry.reach.model import Shell

Place = tuple[str, float]
"""A row, and how far along it a joint sits, or a gap lies, in mm."""


def places_of(shell: Shell) -> dict[str, Place]:
    """Return by joint the row it belongs to and where it sits in it, and so of gaps; seats have none."""
    gaps = {gap.name: (row.id, gap.at_mm) for row in shell.rows for gap in row.gaps}
    return gaps | {
        joint: (row.id, at_mm)
        for row in shell.rows
        for joint, at_mm in zip(row.joints, row.at_mm, strict=True)
    }


def made_at(places: Mapping[str, Place], made: Iterable[str]) -> dict[str, list[float]]:
    """Return by row where along it joints are made, in mm; rows without any are left out."""
    found: dict[str, list[float]] = defaultdict(list)
    for joint in made:
        if joint in places:
            row, at_mm = places[joint]
            found[row].append(at_mm)
    return dict(found)


def gape_mm(at_mm: float, made_at_mm: Collection[float], row_gape: float) -> float:
    """Return how wide a row gapes at a place along it: as wide as one likes with no joint made.

    Args:
        at_mm: the place, from the row's first joint.
        made_at_mm: where the row's joints are made, the one being set among them.
        row_gape: mm for each mm to the nearest joint made (``Constants.row_gape``).
    """
    if not made_at_mm:
        return inf
    return row_gape * min(abs(at_mm - made) for made in made_at_mm)
