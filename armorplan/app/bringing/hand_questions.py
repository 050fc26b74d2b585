"""Which of the twins belong to one side: rows that fit best tell it, else it is asked."""

import re
from collections.abc import Mapping, Sequence

from armorplan.app.bringing.asking import Asking, capital, choices
from armorplan.app.bringing.kept import Stop, matches_of
from armorplan.app.bringing.model import Question, QuestionKind
from armorplan.app.bringing.part_shapes import middle
from armorplan.geometry.matching.model import Meeting, RowMatch
from armorplan.pattern.parts import Part

Pair = tuple[str, str]
MOST_SINGLY = 5
"""Of more pairs it is asked at once, by where they lie on the page."""
_FIRST, _LEFT, _UPPER = "first", "left", "upper"
_LEFT_WORD = re.compile(r"\bleft\b|[\s_-]l$", re.IGNORECASE)
_RIGHT_WORD = re.compile(r"\bright\b|[\s_-]r$", re.IGNORECASE)
_LAPPED = 0.5
"""Of parts that are laid on each other by a row, more than that share does not lie under the other."""


def asked_hands(
    asking: Asking,
    pairs: Sequence[Pair],
    parts: Mapping[str, Part],
    *,
    names: Mapping[str, str],
    stop: Stop,
) -> dict[str, str]:
    """Ask which of each pair is of the side of the others; return twins by what stands for them."""
    ordered = sorted(pairs, key=lambda pair: (-len(parts[pair[0]].holes), pairs.index(pair)))
    if len(ordered) > MOST_SINGLY:
        return _ask_by_page(asking, ordered, parts)
    twin_of: dict[str, str] = {}
    for pair in ordered:
        settled = [parts[key] for key in twin_of.values()]
        taken = asking.put(_hand_question(pair, settled, parts, names=names, stop=stop))
        twin_of[next(key for key in pair if key != taken)] = taken
    return twin_of


def _hand_question(
    pair: Pair,
    settled: Sequence[Part],
    parts: Mapping[str, Part],
    *,
    names: Mapping[str, str],
    stop: Stop,
) -> Question:
    guess = _named_left(pair, names) or (
        _likelier(pair, settled, parts, stop) if settled else pair[0]
    )
    other = next(key for key in pair if key != guess)
    beside = f", as {names[settled[0].id]} is" if settled else ""
    return Question(
        id=f"hand:{pair[0]}+{pair[1]}",
        kind=QuestionKind.TWINS,
        text=f"Which one is the left{beside}: {names[guess]} or {names[other]}?",
        choices=choices(
            *((key, capital(f"{names[key]} is the left one")) for key in (guess, other))
        ),
        suggested=guess,
        sure=_named_left(pair, names) is not None,
        shapes=(*(part.id for part in settled[:1]), *pair),
    )


def _named_left(pair: Pair, names: Mapping[str, str]) -> str | None:
    """Return the one whose name says that it is the left, or whose twin's says that it is the right."""
    for key, other in (pair, pair[::-1]):
        if _LEFT_WORD.search(names[key]) or _RIGHT_WORD.search(names[other]):
            return key
    return None


def _ask_by_page(
    asking: Asking, pairs: Sequence[Pair], parts: Mapping[str, Part]
) -> dict[str, str]:
    taken = asking.put(
        Question(
            id="hands",
            kind=QuestionKind.TWINS,
            text=f"Which of each of the {len(pairs)} pairs are the left ones?",
            choices=choices(
                (_FIRST, "Those that are drawn first in the file"),
                (_LEFT, "Those that lie further left on the page"),
                (_UPPER, "Those that lie higher on the page"),
            ),
            suggested=_FIRST,
            shapes=tuple(key for pair in pairs for key in pair),
            settles=len(pairs),
        )
    )
    if taken == _FIRST:
        return {other: one for one, other in pairs}
    axis = 0 if taken == _LEFT else 1
    kept = [min(pair, key=lambda key: middle(parts[key].outline)[axis]) for pair in pairs]
    return {
        next(key for key in pair if key != one): one for pair, one in zip(pairs, kept, strict=True)
    }


def _likelier(pair: Pair, settled: Sequence[Part], parts: Mapping[str, Part], stop: Stop) -> str:
    """Return the one of a pair that rows fit best, unturned and beside the other; else the first."""
    found = matches_of((*settled, *(parts[key] for key in pair)), stop)
    worth = dict.fromkeys(pair, 0.0)
    for match in found:
        both = {match.first, match.second}
        mine = [key for key in pair if key in both]
        if len(mine) == 1 and len(both) > 1:
            worth[mine[0]] = max(worth[mine[0]], _worth(match, parts))
    return max(pair, key=lambda key: (round(worth[key], 2), -pair.index(key)))


def _worth(match: RowMatch, parts: Mapping[str, Part]) -> float:
    """Return how much speaks for a match: its holes, unless it lays one part all over the other."""
    if match.mirrored:
        return 0.0
    lapped = lapped_share(match, parts) > _LAPPED
    drawn = 1 / 2 if match.meeting is Meeting.DRAWN else 1.0
    return len(match.pairs) * drawn * (1 / 4 if lapped else 1.0)


def lapped_share(match: RowMatch, parts: Mapping[str, Part]) -> float:
    """Return how much of the smaller part lies on the other, laid by the row, from 0 to 1."""
    from shapely import Polygon

    if match.fit is None:
        return 0.0
    one = Polygon(parts[match.first].outline).buffer(0)
    other = Polygon([match.fit.place(spot) for spot in parts[match.second].outline]).buffer(0)
    least = min(one.area, other.area)
    return float(one.intersection(other).area / least) if least > 0 else 0.0
