"""Which rows of holes belong together: what fits but one other is taken at once, the rest asked."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from armorplan.app.bringing.asking import ALL, EACH, NONE, NOT_ALL, Asking, counted, listed
from armorplan.app.bringing.kept import Stop, matches_of
from armorplan.app.bringing.model import Choice, Question, QuestionKind
from armorplan.app.bringing.row_words import is_exact, match_words, told_apart
from armorplan.geometry.areas import ring_area_mm2
from armorplan.geometry.matching.consistent import consistent
from armorplan.geometry.matching.model import RowMatch
from armorplan.pattern.parts import Part

SURE = 0.6
"""From here on a match without rivals is taken with the rest."""
DOUBTFUL = 0.1
"""Below here a match is shown, and not suggested."""
LEAST = 0.02
"""Below here it is not even asked, unless no hole misses: two holes fit something nearly always."""
MOST_SINGLY = 40
"""So many rows are asked about one by one; of what is left there is one question."""
_RIVALS = 6
_BUNDLED = 2


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
        if match.likely >= LEAST or is_exact(match)
    )


def asked_rows(
    asking: Asking, parts: tuple[Part, ...], names: dict[str, str], stop: Stop
) -> tuple[RowMatch, ...]:
    """Ask which rows belong together; return those that do, as far as answered or suggested.

    Args:
        asking: what is asked.
        parts: parts named as they are drawn, if at all.
        names: what they are called now.
        stop: asks for an end.
    """
    # What a part is or is called by now changes no match: those of before are found again.
    plain = tuple(
        replace(part, name=part.name or f"{at}") for at, part in enumerate(parts, start=1)
    )
    found = _held(_spoken(matches_of(plain, stop), plain, names))
    if not found:
        return ()
    best_ones = _best_of(tuple(each.match for each in found))
    sure = [match for match in best_ones if _is_sure(match)]
    likely = [m for m in best_ones if m not in sure and m.likely >= DOUBTFUL and m.rivals == 0]
    by_id = {part.id: part for part in parts}
    asked_of: set[str] = set()
    taken: list[RowMatch] = []
    for bundle, question in ((sure, _sure_question), (likely, _likely_question)):
        if len(bundle) >= (1 if bundle is sure else _BUNDLED):
            answer = asking.put(question(bundle, names))
            taken += _not_refused(asking, bundle) if answer == ALL else []
            asked_of |= set() if answer == EACH else {match.key for match in bundle}
    used = {hole for match in taken for pair in match.pairs for hole in pair}
    free = _free(found, used, dropped=asked_of)
    return tuple(taken + _asked_singly(asking, free, by_id, names))


def _spoken(
    matches: Iterable[RowMatch], parts: Iterable[Part], names: Mapping[str, str]
) -> tuple[RowMatch, ...]:
    """Return matches whose reasons call the parts what they are called now."""
    called = {part.id: f"'{part.name}'" for part in parts}

    def why(match: RowMatch) -> str:
        said = match.why
        for key in (match.first, match.second):
            said = said.replace(called[key], names[key])
        return said

    return tuple(replace(match, why=why(match)) for match in matches)


def _not_refused(asking: Asking, bundle: Iterable[RowMatch]) -> list[RowMatch]:
    """Return the rows of a bundle but those that were refused one by one."""
    answers = asking.bringing.answers
    return [match for match in bundle if answers.get(f"row:{match.key}") != NONE]


def _asked_singly(
    asking: Asking,
    open_ones: Sequence[_Held],
    parts: Mapping[str, Part],
    names: dict[str, str],
) -> list[RowMatch]:
    """Ask of one row after the other; the best set is sought anew only after another answer."""
    taken: list[RowMatch] = []
    waiting = _best_held(open_ones)
    for _ in range(MOST_SINGLY):
        if not waiting:
            return taken
        best = waiting.pop(0)
        asked, accepted = _asked_one(asking, best, open_ones, parts=parts, names=names)
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


def _sure_question(sure: Sequence[RowMatch], names: dict[str, str]) -> Question:
    """Return the question about all that fits but one other; single ones may be refused."""
    fits, do = ("fits", "Does it") if len(sure) == 1 else ("fit", "Do they")
    ways = [
        Choice(key=ALL, words="They belong together", why="Each becomes a row of fasteners."),
        Choice(key=NONE, words="None of them"),
    ]
    if len(sure) > 1:
        ways.insert(1, Choice(key=EACH, words=NOT_ALL))
    return Question(
        id="rows",
        kind=QuestionKind.ROWS,
        text=f"{counted(len(sure), 'row')} of holes {fits} one other only: "
        f"{listed([match_words(match, names) for match in sure], 8)}. {do} belong together?",
        choices=tuple(ways),
        suggested=ALL,
        sure=True,
        shapes=tuple(dict.fromkeys(part for m in sure for part in (m.first, m.second))),
        matches=tuple(sure),
        settles=len(sure),
    )


def _likely_question(likely: Sequence[RowMatch], names: dict[str, str]) -> Question:
    """Return the question about what fits, though little speaks for it."""
    return Question(
        id="rows:likely",
        kind=QuestionKind.ROWS,
        text=f"{len(likely)} short rows fit one other, though a few holes prove little: "
        f"{listed([match_words(match, names) for match in likely], 8)}. Do they belong together?",
        choices=(
            Choice(key=ALL, words="They belong together", why=likely[0].why),
            Choice(key=EACH, words=NOT_ALL),
        ),
        suggested=ALL,
        shapes=tuple(dict.fromkeys(part for m in likely for part in (m.first, m.second))),
        matches=tuple(likely),
        settles=len(likely),
    )


def _asked_one(
    asking: Asking,
    best: _Held,
    open_ones: Sequence[_Held],
    *,
    parts: Mapping[str, Part],
    names: dict[str, str],
) -> tuple[set[str], _Held | None]:
    """Ask which of several a row belongs to; return what is off the table, and what was taken.

    What else the holes of one of its parts fit is offered beside it, and nothing else: what is offered
    and refused is not asked about again, and what only shares a hole of the other part is.
    """
    subject, rivals = _subject(best, open_ones, parts)
    offered = (best, *rivals[:_RIVALS])
    taken = asking.put(_row_question(subject, offered, len(rivals), parts=parts, names=names))
    accepted = next((each for each in offered if each.key == taken), None)
    # What is taken rules others out by its holes; what it leaves free is asked about in its turn.
    return {each.key for each in offered} if accepted is None else {accepted.key}, accepted


def _subject(
    best: _Held, open_ones: Sequence[_Held], parts: Mapping[str, Part]
) -> tuple[str, list[_Held]]:
    """Return the part of a match whose holes fit more, of two alike the smaller, with what they fit."""
    match = best.match
    found: list[tuple[str, list[_Held]]] = []
    for at, key in enumerate((match.first, match.second)):
        holes = frozenset(pair[at] for pair in match.pairs)
        found.append(
            (key, [m for m in open_ones if m is not best and not holes.isdisjoint(m.holes)])
        )
    return min(found, key=lambda each: (-len(each[1]), ring_area_mm2(parts[each[0]].outline)))


def _row_question(
    subject: str,
    offered: Sequence[_Held],
    rivals: int,
    *,
    parts: Mapping[str, Part],
    names: dict[str, str],
) -> Question:
    match = offered[0].match
    matches = tuple(each.match for each in offered)
    words = told_apart(matches, names, parts)
    nothing = Choice(key=NONE, words="None of these", why="Its holes stay free for now.")
    told = tuple(
        Choice(key=each.key, words=said, why=each.match.why)
        for each, said in zip(offered, words, strict=True)
    )
    is_doubtful = match.likely < DOUBTFUL
    holes = counted(len(match.pairs), "hole")
    fits = "fits" if len(match.pairs) == 1 else "fit"
    more = f", the likeliest {len(offered)} are shown" if rivals >= len(offered) else ""
    text = f"{holes} of {names[subject]} {fits} {rivals + 1} rows{more}: which one?"
    if not rivals:
        text = f"Do {names[match.first]} and {names[match.second]} belong together by {holes}?"
        if match.first == match.second:
            text = f"Does {names[match.first]} close on itself by {holes}?"
    return Question(
        id=f"row:{match.key}",
        kind=QuestionKind.ROW,
        text=text,
        choices=(nothing, *told) if is_doubtful else (*told, nothing),
        suggested=NONE if is_doubtful else match.key,
        shapes=tuple(dict.fromkeys(p for m in matches for p in (m.first, m.second))),
        matches=matches,
    )
