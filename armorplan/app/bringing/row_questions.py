"""Which rows of holes belong together: what fits but one other is taken at once, the rest asked."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from armorplan.app.bringing.asking import ALL, EACH, NONE, NOT_ALL, Asking, counted, listed
from armorplan.app.bringing.kept import Stop, matches_of
from armorplan.app.bringing.model import Choice, Question, QuestionKind
from armorplan.app.bringing.row_words import match_words
from armorplan.app.bringing.single_rows import (
    DOUBTFUL,
    SingleRows,
    best_of,
    free_of,
    held_of,
)
from armorplan.geometry.matching.model import RowMatch
from armorplan.pattern.parts import Part

SURE = 0.6
"""From here on a match without rivals is taken with the rest."""
_BUNDLED = 2


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
    found = held_of(_spoken(matches_of(plain, stop), plain, names))
    if not found:
        return ()
    best_ones = best_of(tuple(each.match for each in found))
    sure = [match for match in best_ones if _is_sure(match)]
    likely = [m for m in best_ones if m not in sure and m.likely >= DOUBTFUL and m.rivals == 0]
    asked_of: set[str] = set()
    taken: list[RowMatch] = []
    for bundle, question in ((sure, _sure_question), (likely, _likely_question)):
        if len(bundle) >= (1 if bundle is sure else _BUNDLED):
            answer = asking.put(question(bundle, names))
            taken += _not_refused(asking, bundle) if answer == ALL else []
            asked_of |= set() if answer == EACH else {match.key for match in bundle}
    used = {hole for match in taken for pair in match.pairs for hole in pair}
    singly = SingleRows(asking=asking, parts={part.id: part for part in parts}, names=names)
    return tuple(singly.asked(free_of(found, used, dropped=asked_of), taken))


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


def _is_sure(match: RowMatch) -> bool:
    return match.rivals == 0 and match.likely >= SURE


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
