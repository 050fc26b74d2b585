"""Which rows of holes belong together: what fits but one other is taken at once, the rest asked."""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

from armorplan.app.bringing.asking import ALL, EACH, NONE, Asking, counted, listed
from armorplan.app.bringing.kept import Stop, matches_of
from armorplan.app.bringing.model import Choice, Question, QuestionKind
from armorplan.geometry.matching.consistent import consistent
from armorplan.geometry.matching.model import Meeting, RowMatch
from armorplan.pattern.parts import Part

SURE = 0.6
"""From here on a match without rivals is taken with the rest."""
DOUBTFUL = 0.1
"""Below here a match is shown, and not suggested."""
LEAST = 0.02
"""Below here it is not even asked: rows of two holes fit something nearly always."""
MOST_SINGLY = 40
"""So many rows are asked about one by one; of what is left there is one question."""
_RIVALS = 6
_BUNDLED = 2
_EXACT_MM = 0.05


@lru_cache(maxsize=64)
def _best_of(matches: tuple[RowMatch, ...]) -> tuple[RowMatch, ...]:
    return tuple(consistent(matches))


class _Held(NamedTuple):
    """A match with its key and its holes, which are asked for very often."""

    match: RowMatch
    key: str
    holes: frozenset[str]


@lru_cache(maxsize=4)
def _held(found: tuple[RowMatch, ...]) -> tuple[_Held, ...]:
    return tuple(
        _Held(match, match.key, frozenset(hole for pair in match.pairs for hole in pair))
        for match in found
        if match.likely >= LEAST
    )


def asked_rows(
    asking: Asking, parts: tuple[Part, ...], names: dict[str, str], stop: Stop
) -> tuple[RowMatch, ...]:
    """Ask which rows belong together; return those that do, as far as answered or suggested.

    Args:
        asking: what is asked.
        parts: parts named as they are drawn or numbered: what a person calls them later changes
            no match.
        names: what they are called now.
        stop: asks for an end.
    """
    found = _held(matches_of(parts, stop))
    if not found:
        return ()
    best_ones = _best_of(tuple(each.match for each in found))
    sure = [match for match in best_ones if _is_sure(match)]
    likely = [m for m in best_ones if m not in sure and m.likely >= DOUBTFUL and m.rivals == 0]
    taken = _ask_sure(asking, sure, names)
    taken += (likely_ones := _ask_likely(asking, likely, names))
    asked_of = {m.key for m in sure} | ({m.key for m in likely} if likely_ones else set())
    used = {hole for match in taken for pair in match.pairs for hole in pair}
    return tuple(taken + _asked_singly(asking, _free(found, used, dropped=asked_of), names))


def _asked_singly(
    asking: Asking, open_ones: Sequence[_Held], names: dict[str, str]
) -> list[RowMatch]:
    """Ask of one row after the other; the best set is sought anew only after another answer."""
    taken: list[RowMatch] = []
    waiting = _best_held(open_ones)
    for _ in range(MOST_SINGLY):
        if not waiting:
            return taken
        best = waiting.pop(0)
        asked, accepted = _ask_one(asking, best, open_ones, names)
        taken += [accepted.match] if accepted is not None else []
        open_ones = _free(open_ones, accepted.holes if accepted else (), dropped=asked)
        if accepted is best:
            waiting = list(_free(waiting, best.holes, dropped=asked))
        else:
            waiting = _best_held(open_ones)
    return taken + (_ask_rest(asking, [each.match for each in waiting], names) if waiting else [])


def _best_held(open_ones: Sequence[_Held]) -> list[_Held]:
    best = {match.key for match in _best_of(tuple(each.match for each in open_ones))}
    return [each for each in open_ones if each.key in best]


def _ask_rest(asking: Asking, rest: list[RowMatch], names: dict[str, str]) -> list[RowMatch]:
    """Ask of all that is left at once: so many rows are not looked through one by one."""
    taken = asking.put(
        Question(
            id="rows:rest",
            kind=QuestionKind.ROWS,
            text=f"{len(rest):,} more rows fit several others; the likeliest of each are "
            f"{listed([match_words(match, names) for match in rest], 4)}. Do they belong together?",
            choices=(
                Choice(key=NONE, words="Leave them free", why="Join them on the drawing table."),
                Choice(key=ALL, words="They belong together"),
            ),
            suggested=NONE,
            shapes=tuple(dict.fromkeys(part for m in rest for part in (m.first, m.second))),
            matches=tuple(rest),
            settles=len(rest),
        )
    )
    return rest if taken == ALL else []


def _is_sure(match: RowMatch) -> bool:
    return match.rivals == 0 and match.likely >= SURE


def _free(
    matches: Iterable[_Held], used: Iterable[str], *, dropped: set[str]
) -> tuple[_Held, ...]:
    """Return the matches that use none of these holes, and were not asked about."""
    held = frozenset(used)
    return tuple(m for m in matches if m.key not in dropped and held.isdisjoint(m.holes))


def match_words(match: RowMatch, names: dict[str, str]) -> str:
    """Say what fits what, with the number of holes and the miss in mm."""
    holes = counted(len(match.pairs), "hole")
    if match.first == match.second:
        return f"{names[match.first]} on itself ({holes})"
    miss = f", {match.residual_mm:.1f} mm off at most" if match.residual_mm >= _EXACT_MM else ""
    drawn = ", drawn into shape" if match.meeting is Meeting.DRAWN else ""
    return f"{names[match.first]} on {names[match.second]} ({holes}{miss}{drawn})"


def _ask_sure(asking: Asking, sure: list[RowMatch], names: dict[str, str]) -> list[RowMatch]:
    """Ask about all that fits but one other, in one question; single ones may be refused."""
    if not sure:
        return []
    question = Question(
        id="rows",
        kind=QuestionKind.ROWS,
        text=f"{counted(len(sure), 'row')} of holes {'fits' if len(sure) == 1 else 'fit'} one other "
        f"only: {listed([match_words(match, names) for match in sure], 8)}. Do they belong together?",
        choices=(
            Choice(key=ALL, words="They belong together", why="Each becomes a row of fasteners."),
            Choice(key=NONE, words="None of them"),
        ),
        suggested=ALL,
        sure=True,
        shapes=tuple(dict.fromkeys(part for m in sure for part in (m.first, m.second))),
        matches=tuple(sure),
        settles=len(sure),
    )
    if asking.put(question) == NONE:
        return []
    answers = asking.bringing.answers
    return [match for match in sure if answers.get(f"row:{match.key}") != NONE]


def _ask_likely(asking: Asking, likely: list[RowMatch], names: dict[str, str]) -> list[RowMatch]:
    """Ask about what fits, though little speaks for it, in one question; else one by one."""
    if len(likely) < _BUNDLED:
        return []
    taken = asking.put(
        Question(
            id="rows:likely",
            kind=QuestionKind.ROWS,
            text=f"{len(likely)} short rows fit one other, though a few holes prove little: "
            f"{listed([match_words(match, names) for match in likely], 8)}. Do they belong together?",
            choices=(
                Choice(key=ALL, words="They belong together", why=likely[0].why),
                Choice(key=EACH, words="Not all; ask of each"),
            ),
            suggested=ALL,
            shapes=tuple(dict.fromkeys(part for m in likely for part in (m.first, m.second))),
            matches=tuple(likely),
            settles=len(likely),
        )
    )
    answers = asking.bringing.answers
    return [m for m in likely if answers.get(f"row:{m.key}") != NONE] if taken == ALL else []


def _ask_one(
    asking: Asking, best: _Held, open_ones: Sequence[_Held], names: dict[str, str]
) -> tuple[set[str], _Held | None]:
    """Ask which of several a row belongs to; return what was asked about, and what was taken."""
    rivals = [m for m in open_ones if m is not best and not best.holes.isdisjoint(m.holes)]
    offered = (best, *rivals[:_RIVALS])
    nothing = Choice(key=NONE, words="None of these", why="Its holes stay free for now.")
    told = tuple(
        Choice(key=each.key, words=match_words(each.match, names), why=each.match.why)
        for each in offered
    )
    match = best.match
    is_doubtful = match.likely < DOUBTFUL
    taken = asking.put(
        Question(
            id=f"row:{best.key}",
            kind=QuestionKind.ROW,
            text=f"Does {match_words(match, names)} belong together? {match.why}"
            if not rivals
            else f"{counted(len(match.pairs), 'hole')} of {names[match.first]} "
            f"{'fits' if len(match.pairs) == 1 else 'fit'} {counted(len(offered), 'row')}: which one?",
            choices=(nothing, *told) if is_doubtful else (*told, nothing),
            suggested=NONE if is_doubtful else best.key,
            shapes=tuple(
                dict.fromkeys(p for each in offered for p in (each.match.first, each.match.second))
            ),
            matches=tuple(each.match for each in offered),
        )
    )
    accepted = next((each for each in offered if each.key == taken), None)
    # With 'none' all that was offered is off the table, or the same holes would be asked again.
    return {each.key for each in offered}, accepted
