"""Pairs of lines side by side all round, as a cutter's program draws them: one true, one offset.

The offset one lies outside a part and inside a hole, by half of what the cut takes away, so that
what is cut out comes out right. Which is the true one is asked; until then it is taken so.
"""

from collections.abc import Collection, Sequence

from armorplan.geometry.brought.lines import Drawn, as_lines
from armorplan.geometry.brought.nesting import Nest, box_of
from armorplan.kernel.stopping import ShouldStop, go_on

MOST_MM = 0.6
"""Half of the widest cut of a laser or knife; a router's is wider and plain to see."""


def offset_pairs(
    lines: Sequence[Drawn], nest: Nest, letters: Collection[int], should_stop: ShouldStop
) -> dict[int, tuple[int, float]]:
    """Return lines taken for offsets, by their place: the true line, and how far apart in mm.

    The inner line of a thin letter lies beside its outer one as well.
    """
    found: dict[int, tuple[int, float]] = {}
    for inner in sorted(set(nest.areas) - set(letters)):
        go_on(should_stop)
        outer = nest.around[inner][0] if nest.around[inner] else None
        if outer is None or outer in found or inner in found:
            continue
        apart = _apart_mm(lines[inner], lines[outer])
        if apart is None:
            continue
        in_part = len([m for m in nest.around[outer] if m not in found]) % 2 == 1
        if in_part:
            found[inner] = outer, apart
        else:
            found[outer] = inner, apart
    return found


def _apart_mm(inner: Drawn, outer: Drawn) -> float | None:
    """Return how far two lines are apart all round, ``None`` where they are not a pair."""
    import shapely

    sides = [abs(a - b) for a, b in zip(box_of(inner), box_of(outer), strict=True)]
    if max(sides) > MOST_MM:
        return None
    one, other = as_lines([inner, outer])
    apart = float(shapely.hausdorff_distance(one, other))
    return apart if apart <= 2 * MOST_MM else None


def told_of(apart_mm: float, *, in_part: bool) -> str:
    """Say why a line is left out beside another."""
    where = "inside" if in_part else "outside"
    return f"It lies {apart_mm:.2f} mm {where} another all round, as a cutter's line does."
