"""What the drawing table shows of a draft: its parts and holes, the rows on them, axes."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from armorplan.app.draft import Draft
from armorplan.app.editing.spare import Spare, spare_outlines
from armorplan.pattern.parts import Hole, Point, Ring
from armorplan.pattern.pattern import Pattern

PART, HOLE, SLOT, AXIS, SPARE = "part:", "hole:", "slot:", "axis:", "spare:"
"""Heads of the keys of what can be chosen on the table; an id of the pattern follows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TableRow:
    """The holes of one seam in one part, in their order along the seam."""

    seam: str
    part: str
    holes: tuple[str, ...]
    line: Ring


@dataclass(frozen=True, slots=True, kw_only=True)
class TableAxis:
    """The line that a form bends about, with what is said of the bend (mm, °; ``None``: nothing)."""

    form: str
    ends: tuple[Point, Point]
    radius_mm: float | None
    angle_deg: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class TableScene:
    """One state of a pattern, ready to be drawn; all lengths in mm, y down the page.

    Attributes:
        through: by hole, the joints that pass it.
        in_rows: by hole, the rows that it is in.
        spots: by key, where what can be chosen lies: each part, then its holes and slots.
        spare: outlines of the drawing that are no part and no slot.
    """

    pattern: Pattern
    through: Mapping[str, tuple[str, ...]]
    rows: tuple[TableRow, ...]
    in_rows: Mapping[str, tuple[TableRow, ...]]
    axes: tuple[TableAxis, ...]
    spots: Mapping[str, Point]
    spare: tuple[Spare, ...] = ()

    def spare_outline(self, name: str) -> Spare:
        """Return an outline that is no part and no slot."""
        return next(one for one in self.spare if one.id == name)

    def rows_of(self, hole: str) -> tuple[TableRow, ...]:
        """Return the rows that a hole is in."""
        return self.in_rows.get(hole, ())

    def part_of(self, key: str) -> str:
        """Return the part that a key names or lies in; of an axis the first that it bends.

        An outline that is no part lies in none: then it is empty.
        """
        name = key.partition(":")[2]
        if key.startswith(SPARE):
            return ""
        if key.startswith(HOLE):
            return self.pattern.hole(name).part
        if key.startswith(SLOT):
            return self.pattern.slot(name).part
        if key.startswith(AXIS):
            return next(form.parts[0] for form in self.pattern.forms if form.id == name)
        return name

    def keys_about(self, about: tuple[str, ...]) -> tuple[str, ...]:
        """Return the keys of what a finding speaks of, as near to the place as it is told.

        Holes, slots and lines that are named come before joints, joints before rows, and parts last.
        """
        pattern = self.pattern
        joints = {joint.id: joint.stack for joint in pattern.joints}
        seams = {seam.id: seam.joints for seam in pattern.seams}
        in_seams = [joint for name in about for joint in seams.get(name, ())]
        ways = (
            [head + name for name in about for head in (HOLE, SLOT, AXIS, SPARE)],
            [HOLE + hole for name in about for hole in joints.get(name, ())],
            [HOLE + hole for name in in_seams for hole in joints.get(name, ())],
            [PART + name for name in about],
        )
        found = ([key for key in keys if key in self.spots] for keys in ways)
        return tuple(dict.fromkeys(next((keys for keys in found if keys), [])))


def middle(ring: Ring) -> Point:
    """Return the middle of the box around some points, in mm."""
    across, down = [x for x, _ in ring], [y for _, y in ring]
    return (min(across) + max(across)) / 2, (min(down) + max(down)) / 2


def scene_of(draft: Draft) -> TableScene | None:
    """Return what a draft looks like, with all its choices; ``None`` where it cannot be read.

    Takes as long as reading does: not for the window's thread.
    """
    pattern = draft.pattern
    return None if pattern is None else scene_from(pattern, spare_outlines(draft))


def scene_from(pattern: Pattern, spare: tuple[Spare, ...] = ()) -> TableScene:
    """Return what a pattern looks like, with the outlines that it makes nothing of."""
    through: dict[str, list[str]] = {}
    for joint in pattern.joints:
        for hole in joint.stack:
            through.setdefault(hole, []).append(joint.id)
    rows, in_rows = tuple(_rows(pattern)), dict[str, list[TableRow]]()
    for row in rows:
        for hole in row.holes:
            in_rows.setdefault(hole, []).append(row)
    axes = tuple(
        TableAxis(form=form.id, ends=form.axis, radius_mm=form.radius_mm, angle_deg=form.angle_deg)
        for form in pattern.forms
        if form.axis is not None
    )
    return TableScene(
        pattern=pattern,
        through=MappingProxyType({hole: tuple(ids) for hole, ids in through.items()}),
        rows=rows,
        in_rows=MappingProxyType({hole: tuple(held) for hole, held in in_rows.items()}),
        axes=axes,
        spots=MappingProxyType(dict(_spots(pattern, axes, spare))),
        spare=spare,
    )


def _spots(
    pattern: Pattern, axes: tuple[TableAxis, ...], spare: tuple[Spare, ...]
) -> Iterator[tuple[str, Point]]:
    for part in pattern.parts:
        yield PART + part.id, middle(part.outline)
        yield from ((HOLE + hole.id, hole.centre) for hole in part.holes)
        yield from ((SLOT + slot.id, middle(slot.outline)) for slot in part.slots)
    yield from ((AXIS + axis.form, middle(axis.ends)) for axis in axes)
    yield from ((SPARE + one.id, middle(one.ring)) for one in spare)


def _rows(pattern: Pattern) -> Iterator[TableRow]:
    stacks = {joint.id: joint.stack for joint in pattern.joints}
    centres = {hole.id: hole for part in pattern.parts for hole in part.holes}
    for seam in pattern.seams:
        by_part: dict[str, list[Hole]] = {}
        for joint in seam.joints:
            for hole in (centres[h] for h in stacks.get(joint, ()) if h in centres):
                by_part.setdefault(hole.part, []).append(hole)
        for part, holes in by_part.items():
            if len(holes) > 1:
                yield TableRow(
                    seam=seam.id,
                    part=part,
                    holes=tuple(hole.id for hole in holes),
                    line=tuple(hole.centre for hole in holes),
                )
