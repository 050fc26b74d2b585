"""What is made for both sides of the wearer, and what mixes both with single parts."""

from collections.abc import Iterator
from dataclasses import dataclass

from armorplan.pattern.joining import Thread
from armorplan.pattern.pattern import Pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixed:
    """A table entry that names parts made once together with parts made left and right."""

    table: str
    id: str
    once: str
    paired: str


def paired_parts(pattern: Pattern) -> frozenset[str]:
    """Return ids of the parts that are made left and right."""
    pairs = {piece.id for piece in pattern.pieces if piece.mirrored}
    return frozenset(part.id for part in pattern.parts if part.piece in pairs)


def mixed_entries(pattern: Pattern) -> tuple[Mixed, ...]:
    """Return what joins single parts with pairs: one hole cannot serve a left and a right rivet."""
    paired = paired_parts(pattern)
    found = []
    for table, entry, parts in _named_together(pattern):
        once = next((part for part in parts if part not in paired), None)
        both = next((part for part in parts if part in paired), None)
        if once is not None and both is not None:
            found.append(Mixed(table=table, id=entry, once=once, paired=both))
    return tuple(found)


def _named_together(pattern: Pattern) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Yield table, id and the parts that one joint, seam, thread or form brings together."""
    stacks = {joint.id: pattern.stack_parts(joint.id) for joint in pattern.joints}
    in_seam = {s.id: tuple(p for j in s.joints for p in stacks[j]) for s in pattern.seams}
    for joint, parts in stacks.items():
        yield "joints", joint, parts
    for seam, parts in in_seam.items():
        yield "seams", seam, parts
    for thread in pattern.threads:
        closing = (part for joint in thread.closed_by for part in stacks[joint])
        yield "threads", thread.id, (thread.part, *thread_hosts(pattern, thread), *closing)
    for form in pattern.forms:
        yield "forms", form.id, (*form.parts, *(p for s in form.seams for p in in_seam[s]))


def thread_hosts(pattern: Pattern, thread: Thread) -> tuple[str, ...]:
    """Return ids of the parts a thread passes: those with its slots, and keepers by name."""
    hosts = (pattern.slot(n).part if pattern.has_slot(n) else n for n in thread.through)
    return tuple(dict.fromkeys(hosts))
