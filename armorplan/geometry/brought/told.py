"""What is said of a drawing after sorting: what is open or crossed, what was guessed."""

import re
from collections.abc import Iterator, Mapping, Sequence
from math import dist

from armorplan.geometry.brought.joining import Joined
from armorplan.geometry.brought.lines import Drawn
from armorplan.geometry.brought.model import Shape, ShapeKind
from armorplan.geometry.brought.nesting import Nest, long_side_mm
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Point

_SINGLY = 6
_GAP_SHARE, _GAP_MM = 0.15, 30.0
_LEAST_MM = 12.0


def joining_findings(
    lines: Sequence[Drawn], ends: Joined, tolerance_mm: float
) -> Iterator[Finding]:
    """Tell outlines that are still open, and places where three or more lines meet."""
    yield from _first(list(_open_outlines(lines, tolerance_mm)), "open outlines")
    if ends.junctions:
        x, y = ends.junctions[0]
        count = len(ends.junctions)
        more = f", and {count - 1} more places" if count > 1 else ""
        yield Finding(
            code="ends-meet",
            severity=Severity.NOTE,
            text=f"Three or more ends meet at {_spot((x, y))}{more}; which belong together is "
            "taken from layer, colour and direction.",
            remedy="Look whether the outlines there run as they should.",
        )


def _open_outlines(lines: Sequence[Drawn], tolerance_mm: float) -> Iterator[Finding]:
    for line in lines:
        if line.closed:
            continue
        first, last = line.points[0], line.points[-1]
        gap_mm, long_mm = dist(first, last), long_side_mm(line)
        if long_mm < _LEAST_MM or gap_mm > min(_GAP_SHARE * long_mm, _GAP_MM):
            continue
        yield Finding(
            code="open-outline",
            severity=Severity.WARNING,
            text=f"An outline {long_mm:.0f} mm long is open by {gap_mm:.1f} mm, between "
            f"{_spot(first)} and {_spot(last)}.",
            remedy=f"Join ends up to {_above(gap_mm):g} mm apart instead of {tolerance_mm:g} mm, or "
            "close it in the drawing.",
            about=(line.key,),
        )


def _above(gap_mm: float) -> float:
    """Return the next tenth of a mm above a gap."""
    return (int(gap_mm * 10) + 1) / 10


def nesting_findings(
    shapes: Sequence[Shape],
    nest: Nest,
    beside: Mapping[int, str],
    offsets: Mapping[int, tuple[int, float]],
) -> Iterator[Finding]:
    """Tell what crosses, what lies beside another line all round, and holes in no part."""
    yield from _first(list(_self_crossing(shapes)), "outlines that cross themselves")
    yield from _first(list(_crossing(shapes, nest)), "pairs of outlines that cross")
    if beside:
        n = min(beside)
        other, apart_mm = offsets[n]
        count = len(beside)
        yield Finding(
            code="offset-lines",
            severity=Severity.WARNING,
            text=f"{_counted(count, 'line')} beside another all round, the first by "
            f"{apart_mm:.2f} mm: a cutter's line and the true one?",
            remedy="Those farther out of parts, and farther in of holes, are left out. Take them "
            "instead where they are the true ones.",
            about=(*(shapes[m].key for m in sorted(beside)), shapes[other].key),
        )
    stray = [s for n, s in enumerate(shapes) if n not in beside and _is_stray(s)]
    if stray:
        (x, y), _ = stray[0].circle or ((0.0, 0.0), 0.0)
        yield Finding(
            code="stray-holes",
            severity=Severity.NOTE,
            text=f"{_counted(len(stray), 'round line')} in no part, the first at {_spot((x, y))}.",
            remedy="If they are holes, look whether the outline round them is closed.",
            about=tuple(s.key for s in stray),
        )


def _is_stray(shape: Shape) -> bool:
    return shape.kind is ShapeKind.LEFT_OUT and shape.circle is not None and not shape.said


def _self_crossing(shapes: Sequence[Shape]) -> Iterator[Finding]:
    import shapely

    asked = [s for s in shapes if s.closed and s.kind in {ShapeKind.PART, ShapeKind.SLOT}]
    if not asked:
        return
    areas = shapely.polygons([shapely.linearrings(s.points) for s in asked])
    for n in (~shapely.is_valid(areas)).nonzero()[0]:
        found = re.search(r"\[([-\d.e+]+) ([-\d.e+]+)", str(shapely.is_valid_reason(areas[n])))
        where = f" at {_spot((float(found[1]), float(found[2])))}" if found else ""
        yield Finding(
            code="crosses-itself",
            severity=Severity.WARNING,
            text=f"An outline crosses or touches itself{where}.",
            remedy="Draw it so that the line meets only at its ends.",
            about=(asked[n].key,),
        )


def _crossing(shapes: Sequence[Shape], nest: Nest) -> Iterator[Finding]:
    cut = {ShapeKind.PART, ShapeKind.SLOT, ShapeKind.HOLE}
    told = 0
    for one, other in nest.crossing:
        kinds = {shapes[one].kind, shapes[other].kind}
        if kinds <= cut or (ShapeKind.PART in kinds and kinds <= {*cut, ShapeKind.LEFT_OUT}):
            # Of those that are told by number only none needs a place.
            where = f" near {_spot(_where(nest, one, other))}" if told < _SINGLY else ""
            told += 1
            yield Finding(
                code="outlines-cross",
                severity=Severity.WARNING,
                text=f"Two closed lines cross{where}.",
                remedy="Draw them apart: a hole whole in its part, two parts beside each other.",
                about=(shapes[one].key, shapes[other].key),
            )


def _where(nest: Nest, one: int, other: int) -> Point:
    shared = nest.areas[one].intersection(nest.areas[other]).representative_point()
    return float(shared.x), float(shared.y)


def _first(found: Sequence[Finding], what: str) -> Iterator[Finding]:
    yield from found[:_SINGLY]
    more = found[_SINGLY:]
    if more:
        yield Finding(
            code=more[0].code,
            severity=more[0].severity,
            text=f"There are {len(more)} more {what}.",
            remedy=more[0].remedy,
            about=tuple(key for each in more for key in each.about),
        )


def _counted(count: int, what: str) -> str:
    return f"{count} {what} lies" if count == 1 else f"{count} {what}s lie"


def _spot(spot: Point) -> str:
    return f"({spot[0]:.1f}, {spot[1]:.1f}) mm"
