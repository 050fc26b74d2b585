"""Which pieces have to go together when left and right are parted or folded."""

from collections.abc import Iterator, Mapping

from armorplan.app.editing.hands import hands_of
from armorplan.app.editing.pending import NotTakenError, Pending
from armorplan.pattern.parts import Part
from armorplan.pattern.pattern import Pattern


def together(pending: Pending, piece: str) -> frozenset[str]:
    """Return the mirrored pieces that have to be taken together."""
    pattern = pending.pattern
    mirrored = {each.id for each in pattern.pieces if each.mirrored}
    if piece not in mirrored:
        text = f'"{piece}" is no piece that is made left and right from one drawing.'
        raise NotTakenError(text, "Choose a mirrored piece.")
    found, tied = {piece}, [mirrored & tie for tie in ties(pattern)]
    while more := {each for tie in tied if tie & found for each in tie} - found:
        found |= more
    return frozenset(found)


def ties(pattern: Pattern) -> Iterator[set[str]]:
    """Yield pieces that one entry names together."""
    piece_of = {part.id: part.piece for part in pattern.parts}
    for joint in pattern.joints:
        yield {piece_of[part] for part in pattern.stack_parts(joint.id)}
    for harness in pattern.harnesses:
        yield set(harness.pieces)
    for parts in (*(m.parts for m in pattern.movements), *(f.parts for f in pattern.forms)):
        yield {piece_of[part] for part in parts}
    for place in pattern.strap_places:
        yield {piece_of[place.strap], piece_of[place.meets]}
    for thread in pattern.threads:
        hosts = (pattern.slot(n).part if pattern.has_slot(n) else n for n in thread.through)
        yield {piece_of[part] for part in (thread.part, *hosts)}


def with_joined(pending: Pending, pieces: Mapping[str, str]) -> dict[str, str]:
    """Return the pairs of pieces with those of what is joined to both of a pair, in turn."""
    found, waiting = dict(pieces), list(pieces.items())
    called = {piece.id: piece.name for piece in pending.pattern.pieces if not piece.mirrored}
    of_piece: dict[str, list[Part]] = {}
    for part in pending.pattern.parts:
        of_piece.setdefault(part.piece, []).append(part)
    tied: dict[str, set[str]] = {piece: set() for piece in called}
    for tie in ties(pending.pattern):
        for piece in tie & called.keys():
            tied[piece] |= tie & called.keys() - {piece}
    while waiting:
        left, right = waiting.pop()
        free = called.keys() - {*found, *found.values()}
        both = tied[left] & tied[right]
        for near in sorted((tied[left] - both) & free):
            likes = {
                far: hands_of(of_piece.get(near, []), of_piece.get(far, []))
                for far in sorted((tied[right] - both) & free)
            }
            best = max(likes, key=lambda far: len(likes[far]), default="")
            if best and likes[best]:
                found[near] = best
                free -= {near, best}
                waiting.append((near, best))
                pending.tell(f"{called[best]} is folded into {called[near]} as well.")
    return found
