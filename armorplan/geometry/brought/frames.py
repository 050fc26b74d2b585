"""Frames: lines round several parts, such as a page's edge, a sheet of leather, a cutter's bed."""

from collections.abc import Mapping, Sequence
from math import isclose

from armorplan.geometry.brought.lines import Drawn, as_line, is_hole
from armorplan.geometry.brought.model import ShapeKind
from armorplan.geometry.brought.nesting import Nest, box_of, long_side_mm

_FRAMED = 2
_LONG_MM = 30.0
"""What is shorter may be a letter or an ornament with something in it."""
_ALL = 0.98
_FULL = 0.25
_MARGIN, _SHEET = 0.7, 0.5
_DIVIDED, _MEETS_MM = 3, 0.3
_SQUARE = 0.99
_TEST_SIDES_MM = (10.0, 20.0, 25.0, 25.4, 30.0, 40.0, 50.0, 50.8, 100.0)


def frames_of(lines: Sequence[Drawn], nest: Nest, said: Mapping[int, ShapeKind]) -> dict[int, str]:
    """Return lines that are frames, by their place, and why; the outermost are looked at first."""
    found: dict[int, str] = {}
    whole = _whole(lines)
    for n in sorted(nest.areas, key=lambda n: (len(nest.around[n]), n)):
        if n in said or any(m not in found for m in nest.around[n]):
            continue
        inner = nest.directly_in(_innermost_page(n, lines, nest))
        holders = [m for m in inner if _is_like_a_part(m, lines, nest)]
        if len(holders) >= _FRAMED:
            found[n] = f"It lies round {len(holders)} shapes that hold holes of their own."
        elif len(holders) == 1 and _is_sheet(n, holders[0], lines, nest):
            found[n] = "It lies round a much smaller shape that holds holes of its own."
        elif _is_page(n, lines, nest, whole) and (holders or _is_full(n, inner, nest)):
            found[n] = "It is a rectangle round all that is drawn."
    found |= _test_square(lines, nest, said, found)
    found |= _tables(lines, nest, said, found)
    return found


def _tables(
    lines: Sequence[Drawn], nest: Nest, said: Mapping[int, ShapeKind], found: Mapping[int, str]
) -> dict[int, str]:
    """Return rectangles that are divided by lines and hold nothing else: title blocks, scale bars."""
    import shapely

    across: dict[int, list[Drawn]] = {}
    for n, line in enumerate(lines):
        if not line.closed and nest.around[n]:
            across.setdefault(nest.around[n][0], []).append(line)
    tables: dict[int, str] = {}
    for n, inner in sorted(across.items()):
        free = n not in said and n not in found and set(nest.around[n]) <= set(found)
        if not free or nest.within[n] or not _is_rectangle(n, lines, nest):
            continue
        edge = as_line(lines[n])
        ends = [
            shapely.Point(spot) for each in inner for spot in (each.points[0], each.points[-1])
        ]
        dividing = sum(
            max(edge.distance(a), edge.distance(b)) <= _MEETS_MM
            for a, b in zip(ends[::2], ends[1::2], strict=True)
        )
        if dividing >= _DIVIDED:
            tables[n] = f"It is a rectangle divided by {dividing} lines, as a table or a scale is."
    return tables


def _is_like_a_part(n: int, lines: Sequence[Drawn], nest: Nest) -> bool:
    """Tell whether a line is long enough, and something in it is no more than a hole or slot.

    A cut-out with a part nested in it holds only what holds something in turn.
    """
    direct = nest.directly_in(n)
    return long_side_mm(lines[n]) >= _LONG_MM and any(not nest.within[m] for m in direct)


def _innermost_page(n: int, lines: Sequence[Drawn], nest: Nest) -> int:
    """Return the inner of two rectangles, where nothing but it lies in the outer: a margin."""
    inner = nest.directly_in(n)
    while (
        len(inner) == 1 and _is_rectangle(n, lines, nest) and _is_rectangle(inner[0], lines, nest)
    ):
        if nest.areas[inner[0]].area < _MARGIN * nest.areas[n].area:
            break
        n = inner[0]
        inner = nest.directly_in(n)
    return n


def _is_sheet(n: int, part: int, lines: Sequence[Drawn], nest: Nest) -> bool:
    """Tell whether a shape without holes lies round one that has some and is much smaller."""
    own = [m for m in nest.directly_in(n) if is_hole(lines[m])]
    holes = [m for m in nest.directly_in(part) if is_hole(lines[m])]
    return bool(holes) and not own and nest.areas[part].area <= _SHEET * nest.areas[n].area


def _whole(lines: Sequence[Drawn]) -> tuple[float, float]:
    boxes = [box_of(line) for line in lines]
    if not boxes:
        return 0.0, 0.0
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return max(rights) - min(lefts), max(bottoms) - min(tops)


def _is_rectangle(n: int, lines: Sequence[Drawn], nest: Nest) -> bool:
    """Tell whether a closed line is a rectangle that stands straight, its corners rounded or not."""
    line = lines[n]
    return line.circle is None and nest.areas[n].area >= _SQUARE * _box_area(line)


def _box_area(line: Drawn) -> float:
    left, top, right, bottom = box_of(line)
    return (right - left) * (bottom - top)


def _is_page(n: int, lines: Sequence[Drawn], nest: Nest, whole: tuple[float, float]) -> bool:
    left, top, right, bottom = box_of(lines[n])
    wide = right - left >= _ALL * whole[0] and bottom - top >= _ALL * whole[1]
    return wide and bool(nest.within[n]) and _is_rectangle(n, lines, nest)


def _is_full(n: int, inner: Sequence[int], nest: Nest) -> bool:
    """Tell whether what lies in it, several shapes, is too much to be cut out of a plate."""
    if len(inner) < _FRAMED:
        return False
    return sum(nest.areas[m].area for m in inner) >= _FULL * nest.areas[n].area


def _test_square(
    lines: Sequence[Drawn], nest: Nest, said: Mapping[int, ShapeKind], found: Mapping[int, str]
) -> dict[int, str]:
    """Return the one empty square of a round length, drawn to check a printer by."""
    squares: dict[int, float] = {}
    for n in nest.areas:
        outside = n not in said and n not in found and set(nest.around[n]) <= set(found)
        if outside and not nest.within[n] and _is_rectangle(n, lines, nest):
            left, top, right, bottom = box_of(lines[n])
            if isclose(right - left, bottom - top, rel_tol=1e-3):
                squares[n] = right - left
    if len(squares) != 1 or len(nest.areas) <= _FRAMED:
        return {}
    n, side = next(iter(squares.items()))
    if any(isclose(side, each, rel_tol=2e-3) for each in _TEST_SIDES_MM):
        return {n: f"It is an empty square of {side:.1f} mm, as is drawn to check the scale by."}
    return {}
