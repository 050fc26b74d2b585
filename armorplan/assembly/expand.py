"""From a pattern to what is made: every part and joint once for each side it is worn on."""

from collections.abc import Iterable, Iterator, Sequence

from armorplan.assembly.model import (
    Assembly,
    Cover,
    Side,
    SidedForm,
    SidedHardware,
    SidedJoint,
    SidedPart,
    SidedSeam,
    SidedThread,
    SidedTreatment,
)
from armorplan.geometry.covers.covering import covered_heads
from armorplan.pattern.parts import MadeOn
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.sides import paired_parts, thread_hosts
from armorplan.workshop.shelf import Shelf

_BOTH = (Side.LEFT, Side.RIGHT)
_MADE_ON = {MadeOn.BOTH: _BOTH, MadeOn.LEFT: (Side.LEFT,), MadeOn.RIGHT: (Side.RIGHT,)}


class _Sides:
    """Answers on which sides the things of one pattern are made."""

    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        paired = paired_parts(pattern)
        self._sides = {
            p.id: _MADE_ON[p.made_on] if p.id in paired else (Side.SINGLE,) for p in pattern.parts
        }
        self._harness = {name: h.id for h in pattern.harnesses for name in h.pieces}

    def of_parts(self, parts: Iterable[str], made_on: MadeOn = MadeOn.BOTH) -> tuple[Side, ...]:
        """Return the sides common to all these parts, of those named; single ones join any."""
        paired = [s for part in parts if (s := self._sides[part]) != (Side.SINGLE,)]
        if not paired:
            return (Side.SINGLE,)
        return tuple(s for s in _MADE_ON[made_on] if all(s in sides for sides in paired))

    def of_joint(self, joint_id: str) -> tuple[Side, ...]:
        """Return the sides a joint is made on."""
        made_on = self.pattern.joint(joint_id).made_on
        return self.of_parts(self.pattern.stack_parts(joint_id), made_on)

    def with_joints(self, sides: tuple[Side, ...], joints: Iterable[str]) -> tuple[Side, ...]:
        """Return those of the sides on which all these joints are made too."""
        if sides == (Side.SINGLE,):
            return sides
        made = [on for joint in joints if (on := self.of_joint(joint)) != (Side.SINGLE,)]
        return tuple(side for side in sides if all(side in on for on in made))

    def joint_ids(self, joints: Iterable[str], side: Side) -> tuple[str, ...]:
        """Return joints as they are called seen from a side: its own, else every one made."""
        found = []
        for joint in joints:
            on = self.of_joint(joint)
            found += [s.tag(joint) for s in ((side,) if side in on else on)]
        return tuple(found)

    def tag(self, part: str, side: Side) -> str:
        """Return a part's id on a side; a part that is not one of a pair keeps its plain id."""
        return side.tag(part) if side in self._sides[part] else part

    def piece(self, parts: Sequence[str], side: Side) -> str:
        """Return the piece of the first part made on this side."""
        at_hand = (part for part in parts if side in self._sides[part])
        return self.pattern.part(next(at_hand, parts[0])).piece

    def worked_in(self, parts: Sequence[str], side: Side) -> str:
        """Return where parts are joined: in the piece of the first one made on this side.

        What joins pieces of one harness is worked when the harness is hung together.
        """
        pieces = {self.pattern.part(part).piece for part in parts}
        hung = {self._harness.get(piece) for piece in pieces}
        harness = hung.pop() if len(hung) == 1 else None
        if harness is not None and len(pieces) > 1:
            return harness
        return self.piece(parts, side)


def _joints(sides: _Sides) -> Iterator[SidedJoint]:
    for joint in sides.pattern.joints:
        parts = sides.pattern.stack_parts(joint.id)
        holes = joint.stack if not joint.layers else ("",) * len(parts)
        for side in sides.of_joint(joint.id):
            yield SidedJoint(
                id=side.tag(joint.id),
                joint=joint,
                piece=sides.worked_in(parts, side),
                side=side,
                stack=tuple(
                    (sides.tag(part, side), hole) for part, hole in zip(parts, holes, strict=True)
                ),
            )


def _seams(sides: _Sides) -> Iterator[SidedSeam]:
    for seam in sides.pattern.seams:
        parts = tuple(p for j in seam.joints for p in sides.pattern.stack_parts(j))
        for side in sides.with_joints(sides.of_parts(parts), seam.joints):
            yield SidedSeam(
                id=side.tag(seam.id),
                seam=seam,
                piece=sides.worked_in(parts, side),
                side=side,
                joints=sides.joint_ids(seam.joints, side),
            )


def _threads(sides: _Sides) -> Iterator[SidedThread]:
    pattern = sides.pattern
    for thread in pattern.threads:
        hosts = thread_hosts(pattern, thread)
        common = sides.of_parts((thread.part, *hosts), thread.made_on)
        for side in sides.with_joints(common, thread.closed_by):
            yield SidedThread(
                id=side.tag(thread.id),
                thread=thread,
                piece=sides.worked_in((thread.part, *hosts), side),
                side=side,
                part=sides.tag(thread.part, side),
                through=tuple(
                    name if pattern.has_slot(name) else sides.tag(name, side)
                    for name in thread.through
                ),
                hosts=tuple(sides.tag(part, side) for part in hosts),
                closed_by=sides.joint_ids(thread.closed_by, side),
            )


def _hardware(sides: _Sides) -> Iterator[SidedHardware]:
    for use in sides.pattern.hardware:
        for side in sides.with_joints(sides.of_parts((use.part,)), use.held_by):
            yield SidedHardware(
                id=side.tag(use.id),
                hardware=use,
                piece=sides.piece((use.part,), side),
                side=side,
                part=sides.tag(use.part, side),
                held_by=sides.joint_ids(use.held_by, side),
            )


def _forms(sides: _Sides) -> Iterator[SidedForm]:
    seams = {seam.id: seam.joints for seam in sides.pattern.seams}
    for form in sides.pattern.forms:
        drawn_by = tuple(joint for seam in form.seams for joint in seams[seam])
        for side in sides.with_joints(sides.of_parts(form.parts), drawn_by):
            yield SidedForm(
                id=side.tag(form.id),
                form=form,
                piece=sides.piece(form.parts, side),
                side=side,
                parts=tuple(sides.tag(p, side) for p in form.parts),
                seams=tuple(side.tag(s) for s in form.seams),
            )


def _treatments(sides: _Sides) -> Iterator[SidedTreatment]:
    """Yield one dip for each piece and side, so that a batch is formed only by the schedule."""
    for treatment in sides.pattern.treatments:
        pieces = dict.fromkeys(sides.pattern.part(p).piece for p in treatment.parts)
        for piece in pieces:
            parts = tuple(p for p in treatment.parts if sides.pattern.part(p).piece == piece)
            plain = treatment.id if len(pieces) == 1 else f"{treatment.id}.{piece}"
            for side in Side:
                here = tuple(p for p in parts if side in sides.of_parts((p,)))
                if here:
                    yield SidedTreatment(
                        id=side.tag(plain),
                        treatment=treatment,
                        piece=piece,
                        side=side,
                        parts=tuple(sides.tag(p, side) for p in here),
                    )


def _covers(sides: _Sides, shelf: Shelf) -> Iterator[Cover]:
    found = {(part, joint): pct for part, joint, pct in covered_heads(sides.pattern, shelf)}
    declared = {(part.id, joint) for part in sides.pattern.parts for joint in part.hides}
    for part, joint in sorted(found.keys() | declared):
        spread = sides.of_parts((part, *sides.pattern.stack_parts(joint)))
        for side in sides.with_joints(spread, (joint,)):
            for hidden in sides.joint_ids((joint,), side):
                yield Cover(
                    cover=sides.tag(part, side),
                    joint=hidden,
                    covered_pct=found.get((part, joint), 100.0),
                    declared=(part, joint) not in found,
                )


def assemble(pattern: Pattern, shelf: Shelf, *, build: str) -> Assembly:
    """Return the assembly of one build: sided parts, joints, seams, threads, forms, dips, covers.

    What touches parts of a pair is made on the sides that all of them, and its own ``made_on``,
    have in common; a part made once keeps its plain id there. Covers are computed from the outlines (``geometry.covers.covering``) and joined with those the
    pattern declares. What mixes single parts with pairs is refused by the reader
    (``pattern.sides``), so that whatever is named together is made on the same sides.
    """
    sides = _Sides(pattern)
    parts = tuple(
        SidedPart(id=side.tag(part.id), part=part, side=side)
        for part in pattern.parts
        for side in sides.of_parts((part.id,))
    )
    return Assembly(
        build=build,
        pattern=pattern,
        parts=parts,
        joints=tuple(_joints(sides)),
        seams=tuple(_seams(sides)),
        threads=tuple(_threads(sides)),
        forms=tuple(_forms(sides)),
        treatments=tuple(_treatments(sides)),
        hardware=tuple(_hardware(sides)),
        covers=tuple(_covers(sides, shelf)),
    )
