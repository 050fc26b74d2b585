"""Parts that nothing holds to the rest of their piece: forgotten joints, mostly."""

from collections import defaultdict
from collections.abc import Iterable, Iterator

from armorplan.geometry.told import listed
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.sides import thread_hosts

_Heap = tuple[str, ...]
_ALONE = 2
"""A heap of fewer parts than this is a part alone."""
_NAMED = 3
"""So many parts of one heap are named."""


def loose_part_findings(pattern: Pattern) -> Iterator[Finding]:
    """Yield a note for each piece of which some parts hang together and others hang on nothing.

    Joints, threads, places where a strap closes, what hangs a piece up and work of the maker's
    own hold parts. Left out are pieces that nothing is joined in yet, parts cut more than once
    (which no joint can hold), heaps that reach into other pieces, and those that close with a
    buckle of their own.
    """
    heaps = _heaps(pattern)
    free = {part.id for part in pattern.parts if part.count > 1}
    free |= {carried.part for carried in pattern.suspensions}
    buckled = {use.part for use in pattern.hardware}
    for piece in pattern.pieces:
        here = {part.id for part in pattern.parts if part.piece == piece.id}
        own = [heap for heap in heaps if not here.isdisjoint(heap)]
        most = max(own, key=lambda heap: len(here.intersection(heap)), default=())
        if len(most) < _ALONE:
            continue
        loose = [
            heap
            for heap in own
            if heap is not most
            and here.issuperset(heap)
            and free.isdisjoint(heap)
            and (len(heap) < _ALONE or buckled.isdisjoint(heap))
        ]
        if loose:
            yield _finding(pattern, piece.name, loose)


def _heaps(pattern: Pattern) -> tuple[_Heap, ...]:
    """Return the parts in heaps of what holds together, in the pattern's order."""
    next_to: dict[str, set[str]] = defaultdict(set)
    for one, *others in filter(None, _held(pattern)):
        next_to[one].update(others)
        for other in others:
            next_to[other].add(one)
    seen: set[str] = set()
    heaps: list[_Heap] = []
    for part in pattern.parts:
        if part.id not in seen:
            heap = _reached(part.id, next_to)
            seen |= heap
            heaps.append(tuple(each.id for each in pattern.parts if each.id in heap))
    return tuple(heaps)


def _reached(start: str, next_to: dict[str, set[str]]) -> set[str]:
    found, ahead = {start}, [start]
    while ahead:
        new = next_to[ahead.pop()] - found
        found |= new
        ahead += sorted(new)
    return found


def _held(pattern: Pattern) -> Iterator[Iterable[str]]:
    for joint in pattern.joints:
        yield pattern.stack_parts(joint.id)
    for thread in pattern.threads:
        yield thread.part, *thread_hosts(pattern, thread)
    for place in pattern.strap_places:
        yield place.strap, place.meets
    for own in pattern.own_steps:
        yield own.parts


def _finding(pattern: Pattern, piece: str, loose: list[_Heap]) -> Finding:
    named = [[pattern.part(part).name for part in heap] for heap in loose]
    heaps = listed([listed(heap, named=_NAMED, last=" with ") for heap in named])
    return Finding(
        code="parts-unconnected",
        severity=Severity.NOTE,
        text=f"In {piece} nothing holds {heaps} to the other parts.",
        remedy="Add the joint, the thread or the strap place that does, if one is forgotten.",
        about=tuple(part for heap in loose for part in heap),
    )
