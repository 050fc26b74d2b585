"""Which of the holes that are chosen would be joined with which: one joint, or a row of them."""

from collections.abc import Sequence
from itertools import combinations, pairwise
from math import dist

from armorplan.desktop.shape_edit_scene import HOLE, SLOT, TableScene
from armorplan.pattern.parts import Hole, Point

Stack = tuple[str, ...]
_FOLDED = 2
"""So many holes of one part make a joint: a strap folded back on itself."""


def stacks_of(holes: Sequence[Hole], *, turned: bool = False) -> tuple[Stack, ...]:
    """Return the holes of each joint, parts in the order they were chosen, the outermost first.

    One hole of each part make one joint, and so do two of one part. As many of each part make a
    row, in order along it; nothing else can be joined.

    Args:
        holes: in the order they were chosen.
        turned: the rows of the other parts run the other way than their spacings say.
    """
    by_part: dict[str, list[Hole]] = {}
    for hole in holes:
        by_part.setdefault(hole.part, []).append(hole)
    rows = list(by_part.values())
    if len(rows) == 1:
        return (tuple(hole.id for hole in holes),) if len(holes) == _FOLDED else ()
    if len({len(row) for row in rows}) > 1:
        return ()
    first = in_row(rows[0])
    others = [_like(first, in_row(row), turned=turned) for row in rows[1:]]
    return tuple(tuple(h.id for h in stack) for stack in zip(first, *others, strict=True))


def slide_of(scene: TableScene, keys: Sequence[str]) -> Stack:
    """Return hole and slot of a joint that slides, as they were chosen; empty: it is none."""
    names = tuple(key.partition(":")[2] for key in keys)
    heads = sorted(key.partition(":")[0] + ":" for key in keys)
    parts = {scene.part_of(key) for key in keys}
    return names if heads == [HOLE, SLOT] and len(parts) > 1 else ()


def free_row(scene: TableScene, hole: str) -> Stack:
    """Return the longest row of holes alike, in no joint yet, that a hole of a part is in."""
    from armorplan.geometry.matching.rows import rows_of

    part = scene.pattern.part(scene.pattern.hole(hole).part)
    rows = (row.holes for row in rows_of(0, part, tuple(scene.through)))
    return next((holes for holes in rows if hole in holes), (hole,))


def in_row(holes: Sequence[Hole]) -> list[Hole]:
    """Return holes in their order along the line between the two that lie farthest apart."""
    if len(holes) == 1:
        return list(holes)
    one, other = max(combinations(holes, 2), key=lambda pair: dist(*_centres(pair)))
    (ax, ay), (bx, by) = sorted((one.centre, other.centre), key=lambda at: (at[1], at[0]))
    return sorted(
        holes,
        key=lambda hole: (hole.centre[0] - ax) * (bx - ax) + (hole.centre[1] - ay) * (by - ay),
    )


def _like(first: list[Hole], row: list[Hole], *, turned: bool) -> list[Hole]:
    """Return a row so that its spacings follow those of the first one."""
    back = row[::-1]
    is_back = _misfit_mm(first, back) < _misfit_mm(first, row)
    return back if is_back is not turned else row


def _misfit_mm(one: list[Hole], other: list[Hole]) -> float:
    return sum(abs(a - b) for a, b in zip(_gaps(one), _gaps(other), strict=True))


def _gaps(row: list[Hole]) -> list[float]:
    return [dist(a.centre, b.centre) for a, b in pairwise(row)]


def _centres(pair: tuple[Hole, Hole]) -> tuple[Point, Point]:
    return pair[0].centre, pair[1].centre
