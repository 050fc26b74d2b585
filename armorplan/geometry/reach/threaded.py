"""Where joints sit that close the loop of a threaded part: behind the plate that it goes through.

A keeper goes in by one slot and out by the other, and its ends meet inside: its rivet passes no hole
of the plate, yet a tool has to get there.
"""

from collections.abc import Iterator, Mapping
from functools import lru_cache

from armorplan.geometry.widths import STIFF
from armorplan.pattern.joining import Thread
from armorplan.pattern.parts import Point, Ring
from armorplan.pattern.pattern import Pattern

Spots = tuple[tuple[str, Point], ...]
"""Plates, and where on the drawing of each."""
_BOTH_ENDS = 2


@lru_cache(maxsize=16)
def threaded_spots(pattern: Pattern) -> Mapping[str, Spots]:
    """Return by joint where it sits behind plates, midway between the slots in each of them.

    Joints that pass a plate themselves are left out: they sit where their holes are.
    """
    found: dict[str, Spots] = {}
    for thread in pattern.threads:
        spots = tuple(_midway(pattern, thread))
        for joint in _closing(pattern, thread) if spots else ():
            if not any(pattern.part(p).kind in STIFF for p in pattern.stack_parts(joint)):
                found.setdefault(joint, spots)
    return found


def _midway(pattern: Pattern, thread: Thread) -> Iterator[tuple[str, Point]]:
    slots = [pattern.slot(name) for name in thread.through if pattern.has_slot(name)]
    for plate in dict.fromkeys(slot.part for slot in slots):
        if pattern.part(plate).kind in STIFF:
            middles = [_middle(slot.outline) for slot in slots if slot.part == plate]
            xs, ys = zip(*middles, strict=True)
            yield plate, (sum(xs) / len(xs), sum(ys) / len(ys))


def _middle(outline: Ring) -> Point:
    xs, ys = zip(*outline, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def _closing(pattern: Pattern, thread: Thread) -> Iterator[str]:
    """Yield the joints that shut a loop: those named, and such as pass its part at both ends."""
    yield from thread.closed_by
    for joint in pattern.joints:
        if pattern.stack_parts(joint.id).count(thread.part) >= _BOTH_ENDS:
            yield joint.id
