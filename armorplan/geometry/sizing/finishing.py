"""The pattern put together in its new size, from where everything comes to lie."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace

from armorplan.geometry.areas import ring_area_mm2, ring_length_mm
from armorplan.geometry.sizing.drafted import rounded, told_of
from armorplan.geometry.sizing.forms import formed
from armorplan.geometry.sizing.model import Factors, PartSized, RowSized, Sized
from armorplan.geometry.sizing.rows import RowMade
from armorplan.geometry.sizing.stretches import Stretch
from armorplan.kernel.findings import Finding
from armorplan.pattern.joining import Joint
from armorplan.pattern.parts import Hole, Part, Point, Slot
from armorplan.pattern.pattern import Pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class Finishing:
    """Everything that moved, and how.

    Attributes:
        pattern: as it was drawn.
        factors: of each part that follows a measure.
        stretches: by part, where its spots come to lie.
        spots: by hole, where it lies now.
        slots: by slot, how far it moves.
    """

    pattern: Pattern
    factors: Mapping[str, Factors]
    stretches: Mapping[str, Stretch]
    spots: Mapping[str, Point]
    slots: Mapping[str, Point]

    def finished(self, rows: tuple[RowMade, ...], findings: tuple[Finding, ...]) -> Sized:
        """Return the pattern with these rows; ``findings`` is what was found on the way."""
        fresh = {
            hole.id: hole
            for row in rows
            for hole in row.holes.values()
            if hole.id not in self.spots or hole.id in {h for a in row.added for h in a.stack}
        }
        dropped = {joint for row in rows for joint in row.dropped}
        gone = {hole for joint in dropped for hole in self.pattern.joint(joint).stack}
        parts = tuple(self._part(part, fresh, gone) for part in self.pattern.parts)
        added = tuple(joint for row in rows for joint in row.added)
        told = tuple(row.told for row in rows)
        pattern = replace(
            self.pattern,
            parts=parts,
            joints=tuple(self._joints(rows, dropped, {p.id: p for p in parts})),
            seams=tuple(
                replace(seam, joints=_row_of(seam.id, told) or seam.joints)
                for seam in self.pattern.seams
            ),
            forms=tuple(
                formed(form, self.pattern, self.factors, self.stretches)
                for form in self.pattern.forms
            ),
        )
        return Sized(
            pattern=pattern,
            parts=tuple(self._told(pattern)),
            rows=told,
            holes={hole.id: hole for part in parts for hole in part.holes},
            added=added,
            dropped=tuple(sorted(dropped)),
            findings=findings,
        )

    def _part(self, part: Part, fresh: Mapping[str, Hole], gone: Collection[str]) -> Part:
        stretch = self.stretches[part.id]
        kept = [hole for hole in part.holes if hole.id not in gone]
        holes = [replace(hole, centre=rounded(self.spots[hole.id])) for hole in kept]
        holes += [hole for hole in fresh.values() if hole.part == part.id]
        return replace(
            part,
            outline=part.outline
            if part.id not in self.factors or self.factors[part.id].stays
            else tuple(rounded(stretch.at(corner)) for corner in part.outline),
            holes=tuple(holes),
            slots=tuple(self._slot(slot) for slot in part.slots),
        )

    def _slot(self, slot: Slot) -> Slot:
        by = self.slots.get(slot.id)
        if by is None:
            return slot
        return replace(
            slot, outline=tuple(rounded((x + by[0], y + by[1])) for x, y in slot.outline)
        )

    def _joints(
        self, rows: tuple[RowMade, ...], dropped: Collection[str], parts: Mapping[str, Part]
    ) -> Iterator[Joint]:
        """Yield the joints, new ones behind the one they follow."""
        added = {joint.after: joint for row in rows for joint in row.added}
        for joint in self.pattern.joints:
            if joint.id not in dropped:
                yield self._measured(joint, parts)
            after = added.get(joint.id)
            while after is not None:
                like = self.pattern.joint(after.like)
                yield replace(like, id=after.id, stack=after.stack)
                after = added.get(after.id)

    def _measured(self, joint: Joint, parts: Mapping[str, Part]) -> Joint:
        """Return a sewn or glued joint whose length and area went with its smaller layer."""
        if joint.length_mm is None and joint.area_mm2 is None:
            return joint
        names = self.pattern.stack_parts(joint.id)
        was = min((self.pattern.part(p) for p in names), key=lambda p: ring_area_mm2(p.outline))
        now = parts[was.id]
        longer = ring_length_mm(now.outline) / ring_length_mm(was.outline)
        larger = ring_area_mm2(now.outline) / ring_area_mm2(was.outline)
        return replace(
            joint,
            length_mm=joint.length_mm and round(joint.length_mm * longer, 1),
            area_mm2=joint.area_mm2 and round(joint.area_mm2 * larger, 1),
        )

    def _told(self, pattern: Pattern) -> Iterator[PartSized]:
        changed = ((part, one) for part, one in self.factors.items() if not one.stays)
        for part_id, factors in changed:
            yield told_of(self.pattern.part(part_id), pattern.part(part_id), factors)


def _row_of(seam: str, rows: tuple[RowSized, ...]) -> tuple[str, ...]:
    return next((row.joints for row in rows if row.seam == seam), ())
