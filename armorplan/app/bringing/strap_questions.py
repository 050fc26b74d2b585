"""What straps close on: their holes in a row take a buckle at the end of another strap."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import dist, hypot

from armorplan.app.bringing.asking import NONE, Asking, capital, choices, counted
from armorplan.app.bringing.model import Question, QuestionKind
from armorplan.app.bringing.part_shapes import middle
from armorplan.app.bringing.rows_taken import Row, hole_of
from armorplan.geometry.areas import rectangle_mm
from armorplan.geometry.widths import long_side
from armorplan.pattern.parts import Hole, Part, PartKind, Point

_LEAST_HOLES = 3
_OFF_MM = 1.5
"""Holes for a buckle lie on one line within this, and near the middle of the strap."""
_WIDER_MM = 4.0
"""A strap and what carries its buckle are as wide within this (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Closing:
    """A strap that closes: on which part, by which holes, its tip first, round which girth in mm.

    ``fold`` is the slot of the other part where it is folded round the buckle; empty: at its end.
    """

    strap: str
    meets: str
    holes: tuple[str, ...]
    girth_mm: tuple[int, int]
    fold: str = ""

    @property
    def key(self) -> str:
        """Key of the choice."""
        return f"{self.meets}@{self.fold}" if self.fold else self.meets


def asked_closings(
    asking: Asking,
    rows: Sequence[Row],
    parts: Mapping[str, Part],
    *,
    sides: frozenset[str],
    names: Mapping[str, str],
) -> tuple[Closing, ...]:
    """Ask of straps with holes in a row what they close on; how far round follows from the drawing."""
    used = {hole for row in rows for pair in row.pairs for hole in pair}
    found: list[Closing] = []
    for part in parts.values():
        holes = _buckle_holes(part, used)
        ways = list(_ways(part, holes, rows, parts)) if holes else []
        ways = [
            way
            for way in ways
            if (way.meets in sides) == (part.id in sides) and _is_free(way, found)
        ]
        if not ways:
            continue
        taken = asking.put(_question(part, ways, names))
        found += [way for way in ways if way.key == taken]
    return tuple(found)


def _is_free(way: Closing, found: Sequence[Closing]) -> bool:
    """Tell whether what a strap would close on closes on nothing itself, and nothing on it."""
    return all(way.meets not in (other.meets, other.strap) for other in found)


def _question(part: Part, ways: Sequence[Closing], names: Mapping[str, str]) -> Question:
    told = [
        (
            way.key,
            f"On {names[way.meets]}, round {way.girth_mm[0]} to {way.girth_mm[1]} mm",
            "The buckle is taken to sit at its slot, where it is folded."
            if way.fold
            else "The buckle is taken to sit at its free end, before what that is folded round it.",
        )
        for way in ways
    ]
    return Question(
        id=f"closes:{part.id}",
        kind=QuestionKind.STRAPS,
        text=f"{capital(names[part.id])} has {counted(len(ways[0].holes), 'hole')} in a row for a buckle. "
        "What does it close on?",
        choices=choices(*told, (NONE, "On nothing that is drawn")),
        suggested=ways[0].key,
        shapes=(part.id, *dict.fromkeys(way.meets for way in ways)),
    )


def _buckle_holes(part: Part, used: set[str]) -> tuple[Hole, ...]:
    """Return the free holes of a strap that lie in one line along it; none where there are few."""
    free = [hole for hole in part.holes if hole.id not in used]
    if part.kind is not PartKind.STRAP or len(free) < _LEAST_HOLES:
        return ()
    xs, ys = [h.centre[0] for h in free], [h.centre[1] for h in free]
    across_mm = min(max(xs) - min(xs), max(ys) - min(ys))
    return tuple(free) if across_mm <= _OFF_MM else ()


def _ways(
    strap: Part, holes: Sequence[Hole], rows: Sequence[Row], parts: Mapping[str, Part]
) -> Iterator[Closing]:
    """Give what a strap may close on: straps as wide, held by the same part, the likest in width first."""
    wide_mm = rectangle_mm(strap.outline)[1]
    own = [row for row in rows if strap.id in (row.outer, row.inner)]
    found: list[tuple[float, Closing]] = []
    for row in own:
        on = row.inner if row.outer == strap.id else row.outer
        for other_row in rows:
            meets = next((p for p in (other_row.outer, other_row.inner) if p != on), on)
            other = parts[meets]
            if meets in (strap.id, on) or on not in (other_row.outer, other_row.inner):
                continue
            if other.kind is not PartKind.STRAP:
                continue
            off_mm = round(abs(rectangle_mm(other.outline)[1] - wide_mm), 1)
            if off_mm <= _WIDER_MM:
                ways = _closings(strap, other, holes, rows=(row, other_row), parts=parts)
                found += [(off_mm, way) for way in ways]
    # What has holes for a buckle of its own carries none.
    own_holes = {way.meets: len(parts[way.meets].holes) >= _LEAST_HOLES for _, way in found}
    yield from (
        way for _, way in sorted(found, key=lambda e: (own_holes[e[1].meets], e[0], e[1].girth_mm))
    )


def _closings(
    strap: Part,
    other: Part,
    holes: Sequence[Hole],
    *,
    rows: tuple[Row, Row],
    parts: Mapping[str, Part],
) -> Iterator[Closing]:
    """Give the closing with its girth: across the plate, the other to its buckle, the strap to a hole.

    Where the other has a slot the buckle's tongue may pass it, and the other be folded there.
    """
    row, other_row = rows
    on = row.inner if row.outer == strap.id else row.outer
    plate_mm = dist(_middle(row, on, parts), _middle(other_row, on, parts))
    held = _middle(other_row, other.id, parts)
    start = _middle(row, strap.id, parts)
    tip_first = sorted(holes, key=lambda hole: -dist(start, hole.centre))
    at_mm = {slot.id: dist(held, middle(slot.outline)) for slot in other.slots}
    for fold, other_mm in {**at_mm, "": _to_the_end_mm(other, held)}.items():
        around = sorted(plate_mm + other_mm + dist(start, hole.centre) for hole in holes)
        yield Closing(
            strap=strap.id,
            meets=other.id,
            holes=tuple(hole.id for hole in tip_first),
            girth_mm=(round(around[0]), round(around[-1])),
            fold=fold,
        )


def _to_the_end_mm(part: Part, at: Point) -> float:
    """Return how far the farther end of a strap lies along it from a spot, in mm."""
    x, y = long_side(part)
    along = hypot(x, y)
    return max(abs((cx - at[0]) * x + (cy - at[1]) * y) / along for cx, cy in part.outline)


def _middle(row: Row, part: str, parts: Mapping[str, Part]) -> Point:
    at = 0 if part == row.outer else 1
    spots = [hole_of(parts, part, pair[at]).centre for pair in row.pairs]
    return sum(x for x, _ in spots) / len(spots), sum(y for _, y in spots) / len(spots)
