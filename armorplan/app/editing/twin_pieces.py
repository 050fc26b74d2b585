"""Which piece is drawn as the mirror of another one, so that the two may be folded into one."""

from armorplan.app.editing.hands import hands_of
from armorplan.pattern.parts import Piece
from armorplan.pattern.pattern import Pattern

_NOTHING = (0.0, 0.0)


def twin_of(pattern: Pattern, piece: str) -> Piece | None:
    """Return the piece most of whose parts mirror those of a piece; ``None`` where none do.

    Of those that are as like, the one that is written first after it. Takes longer the more pieces
    are made once: not for the window's thread.
    """
    ids = [each.id for each in pattern.pieces]
    at = ids.index(piece)
    beside = [p for p in (*pattern.pieces[at + 1 :], *pattern.pieces[:at]) if not p.mirrored]
    found = [(_likeness(pattern, piece, other.id), other) for other in beside]
    best = max(found, key=lambda each: each[0], default=None)
    return best[1] if best is not None and best[0] != _NOTHING else None


def _likeness(pattern: Pattern, one: str, other: str) -> tuple[float, float]:
    """Return how like two pieces are: the share of their parts with a mirror, and less mm are more."""
    mine, theirs = ([part for part in pattern.parts if part.piece == p] for p in (one, other))
    mirrored = [hands for hands in hands_of(mine, theirs) if not hands.copied]
    if not mirrored:
        return _NOTHING
    off_mm = sum(hands.score[0] for hands in mirrored)
    return len(mirrored) / max(len(mine), len(theirs)), -off_mm
