"""Brings tables and drawings together: each part gets its outline, holes and slots."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from armorplan.files.corrections import corrected
from armorplan.files.drawing import Drawing
from armorplan.files.drawn_index import Asked, DrawnIndex
from armorplan.files.faults import Faults, brief
from armorplan.files.joining_rows import JointRow, ThreadRow, slots_of
from armorplan.files.layout import Declared, Layout, Wanted, lay_out
from armorplan.files.part_rows import PartRow
from armorplan.files.shaping_rows import FormRow
from armorplan.files.tables import Table
from armorplan.files.wearing_rows import PlaceRow
from armorplan.pattern.joining import Form, JointKind, Motion
from armorplan.pattern.own_work import Correction
from armorplan.pattern.parts import Part

_SLIDES = 'Write motion = "sliding" if the joint slides in this slot; else draw a circle there.'


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """The tables that name shapes of the drawings."""

    parts: tuple[PartRow, ...]
    declared: dict[str, Declared]
    joints: tuple[JointRow, ...]
    threads: tuple[ThreadRow, ...]
    forms: tuple[FormRow, ...]
    places: tuple[PlaceRow, ...]
    corrections: tuple[tuple[Table, Correction], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """The parts with all that is drawn of them, and the forms with their axes."""

    parts: tuple[Part, ...]
    forms: tuple[Form, ...]


def find_drawn(drawings: Sequence[Drawing], rows: Rows, faults: Faults) -> Drawn:
    """Find what the tables name in the drawings; what is not there is told."""
    slides = _slides(drawings, rows)
    drawings = corrected(drawings, rows.corrections, slides, faults=faults)
    index = DrawnIndex(drawings, faults)
    for row in rows.parts:
        index.outline(Asked(id=row.outline, what="outline", place=row.table.place("outline")))
    holes = _holes(index, rows, slides)
    slots = _slots(index, rows, slides)
    wanted = Wanted(
        outlines={row.part.id: row.outline for row in rows.parts},
        holes=holes,
        slots=slots,
        slides=slides,
        declared=rows.declared,
    )
    layout = lay_out(drawings, index, wanted, faults)
    _check_places(rows.places, layout)
    forms = tuple(_with_axis(row, index) for row in rows.forms)
    index.tell_doubles()
    return Drawn(parts=tuple(_complete(row.part, layout) for row in rows.parts), forms=forms)


def _slides(drawings: Sequence[Drawing], rows: Rows) -> frozenset[str]:
    """Return the ids of the slots that joints slide in; a stack that names not one is told."""
    outlines = {outline.id for drawing in drawings for outline in drawing.outlines}
    outlines -= {row.outline for row in rows.parts}
    whole = bool(drawings) and all(drawing.readable for drawing in drawings)
    found: set[str] = set()
    for row in rows.joints:
        if row.joint.motion is not Motion.SLIDING:
            continue
        named = [hole for hole in row.joint.stack if hole in outlines]
        found.update(named)
        if len(named) != 1 and whole and len(row.joint.stack) > 1:
            row.table.fault(
                "stack",
                "not-one-slot",
                f'The sliding joint "{brief(row.joint.id)}" names '
                f"{' and '.join(brief(slot) for slot in named) or 'no slot'} in its stack.",
                mend="Name exactly one closed outline, the slot it slides in, among its holes.",
                about=(row.joint.id, *named),
            )
    return frozenset(found)


def _holes(index: DrawnIndex, rows: Rows, slides: frozenset[str]) -> set[str]:
    """Ask for every hole that is named, and return their ids."""
    holes: set[str] = set()
    of_parts = {row.outline for row in rows.parts}
    for row in rows.joints:
        place = row.table.place("stack")
        can_slide = row.joint.kind in {JointKind.RIVET, JointKind.SCREW}
        for hole in row.joint.stack:
            if hole in slides:
                index.outline(Asked(id=hole, what="outline", place=place))
                continue
            mend = _SLIDES if can_slide and hole not in of_parts else ""
            index.circle(Asked(id=hole, what="circle", place=place, else_outline=mend))
            holes.add(hole)
    for strap in rows.places:
        for hole in strap.place.holes:
            index.circle(Asked(id=hole, what="circle", place=strap.table.place("holes")))
            holes.add(hole)
    for hole, owner in rows.declared.items():
        index.circle(Asked(id=hole, what="circle", place=owner.place))
    return holes


def _slots(index: DrawnIndex, rows: Rows, slides: frozenset[str]) -> set[str]:
    """Ask for every slot that a strap passes, and return their ids."""
    parts = {row.part.id: row.part for row in rows.parts}
    owners = {row.outline: row.part.id for row in rows.parts}
    slots: set[str] = set()
    for row in rows.threads:
        for slot in slots_of(row, parts, owners):
            index.outline(Asked(id=slot, what="outline", place=row.table.place("through")))
            slots.add(slot)
            if slot in slides:
                row.table.fault(
                    "through",
                    "slot-of-a-joint",
                    f'A joint slides in the slot "{slot}"; nothing else can pass it.',
                    mend="Draw a slot of its own for the strap.",
                )
    return slots


def _check_places(places: Iterable[PlaceRow], layout: Layout) -> None:
    """Tell holes of a strap place that lie in another part than its strap."""
    owner_of = layout.owner_of()
    for row in places:
        for hole in row.place.holes:
            owner = owner_of.get(hole, row.place.strap)
            if owner != row.place.strap:
                row.table.fault(
                    "holes",
                    "hole-of-another-part",
                    f'The hole "{hole}" lies in "{owner}", not in the strap '
                    f'"{brief(row.place.strap)}".',
                    mend="Name the holes of the strap that the buckle can take, tip first.",
                    about=(hole, owner),
                )


def _with_axis(row: FormRow, index: DrawnIndex) -> Form:
    if row.drawn_axis is None:
        return row.form
    place = row.table.place("axis")
    line = index.line(Asked(id=row.drawn_axis, what="line", place=place))
    return replace(row.form, axis=line.ends if line else None)


def _complete(part: Part, layout: Layout) -> Part:
    outline = layout.outlines.get(part.id)
    return replace(
        part,
        outline=outline.ring if outline else (),
        holes=tuple(layout.holes.get(part.id, ())),
        slots=tuple(layout.slots.get(part.id, ())),
    )
