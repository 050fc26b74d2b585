"""What rows of holes are called: which parts they lie on, and where, if that tells them apart."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence

from armorplan.app.bringing.asking import counted
from armorplan.geometry.matching.model import Meeting, RowMatch
from armorplan.pattern.parts import Part

_EXACT_MM = 0.05
_MIDDLE = 1 / 6
"""Holes lie in the middle as long as they are no further off it than this share of the part."""


def is_exact(match: RowMatch) -> bool:
    """Tell whether two holes or more lie on as many, and none misses."""
    flat = match.meeting is Meeting.FLAT and match.residual_mm < _EXACT_MM
    return flat and len(match.pairs) > 1


def match_words(match: RowMatch, names: Mapping[str, str]) -> str:
    """Say what fits what, with the number of holes and the miss in mm."""
    if match.first == match.second:
        return f"{names[match.first]} on itself ({counted(len(match.pairs), 'hole')})"
    return f"{names[match.first]} on {names[match.second]} ({_fit_words(match)})"


def told_apart(
    matches: Sequence[RowMatch], names: Mapping[str, str], parts: Mapping[str, Part]
) -> tuple[str, ...]:
    """Say what fits what, each otherwise: of the same two parts with the places of their holes."""
    rows = {(m.first, m.second, frozenset(m.pairs[0] + m.pairs[-1])) for m in matches}
    often = Counter((first, second) for first, second, _ in rows)
    placed = [
        match_words(match, names)
        if often[match.first, match.second] == 1
        else _placed_words(match, names, parts)
        for match in matches
    ]
    return tuple(
        words if placed.count(words) == 1 else f"{words}, {_measured(match, parts)}"
        for words, match in zip(placed, matches, strict=True)
    )


def _fit_words(match: RowMatch) -> str:
    holes = counted(len(match.pairs), "hole")
    miss = f", {match.residual_mm:.1f} mm off at most" if match.residual_mm >= _EXACT_MM else ""
    drawn = ", drawn into shape" if match.meeting is Meeting.DRAWN else ""
    turned = ", the other way round" if match.turned else ""
    return f"{holes}{miss}{drawn}{turned}"


def _placed_words(match: RowMatch, names: Mapping[str, str], parts: Mapping[str, Part]) -> str:
    one, other = parts[match.first], parts[match.second]
    first = where_words(one, [pair[0] for pair in match.pairs])
    second = where_words(other, [pair[1] for pair in match.pairs])
    if match.first == match.second:
        return f"{names[one.id]}, {first}, on itself, {second} ({_fit_words(match)})"
    return f"{names[one.id]}, {first}, on {names[other.id]}, {second} ({_fit_words(match)})"


def where_words(part: Part, holes: Collection[str]) -> str:
    """Say where some holes of a part lie, as it is drawn: 'at the top left'."""
    xs, ys = [x for x, _ in part.outline], [y for _, y in part.outline]
    x, y = _middle(part, holes)
    across = _third(x, min(xs), max(xs), ("left", "", "right"))
    down = _third(y, min(ys), max(ys), ("top", "", "bottom"))
    place = " ".join(word for word in (down, across) if word)
    if not place:
        return "in the middle"
    return f"at the {place}" if down else f"on the {place}"


def _third(value: float, least: float, most: float, words: tuple[str, str, str]) -> str:
    share = (value - least) / (most - least) - 1 / 2 if most > least else 0.0
    return words[1] if abs(share) <= _MIDDLE else words[0 if share < 0 else 2]


def _middle(part: Part, holes: Collection[str]) -> tuple[float, float]:
    spots = [hole.centre for hole in part.holes if hole.id in holes]
    return sum(x for x, _ in spots) / len(spots), sum(y for _, y in spots) / len(spots)


def _measured(match: RowMatch, parts: Mapping[str, Part]) -> str:
    """Say where the holes begin and end on both, in mm from the part's left and upper edge."""
    told: list[str] = []
    for at, key in enumerate((match.first, match.second)):
        part = parts[key]
        left, top = (min(spot[axis] for spot in part.outline) for axis in (0, 1))
        spots = {hole.id: hole.centre for hole in part.holes}
        ends = [spots[match.pairs[end][at]] for end in (0, -1)]
        told.append(" to ".join(f"{x - left:.0f} / {y - top:.0f}" for x, y in ends))
    return f"holes at {told[0]} mm on {told[1]} mm from the left and upper edge"
