"""A pattern in another size: parts, holes, rows, straps, forms, each by what it follows."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from armorplan.geometry.areas import ring_area_mm2, ring_length_mm
from armorplan.geometry.sizing.clusters import clusters
from armorplan.geometry.sizing.depths import Deeper, deeper, left_of
from armorplan.geometry.sizing.drafted import Drafted, rounded, told_of
from armorplan.geometry.sizing.edges import kept_spots
from armorplan.geometry.sizing.ends import with_ends_kept
from armorplan.geometry.sizing.factors import LENGTHENED, NOBODY, factors_of
from armorplan.geometry.sizing.findings import findings_of
from armorplan.geometry.sizing.forms import formed
from armorplan.geometry.sizing.model import Factors, PartSized, RowSized, Sized, WantedBy
from armorplan.geometry.sizing.moving import with_moving
from armorplan.geometry.sizing.pivots import nested
from armorplan.geometry.sizing.rows import RowMade, matched
from armorplan.geometry.sizing.straps import lengthened
from armorplan.geometry.sizing.stretches import Still, Stretch, spread_of
from armorplan.kernel.findings import Finding
from armorplan.pattern.joining import Joint
from armorplan.pattern.parts import Hole, Part, Point, Slot
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

_ROUNDS = 4


def sized(
    pattern: Pattern,
    wanted: WantedBy,
    constants: Constants,
    *,
    named: Collection[str] = (),
    apart: Mapping[str, WantedBy] = NOBODY,
) -> Drafted:
    """Return a pattern in another size.

    Args:
        pattern: as it was drawn, with all its parts, whatever the options choose.
        wanted: the measures it shall fit; parts whose measure is not among them keep their size.
        constants: how much should stay under a lame's neighbour.
        named: joints that the maker's own relations or the like name; they are never taken out.
        apart: by part, other measures that it follows: those of the right side.
    """
    factors, depths = factors_of(pattern, wanted, apart), Deeper()
    made = _Sizing(pattern, factors, named).made()
    for _ in range(_ROUNDS):
        more = deeper(pattern, made.sized.pattern, constants.kept_cover.value, depths)
        if more == depths:
            break
        depths = more
        made = _Sizing(pattern, _with_depths(factors, depths), named, depths.shifts).made()
    reaching = with_ends_kept(pattern, made.sized.pattern, _with_depths(factors, depths))
    made = _Sizing(pattern, reaching, named, depths.shifts).made()
    made = with_moving(pattern, made, factors)
    left, kept_mm = (left_of(pattern), left_of(made.sized.pattern)), constants.kept_cover.value
    told = findings_of(pattern, made.sized, wanted, left, kept_mm)
    found = (*made.sized.findings, *told)
    return replace(made, sized=replace(made.sized, findings=found))


def _with_depths(factors: Mapping[str, Factors], depths: Deeper) -> dict[str, Factors]:
    return {
        part: replace(one, along=one.along * depths.factors.get(part, 1.0))
        for part, one in factors.items()
    }


class _Sizing:
    """One pattern under sizing."""

    def __init__(
        self,
        pattern: Pattern,
        factors: Mapping[str, Factors],
        named: Collection[str],
        shifts: Mapping[str, Point] = MappingProxyType({}),
    ) -> None:
        self._shifts = shifts
        self._pattern = pattern
        self._factors = factors
        self._named = named
        self._stretches: dict[str, Stretch] = {part.id: Still() for part in pattern.parts}
        self._spots: dict[str, Point] = {
            hole.id: hole.centre for part in pattern.parts for hole in part.holes
        }
        self._slots: dict[str, Point] = {}
        """How far each slot moves."""
        self._findings: list[Finding] = []

    def made(self) -> Drafted:
        """Return the pattern in its new size."""
        plates = [p for p in self._pattern.parts if self._grows(p, lengthways=False)]
        for part in plates:
            self._spread(part)
        growing = frozenset(part.id for part in plates)
        held = clusters(self._pattern, growing)
        self._hold_together(held)
        before = dict(self._spots)
        rows = tuple(matched(self._pattern, self._spots, growing, self._named, held))
        self._take_along(held, before)
        nested(self._pattern, self._spots, growing)
        for part in self._pattern.parts:
            if self._grows(part, lengthways=True):
                self._lengthen(part)
        return Drafted(sized=self._finished(rows), stretches=self._stretches)

    def _grows(self, part: Part, *, lengthways: bool) -> bool:
        return part.id in self._factors and (part.kind in LENGTHENED) is lengthways

    def _spread(self, part: Part) -> None:
        """Let a plate grow; holes and slots near an edge stay as far from it."""
        spread = spread_of(part, self._factors[part.id])
        self._stretches[part.id] = spread
        middles = [_middle(slot) for slot in part.slots]
        centres = [hole.centre for hole in part.holes]
        spots = kept_spots(part.outline, [*centres, *middles], spread)
        for hole, (x, y) in zip(part.holes, spots, strict=False):
            by = self._shifts.get(hole.id, (0.0, 0.0))
            self._spots[hole.id] = (x + by[0], y + by[1])
        for slot, was, now in zip(part.slots, middles, spots[len(centres) :], strict=True):
            self._slots[slot.id] = (now[0] - was[0], now[1] - was[1])

    def _hold_together(self, held: Collection[Collection[str]]) -> None:
        """Move what meets something that does not grow as one, by the mean of its moves."""
        for group in held:
            moves = [self._move(name) for name in group]
            by = (sum(x for x, _ in moves) / len(moves), sum(y for _, y in moves) / len(moves))
            for name in group:
                if name in self._spots:
                    x, y = self._pattern.hole(name).centre
                    self._spots[name] = (x + by[0], y + by[1])
                else:
                    self._slots[name] = by

    def _take_along(self, held: Collection[Collection[str]], before: Mapping[str, Point]) -> None:
        """Let what moves as one follow a hole of it that its row has moved."""
        for group in held:
            places = [name for name in group if name in before]
            moved = [name for name in places if self._spots[name] != before[name]]
            if not moved:
                continue
            by = _mean_move(moved, before, self._spots)
            for name in group:
                if name in self._slots:
                    x, y = self._slots[name]
                    self._slots[name] = (x + by[0], y + by[1])
                elif name not in moved:
                    x, y = before[name]
                    self._spots[name] = (x + by[0], y + by[1])

    def _move(self, name: str) -> Point:
        if name in self._slots:
            return self._slots[name]
        (x, y), (was_x, was_y) = self._spots[name], self._pattern.hole(name).centre
        return x - was_x, y - was_y

    def _lengthen(self, part: Part) -> None:
        found = lengthened(self._pattern, part, self._factors[part.id], self._spots)
        self._findings += found.findings
        stretch = found.stretch
        self._stretches[part.id] = stretch
        self._spots.update({hole.id: stretch.at(hole.centre) for hole in part.holes})
        for slot in part.slots:
            was = _middle(slot)
            now = stretch.at(was)
            self._slots[slot.id] = (now[0] - was[0], now[1] - was[1])

    # --- the new pattern ----------------------------------------------------------------------

    def _finished(self, rows: tuple[RowMade, ...]) -> Sized:
        fresh = {
            hole.id: hole
            for row in rows
            for hole in row.holes.values()
            if hole.id not in self._spots or hole.id in {h for a in row.added for h in a.stack}
        }
        dropped = {joint for row in rows for joint in row.dropped}
        gone = {hole for joint in dropped for hole in self._pattern.joint(joint).stack}
        parts = tuple(self._part(part, fresh, gone) for part in self._pattern.parts)
        added = tuple(joint for row in rows for joint in row.added)
        told = tuple(row.told for row in rows)
        pattern = replace(
            self._pattern,
            parts=parts,
            joints=tuple(self._joints(rows, dropped, {p.id: p for p in parts})),
            seams=tuple(
                replace(seam, joints=_row_of(seam.id, told) or seam.joints)
                for seam in self._pattern.seams
            ),
            forms=tuple(
                formed(form, self._pattern, self._factors, self._stretches)
                for form in self._pattern.forms
            ),
        )
        return Sized(
            pattern=pattern,
            parts=tuple(self._told(pattern)),
            rows=told,
            holes={hole.id: hole for part in parts for hole in part.holes},
            added=added,
            dropped=tuple(sorted(dropped)),
            findings=tuple(self._findings),
        )

    def _part(self, part: Part, fresh: Mapping[str, Hole], gone: Collection[str]) -> Part:
        stretch = self._stretches[part.id]
        kept = [hole for hole in part.holes if hole.id not in gone]
        holes = [replace(hole, centre=rounded(self._spots[hole.id])) for hole in kept]
        holes += [hole for hole in fresh.values() if hole.part == part.id]
        return replace(
            part,
            outline=part.outline
            if part.id not in self._factors or self._factors[part.id].stays
            else tuple(rounded(stretch.at(corner)) for corner in part.outline),
            holes=tuple(holes),
            slots=tuple(self._slot(slot) for slot in part.slots),
        )

    def _slot(self, slot: Slot) -> Slot:
        by = self._slots.get(slot.id)
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
        for joint in self._pattern.joints:
            if joint.id not in dropped:
                yield self._measured(joint, parts)
            after = added.get(joint.id)
            while after is not None:
                like = self._pattern.joint(after.like)
                yield replace(like, id=after.id, stack=after.stack)
                after = added.get(after.id)

    def _measured(self, joint: Joint, parts: Mapping[str, Part]) -> Joint:
        """Return a sewn or glued joint whose length and area went with its smaller layer."""
        if joint.length_mm is None and joint.area_mm2 is None:
            return joint
        names = self._pattern.stack_parts(joint.id)
        was = min((self._pattern.part(p) for p in names), key=lambda p: ring_area_mm2(p.outline))
        now = parts[was.id]
        longer = ring_length_mm(now.outline) / ring_length_mm(was.outline)
        larger = ring_area_mm2(now.outline) / ring_area_mm2(was.outline)
        return replace(
            joint,
            length_mm=joint.length_mm and round(joint.length_mm * longer, 1),
            area_mm2=joint.area_mm2 and round(joint.area_mm2 * larger, 1),
        )

    def _told(self, pattern: Pattern) -> Iterator[PartSized]:
        changed = ((part, one) for part, one in self._factors.items() if not one.stays)
        for part_id, factors in changed:
            yield told_of(self._pattern.part(part_id), pattern.part(part_id), factors)


def _row_of(seam: str, rows: tuple[RowSized, ...]) -> tuple[str, ...]:
    return next((row.joints for row in rows if row.seam == seam), ())


def _mean_move(
    names: Collection[str], before: Mapping[str, Point], now: Mapping[str, Point]
) -> Point:
    across = sum(now[name][0] - before[name][0] for name in names) / len(names)
    down = sum(now[name][1] - before[name][1] for name in names) / len(names)
    return across, down


def _middle(slot: Slot) -> Point:
    xs, ys = [x for x, _ in slot.outline], [y for _, y in slot.outline]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
