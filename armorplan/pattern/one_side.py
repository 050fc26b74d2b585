"""A pattern with some of its parts: those of one side of the wearer, or those one asks for."""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from armorplan.pattern.joining import Form, Joint, Seam, Thread
from armorplan.pattern.parts import MadeOn
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.sides import ONCE, part_sides, thread_hosts


@lru_cache(maxsize=16)
def on_side(pattern: Pattern, side: MadeOn) -> Pattern:
    """Return a pattern with what is made on a side, or once for both; itself where that is all.

    What holds parts together, and what shapes them, is left of what is there; all else stays.
    """
    sides = part_sides(pattern)
    kept = {part for part, on in sides.items() if on == ONCE or side in on}
    joints = tuple(each for each in pattern.joints if _is_made(pattern, each, kept, side))
    if len(kept) == len(pattern.parts) and len(joints) == len(pattern.joints):
        return pattern
    return _left_of(pattern, frozenset(kept), joints)


def with_only(pattern: Pattern, kept: frozenset[str]) -> Pattern:
    """Return a pattern with some of its parts, and of all else what these alone are in."""
    joints = tuple(j for j in pattern.joints if kept.issuperset(pattern.stack_parts(j.id)))
    left = _left_of(pattern, kept, joints)
    return replace(
        left, movements=tuple(each for each in left.movements if kept.issuperset(each.parts))
    )


def _left_of(pattern: Pattern, kept: frozenset[str], joints: tuple[Joint, ...]) -> Pattern:
    made = frozenset(joint.id for joint in joints)
    return replace(
        pattern,
        parts=tuple(part for part in pattern.parts if part.id in kept),
        joints=joints,
        seams=tuple(_seams(pattern, made)),
        threads=tuple(_threads(pattern, kept, made)),
        forms=tuple(_forms(pattern, kept)),
    )


def _is_made(pattern: Pattern, joint: Joint, kept: set[str], side: MadeOn) -> bool:
    return kept.issuperset(pattern.stack_parts(joint.id)) and joint.made_on in {MadeOn.BOTH, side}


def _seams(pattern: Pattern, made: frozenset[str]) -> Iterator[Seam]:
    for seam in pattern.seams:
        if joints := tuple(joint for joint in seam.joints if joint in made):
            yield replace(seam, joints=joints)


def _threads(pattern: Pattern, kept: frozenset[str], made: frozenset[str]) -> Iterator[Thread]:
    for thread in pattern.threads:
        if kept.issuperset((thread.part, *thread_hosts(pattern, thread))):
            closed_by = tuple(joint for joint in thread.closed_by if joint in made)
            yield replace(thread, closed_by=closed_by)


def _forms(pattern: Pattern, kept: frozenset[str]) -> Iterator[Form]:
    for form in pattern.forms:
        if parts := tuple(part for part in form.parts if part in kept):
            yield replace(form, parts=parts)
