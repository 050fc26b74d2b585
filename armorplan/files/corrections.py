"""Applies known corrections: holes that were drawn in the wrong place are moved as they are read."""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from typing import NamedTuple

from armorplan.files.drawing import Circle, Drawing, Outline
from armorplan.files.faults import Faults, brief
from armorplan.files.references import Names, check_ref
from armorplan.files.tables import Table
from armorplan.kernel.findings import Place
from armorplan.pattern.own_work import Correction
from armorplan.pattern.parts import Point


class _Move(NamedTuple):
    """How far a hole is moved in mm, all corrections together, and the last of these."""

    across_mm: float
    down_mm: float
    by: Place


def corrected(
    drawings: Sequence[Drawing],
    corrections: Sequence[tuple[Table, Correction]],
    sliding: Collection[str],
    *,
    faults: Faults,
) -> tuple[Drawing, ...]:
    """Return the drawings with their holes moved, in the order the corrections are written.

    Args:
        drawings: as read.
        corrections: with their tables; one that names an unknown hole is told.
        sliding: ids of outlines that serve as holes, which may be moved too.
        faults: takes a note for each correction that was applied.
    """
    circles = {c.id for drawing in drawings for c in drawing.circles if c.id}
    outlines = {o.id for drawing in drawings for o in drawing.outlines}
    names = Names(what="hole in the drawings", ids=circles | (outlines & set(sliding)))
    readable = all(drawing.readable for drawing in drawings)
    moves: dict[str, _Move] = {}
    for table, correction in corrections:
        for hole in correction.holes:
            if hole in outlines and hole not in names.ids:
                _tell_still(table, hole)
            elif readable:
                check_ref(table, "holes", value=hole, names=names)
            if hole not in names.ids:
                continue
            (across, down), former = correction.move_mm, moves.get(hole)
            if former is not None:
                across, down = across + former.across_mm, down + former.down_mm
            moves[hole] = _Move(across, down, table.place("move_mm"))
    _note(corrections, faults)
    return tuple(_moved(drawing, moves) for drawing in drawings) if moves else tuple(drawings)


def _tell_still(table: Table, outline: str) -> None:
    table.fault(
        "holes",
        "outline-not-moved",
        f'"{brief(outline)}" is an outline; a correction moves only holes, and slots that a joint '
        "slides in.",
        mend="Take it out of the list, and mend the outline in the drawing.",
        about=(outline,),
    )


def _note(corrections: Iterable[tuple[Table, Correction]], faults: Faults) -> None:
    """Tell what is moved; entries of one name and reason are one thing found, and told once."""
    alike: dict[tuple[str, str], list[tuple[Table, Correction]]] = {}
    for table, correction in corrections:
        alike.setdefault((correction.name, correction.notes), []).append((table, correction))
    for (name, notes), entries in alike.items():
        moved = "; ".join(
            f"{', '.join(map(brief, each.holes))} moved {move_words(each.move_mm)}"
            for _, each in entries
        )
        faults.note(
            "correction-applied",
            f"{brief(name)}: {moved}.{f' {notes}' if notes else ''}",
            mend="Nothing to do; once the drawing itself is mended, take the correction out.",
            place=entries[0][0].place(),
            about=tuple(dict.fromkeys(hole for _, each in entries for hole in each.holes)),
        )


def move_words(move_mm: Point) -> str:
    """Say a move on the page, such as ``1.5 mm up the page``; y runs downward."""
    across, down = move_mm
    words = [
        f"{abs(by):g} mm {way}"
        for by, way in ((across, "right" if across > 0 else "left"), (down, _way(down)))
        if by
    ]
    return " and ".join(words) or "by nothing"


def _way(down: float) -> str:
    return "down the page" if down > 0 else "up the page"


def _moved(drawing: Drawing, moves: dict[str, _Move]) -> Drawing:
    return replace(
        drawing,
        circles=tuple(_circle(c, moves.get(c.id or "")) for c in drawing.circles),
        outlines=tuple(_outline(o, moves.get(o.id)) for o in drawing.outlines),
    )


def _circle(circle: Circle, move: _Move | None) -> Circle:
    if move is None:
        return circle
    return replace(circle, centre=_shifted(circle.centre, move), moved_by=move.by)


def _outline(outline: Outline, move: _Move | None) -> Outline:
    if move is None:
        return outline
    ring = tuple(_shifted(corner, move) for corner in outline.ring)
    return replace(outline, ring=ring, moved_by=move.by)


def _shifted(point: Point, move: _Move) -> Point:
    return point[0] + move.across_mm, point[1] + move.down_mm
