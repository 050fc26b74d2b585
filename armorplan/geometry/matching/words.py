"""What speaks for and against a match, in whole sentences with the numbers."""

from collections.abc import Iterator
from itertools import pairwise
from math import dist, pi

from armorplan.geometry.matching.laying import Laid
from armorplan.geometry.matching.model import Meeting
from armorplan.pattern.parts import Part

_LONGER_PCT = 4.0
"""An outer row up to so much longer is usual; more asks for a tight bend (common practice)."""
_TOLD_MM = 0.05
_ABOUT_MM = 1.5
_PAIRED = 2


def why(first: Part, second: Part, laid: Laid, *, rivals: int, word: str = "") -> str:
    """Return for and against two rows that fit, as sentences.

    Args:
        first: the first part.
        second: the other.
        laid: how they lie.
        rivals: how many other rows the same holes fit.
        word: what only few names hold, and both theirs.
    """
    return " ".join((*_said(first, second, laid), *_beside(laid, rivals, word)))


def _said(first: Part, second: Part, laid: Laid) -> Iterator[str]:
    yield _fits(laid)
    if laid.longer != 1.0:
        yield from _longer(first, second, laid)
    if laid.mirrored:
        yield f"They only fit with '{second.name}' turned over."
    elif laid.no_hand and len(laid.pairs) > _PAIRED:
        yield "The holes lie so nearly in a line that they cannot tell which face is up."
    if laid.both_ways:
        yield (
            f"They fit as well the other way round, with '{second.name}' turned half about: the "
            "holes cannot tell which."
        )


def _beside(laid: Laid, rivals: int, word: str) -> Iterator[str]:
    """Say what further speaks for two rows, and what against them."""
    if all(laid.whole) and len(laid.pairs) > _PAIRED:
        yield "Each is a whole row."
    if all(laid.on_edge):
        yield "Both follow an edge."
    if word:
        yield f"Both names hold '{word}'."
    if rivals:
        yield f"The same holes fit {rivals} other row{'' if rivals == 1 else 's'} as well."


def _fits(laid: Laid) -> str:
    count = len(laid.pairs)
    if laid.meeting is Meeting.HOLE:
        return "One hole lies on the other once the strap is folded back on itself."
    if laid.meeting is Meeting.FLAT:
        off = f"none misses by more than {laid.off_mm:.1f} mm"
        off = "no hole misses" if laid.off_mm < _TOLD_MM else off
        return f"{count} holes lie on {count} holes: {off}."
    if count == _PAIRED:
        return "Two holes meet two holes once the leather is bent."
    off = "alike" if laid.off_mm < _TOLD_MM else f"alike to {laid.off_mm:.1f} mm"
    if laid.gores:
        return (
            f"{count} holes are spaced {off} along two edges that bow away from each other: the "
            "row draws the leather into shape."
        )
    if laid.longer != 1.0:
        return f"{count} holes are spaced {off}, once an even share is taken off."
    return (
        f"{count} holes are spaced {off} along both rows, which curve differently: the row draws "
        "the leather into shape."
    )


def _longer(first: Part, second: Part, laid: Laid) -> Iterator[str]:
    """Say which row is longer all along and by how much: it is the outer one of a bend."""
    outer, index, times = (
        (first, 0, laid.longer) if laid.longer > 1 else (second, 1, 1 / laid.longer)
    )
    spots = {hole.id: hole.centre for hole in outer.holes}
    whole_mm = sum(dist(a, b) for a, b in pairwise(spots[pair[index]] for pair in laid.pairs))
    by_mm, pct = whole_mm - whole_mm / times, (times - 1) * 100
    if laid.nested:
        asked_mm = pi * (first.thickness_mm + second.thickness_mm) / 2
        near = (
            "about what"
            if abs(by_mm - asked_mm) <= _ABOUT_MM
            else f"where {asked_mm:.1f} mm is what"
        )
        yield (
            f"Those of '{outer.name}' lie {by_mm:.1f} mm farther apart, {near} lames that nest "
            "half round ask for: π times the leather between."
        )
        return
    yield (
        f"The row on '{outer.name}' is {pct:.1f} % longer all along ({by_mm:.1f} mm), as the outer "
        "one of a bend is."
    )
    if pct > _LONGER_PCT:
        yield "So much asks for a tight bend or thick leather."
