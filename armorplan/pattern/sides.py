"""What is made for both sides of the wearer, and what mixes both with single parts."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from armorplan.pattern.joining import Thread
from armorplan.pattern.parts import MadeOn
from armorplan.pattern.pattern import Pattern

Sides = frozenset[MadeOn]
"""Left, right or both of them; empty for what is made once, on no side."""
BOTH_SIDES: Sides = frozenset({MadeOn.LEFT, MadeOn.RIGHT})
ONCE: Sides = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixed:
    """A table entry that names parts made once together with parts made left and right."""

    table: str
    id: str
    once: str
    paired: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """A table entry that brings together what is made on the left with what is on the right.

    One of the two may be the entry itself, by its own ``made_on``.
    """

    table: str
    id: str
    on_left: str
    on_right: str


def paired_parts(pattern: Pattern) -> frozenset[str]:
    """Return ids of the parts that are made left and right, or on one of the two."""
    pairs = {piece.id for piece in pattern.pieces if piece.mirrored}
    return frozenset(part.id for part in pattern.parts if part.piece in pairs)


def named_sides(made_on: MadeOn) -> Sides:
    """Return the sides a word of the pattern names."""
    return BOTH_SIDES if made_on is MadeOn.BOTH else frozenset({made_on})


def part_sides(pattern: Pattern) -> dict[str, Sides]:
    """Return the sides each part is made on, by its id."""
    paired = paired_parts(pattern)
    return {
        part.id: named_sides(part.made_on) if part.id in paired else ONCE for part in pattern.parts
    }


def mixed_entries(pattern: Pattern) -> tuple[Mixed | Apart, ...]:
    """Return what joins single parts with pairs, or parts that are made on no common side.

    One hole cannot serve a left and a right rivet; an entry that says on which side it is made
    names one rivet, so that it may join a single part with that side's.
    """
    found: list[Mixed | Apart] = []
    sides: dict[tuple[str, str], Sides] = {("parts", p): s for p, s in part_sides(pattern).items()}
    for entry in _named_together(pattern):
        # What was told of a member is not told again of what brings it together with others.
        members = {name: sides[at, name] for at, name in entry.members if (at, name) in sides}
        fault = _fault(entry, members)
        if fault is None:
            sides[entry.table, entry.id] = _common(members.values(), entry.made_on)
        else:
            found.append(fault)
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Entry:
    """What one entry brings together: members by table and id, entries before it or parts."""

    table: str
    id: str
    members: tuple[tuple[str, str], ...]
    made_on: MadeOn = MadeOn.BOTH


def _common(members: Iterable[Sides], made_on: MadeOn) -> Sides:
    paired = [sides for sides in members if sides]
    return named_sides(made_on).intersection(*paired) if paired else ONCE


def _fault(entry: _Entry, members: Mapping[str, Sides]) -> Mixed | Apart | None:
    once = [name for name, sides in members.items() if not sides]
    paired = [name for name, sides in members.items() if sides]
    if once and paired and entry.made_on is MadeOn.BOTH:
        return Mixed(table=entry.table, id=entry.id, once=once[0], paired=paired[0])
    if not paired or _common(members.values(), entry.made_on):
        return None
    named = {name: members[name] for name in paired if len(members[name]) == 1}
    if entry.made_on is not MadeOn.BOTH:
        named[entry.id] = named_sides(entry.made_on)
    by_side = {side: name for name, sides in named.items() for side in sides}
    return Apart(
        table=entry.table,
        id=entry.id,
        on_left=by_side[MadeOn.LEFT],
        on_right=by_side[MadeOn.RIGHT],
    )


def _named_together(pattern: Pattern) -> Iterator[_Entry]:
    """Yield what joints, seams, threads, forms and hardware bring together, joints first."""
    for joint in pattern.joints:
        members = _of("parts", pattern.stack_parts(joint.id))
        yield _Entry(table="joints", id=joint.id, members=members, made_on=joint.made_on)
    for seam in pattern.seams:
        yield _Entry(table="seams", id=seam.id, members=_of("joints", seam.joints))
    for thread in pattern.threads:
        parts = _of("parts", (thread.part, *thread_hosts(pattern, thread)))
        members = (*parts, *_of("joints", thread.closed_by))
        yield _Entry(table="threads", id=thread.id, members=members, made_on=thread.made_on)
    for form in pattern.forms:
        members = (*_of("parts", form.parts), *_of("seams", form.seams))
        yield _Entry(table="forms", id=form.id, members=members)
    for use in pattern.hardware:
        members = (*_of("parts", (use.part,)), *_of("joints", use.held_by))
        yield _Entry(table="hardware", id=use.id, members=members)


def _of(table: str, names: Iterable[str]) -> tuple[tuple[str, str], ...]:
    return tuple((table, name) for name in names)


def thread_hosts(pattern: Pattern, thread: Thread) -> tuple[str, ...]:
    """Return ids of the parts a thread passes: those with its slots, and keepers by name."""
    hosts = (pattern.slot(n).part if pattern.has_slot(n) else n for n in thread.through)
    return tuple(dict.fromkeys(hosts))
