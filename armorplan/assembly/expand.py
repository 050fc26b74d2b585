"""From a pattern to what is made: every part and joint once for each side it is worn on."""

from collections.abc import Iterator

from armorplan.assembly.model import (
    Assembly,
    Cover,
    Side,
    SidedForm,
    SidedJoint,
    SidedPart,
    SidedSeam,
    SidedThread,
    SidedTreatment,
)
from armorplan.geometry.covering import covered_heads
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.sides import paired_parts, thread_hosts
from armorplan.workshop.shelf import Shelf


class _Sides:
    """Answers on which sides the things of one pattern are made."""

    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        both, single, paired = (Side.LEFT, Side.RIGHT), (Side.SINGLE,), paired_parts(pattern)
        self._sides = {p.id: both if p.id in paired else single for p in pattern.parts}

    def of_parts(self, parts: tuple[str, ...]) -> tuple[Side, ...]:
        """Return the sides on which something that touches these parts is made."""
        return max((self._sides[part] for part in parts), key=len, default=(Side.SINGLE,))

    def tag(self, part: str, side: Side) -> str:
        """Return a part's id on a side; a part that is not one of a pair keeps its plain id."""
        return side.tag(part) if side in self._sides[part] else part

    def piece(self, parts: tuple[str, ...]) -> str:
        """Return the piece of the first part: where a joint between pieces is worked."""
        return self.pattern.part(parts[0]).piece


def _joints(sides: _Sides) -> Iterator[SidedJoint]:
    for joint in sides.pattern.joints:
        parts = sides.pattern.stack_parts(joint.id)
        for side in sides.of_parts(parts):
            stack = tuple(
                (sides.tag(part, side), hole)
                for part, hole in zip(parts, joint.stack, strict=True)
            )
            yield SidedJoint(
                id=side.tag(joint.id),
                joint=joint,
                piece=sides.piece(parts),
                side=side,
                stack=stack,
            )


def _seams(sides: _Sides) -> Iterator[SidedSeam]:
    for seam in sides.pattern.seams:
        parts = tuple(p for j in seam.joints for p in sides.pattern.stack_parts(j))
        for side in sides.of_parts(parts):
            yield SidedSeam(
                id=side.tag(seam.id),
                seam=seam,
                piece=sides.piece(parts),
                side=side,
                joints=tuple(side.tag(j) for j in seam.joints),
            )


def _threads(sides: _Sides) -> Iterator[SidedThread]:
    pattern = sides.pattern
    for thread in pattern.threads:
        hosts = thread_hosts(pattern, thread)
        for side in sides.of_parts((thread.part,)):
            yield SidedThread(
                id=side.tag(thread.id),
                thread=thread,
                piece=sides.piece((thread.part,)),
                side=side,
                part=sides.tag(thread.part, side),
                through=tuple(
                    name if pattern.has_slot(name) else sides.tag(name, side)
                    for name in thread.through
                ),
                hosts=tuple(sides.tag(part, side) for part in hosts),
                closed_by=tuple(side.tag(j) for j in thread.closed_by),
            )


def _forms(sides: _Sides) -> Iterator[SidedForm]:
    for form in sides.pattern.forms:
        for side in sides.of_parts(form.parts):
            yield SidedForm(
                id=side.tag(form.id),
                form=form,
                piece=sides.piece(form.parts),
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
            for side in sides.of_parts(parts):
                plain = treatment.id if len(pieces) == 1 else f"{treatment.id}.{piece}"
                yield SidedTreatment(
                    id=side.tag(plain),
                    treatment=treatment,
                    piece=piece,
                    side=side,
                    parts=tuple(sides.tag(p, side) for p in parts),
                )


def _covers(sides: _Sides, shelf: Shelf) -> Iterator[Cover]:
    found = {(part, joint): pct for part, joint, pct in covered_heads(sides.pattern, shelf)}
    declared = {(part.id, joint) for part in sides.pattern.parts for joint in part.hides}
    for part, joint in sorted(found.keys() | declared):
        for side in sides.of_parts((part, *sides.pattern.stack_parts(joint))):
            yield Cover(
                cover=sides.tag(part, side),
                joint=side.tag(joint),
                covered_pct=found.get((part, joint), 100.0),
                declared=(part, joint) not in found,
            )


def assemble(pattern: Pattern, shelf: Shelf, *, build: str) -> Assembly:
    """Return the assembly of one build: sided parts, joints, seams, threads, forms, dips, covers.

    Covers are computed from the outlines (``geometry.covering``) and joined with those the
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
        covers=tuple(_covers(sides, shelf)),
    )
