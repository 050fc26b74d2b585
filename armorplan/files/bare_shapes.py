"""What the shapes of a bare drawing are: parts, cut-outs in them, frames, and shapes drawn twice.

An outline in no other is a part; in a part it is a slot or cut-out; in a cut-out it is a part
again, as parts are nested to save leather. An outline around two or more that hold holes or
outlines of their own is taken for the frame of the page.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from armorplan.files.budget import OverBudgetError
from armorplan.files.drawing import Circle, Outline

if TYPE_CHECKING:
    import shapely

ROUND_PART_MM = 16.0
"""A circle in no outline is a round part from this diameter on, a stray hole below it."""
MAX_MEETING = 50_000
"""Pairs of outlines that may lie in or over one another; each is looked at."""
_FRAMED = 2
_SAME_MM = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Ids of outlines by what they are, in the order they are drawn.

    ``crossing`` are pairs whose edges cross; ``nested`` are parts inside a cut-out.
    """

    parts: tuple[str, ...]
    nested: tuple[str, ...] = ()
    frames: tuple[str, ...] = ()
    doubles: tuple[str, ...] = ()
    crossing: tuple[tuple[str, str], ...] = ()


def free_circles(outlines: Sequence[Outline], circles: Sequence[Circle]) -> tuple[str, ...]:
    """Return ids of circles that are parts: in no outline, nor in a larger circle, and large."""
    import shapely

    areas = [shapely.Polygon(outline.ring) for outline in outlines]
    large = sorted(
        (c for c in circles if c.id and c.diameter_mm >= ROUND_PART_MM),
        key=lambda c: -c.diameter_mm,
    )
    free: list[str] = []
    for circle in large:
        spot = shapely.Point(circle.centre)
        if not bool(shapely.covers(areas, spot).any() if areas else False):
            free.append(circle.id or "")
            areas.append(spot.buffer(circle.diameter_mm / 2))
    return tuple(free)


def sort_out(outlines: Sequence[Outline], circles: Sequence[Circle]) -> Found:
    """Tell parts, cut-outs, frames and doubles apart by what lies in what.

    Raises:
        OverBudgetError: too many outlines lie in or over one another.
    """
    import shapely

    if not outlines:
        return Found(parts=())
    areas = [shapely.Polygon(outline.ring) for outline in outlines]
    tree = shapely.STRtree(areas)
    one, other = tree.query(areas)
    if len(one) > MAX_MEETING + len(areas):
        raise OverBudgetError(
            f"more than {MAX_MEETING:,} pairs of outlines in or over one another"
        )
    doubles = _doubles(areas)
    order = [n for n in range(len(areas)) if n not in doubles]
    within: dict[int, list[int]] = {n: [] for n in order}
    crossing: list[tuple[int, int]] = []
    for inner, outer in sorted(zip(one.tolist(), other.tolist(), strict=True)):
        if inner == outer or inner in doubles or outer in doubles:
            continue
        if areas[outer].covers(areas[inner]):
            within[inner].append(outer)
        elif inner < outer and areas[inner].overlaps(areas[outer]):
            crossing.append((inner, outer))
    frames = _frames(within, areas, circles)
    depth = {n: len([m for m in within[n] if m not in frames]) for n in order}
    parts = [n for n in order if n not in frames and depth[n] % 2 == 0]
    named = [outline.id for outline in outlines]
    return Found(
        parts=tuple(named[n] for n in parts),
        nested=tuple(named[n] for n in parts if depth[n]),
        frames=tuple(named[n] for n in sorted(frames)),
        doubles=tuple(named[n] for n in sorted(doubles)),
        crossing=tuple(
            (named[a], named[b]) for a, b in crossing if a not in frames and b not in frames
        ),
    )


def _doubles(areas: "Sequence[shapely.Polygon]") -> set[int]:
    """Return outlines drawn before at the same place, as a fill and a line of one shape are."""
    import shapely

    seen: dict[tuple[int, ...], list[int]] = {}
    found: set[int] = set()
    for n, area in enumerate(areas):
        cell = tuple(round(v) for v in area.bounds)
        before = seen.setdefault(cell, [])
        if any(
            shapely.hausdorff_distance(areas[m].exterior, area.exterior) < _SAME_MM for m in before
        ):
            found.add(n)
        else:
            before.append(n)
    return found


def _frames(
    within: dict[int, list[int]], areas: "Sequence[shapely.Polygon]", circles: Sequence[Circle]
) -> set[int]:
    import shapely

    spots = [shapely.Point(c.centre) for c in circles]
    tree = shapely.STRtree(spots)
    holds = {n for n in within if len(tree.query(areas[n], predicate="covers"))}
    holds |= {outer for outers in within.values() for outer in outers}
    framed: dict[int, int] = {}
    for inner, outers in within.items():
        for outer in outers if inner in holds else ():
            framed[outer] = framed.get(outer, 0) + 1
    return {outer for outer, count in framed.items() if count >= _FRAMED}
