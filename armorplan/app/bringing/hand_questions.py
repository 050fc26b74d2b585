"""Which of the twins belong to one side: rows that fit best tell it, else it is asked."""

from collections.abc import Mapping, Sequence

from armorplan.app.bringing.asking import Asking, choices
from armorplan.app.bringing.model import Question, QuestionKind
from armorplan.app.bringing.part_shapes import middle
from armorplan.geometry.matching.model import Meeting, RowMatch
from armorplan.geometry.matching.suggesting import suggested
from armorplan.kernel.stopping import ShouldStop
from armorplan.pattern.parts import Part

Pair = tuple[str, str]
MOST_SINGLY = 5
"""Of more pairs it is asked at once, by where they lie on the page."""
_FIRST, _LEFT, _UPPER = "first", "left", "upper"
_LAPPED = 0.5
"""Of parts that are laid on each other by a row, more than that share does not lie under the other."""


def asked_hands(
    asking: Asking,
    pairs: Sequence[Pair],
    parts: Mapping[str, Part],
    *,
    names: Mapping[str, str],
    should_stop: ShouldStop,
) -> dict[str, str]:
    """Ask which of each pair is of the side of the others; return twins by what stands for them."""
    ordered = sorted(pairs, key=lambda pair: (-len(parts[pair[0]].holes), pairs.index(pair)))
    if len(ordered) > MOST_SINGLY:
        return _ask_by_page(asking, ordered, parts)
    twin_of = {ordered[0][1]: ordered[0][0]} if ordered else {}
    for pair in ordered[1:]:
        settled = [parts[key] for key in twin_of.values()]
        guess = _likelier(pair, settled, parts, should_stop)
        other = next(key for key in pair if key != guess)
        of = names[settled[0].id]
        taken = asking.put(
            Question(
                id=f"hand:{pair[0]}+{pair[1]}",
                kind=QuestionKind.TWINS,
                text=f"Which is of the same side as {of}: {names[guess]} or {names[other]}?",
                choices=choices(*((key, names[key].capitalize()) for key in (guess, other))),
                suggested=guess,
                shapes=(settled[0].id, *pair),
            )
        )
        twin_of[next(key for key in pair if key != taken)] = taken
    return twin_of


def _ask_by_page(
    asking: Asking, pairs: Sequence[Pair], parts: Mapping[str, Part]
) -> dict[str, str]:
    taken = asking.put(
        Question(
            id="hands",
            kind=QuestionKind.TWINS,
            text=f"Which of each of the {len(pairs)} pairs are of one side?",
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


def _likelier(
    pair: Pair, settled: Sequence[Part], parts: Mapping[str, Part], should_stop: ShouldStop
) -> str:
    """Return the one of a pair that rows fit best, unturned and beside the other; else the first."""
    found = suggested((*settled, *(parts[key] for key in pair)), should_stop=should_stop)
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
