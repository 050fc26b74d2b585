"""Rows that are asked about one by one: which of several a row of holes belongs to."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from armorplan.app.bringing.asking import ALL, NONE, Asking, counted, listed
from armorplan.app.bringing.model import Choice, Question, QuestionKind
from armorplan.app.bringing.row_words import is_exact, match_words, told_apart
from armorplan.geometry.areas import ring_area_mm2
from armorplan.geometry.matching.consistent import consistent
from armorplan.geometry.matching.model import RowMatch
from armorplan.pattern.parts import Part

DOUBTFUL = 0.1
"""Below here a match is shown, and not suggested."""
LEAST = 0.02
"""Below here it is not even asked, unless no hole misses: two holes fit something nearly always."""
MOST_SINGLY = 40
"""So many rows are asked about one by one; of what is left there is one question."""
_RIVALS = 6


class Held(NamedTuple):
    """A match with its key and its holes, which are asked for very often."""

    match: RowMatch
    key: str
    holes: frozenset[str]


@lru_cache(maxsize=4)
def held_of(found: tuple[RowMatch, ...]) -> tuple[Held, ...]:
    """Return the matches that are worth a question."""
    return tuple(
        Held(match, match.key, frozenset(hole for pair in match.pairs for hole in pair))
        for match in found
        if match.likely >= LEAST or is_exact(match)
    )


@lru_cache(maxsize=64)
def best_of(matches: tuple[RowMatch, ...]) -> tuple[RowMatch, ...]:
    """Return the likeliest matches that use no hole twice."""
    return tuple(consistent(matches))


def free_of(
    matches: Iterable[Held], used: Iterable[str], *, dropped: set[str]
) -> tuple[Held, ...]:
    """Return the matches that use none of these holes, and were not asked about."""
    held = frozenset(used)
    return tuple(m for m in matches if m.key not in dropped and held.isdisjoint(m.holes))


@dataclass(frozen=True, slots=True, kw_only=True)
class SingleRows:
    """Asks of one row after the other.

    Attributes:
        asking: what is asked.
        parts: the parts by key.
        names: what they are called now.
    """

    asking: Asking
    parts: Mapping[str, Part]
    names: dict[str, str]

    def asked(self, open_ones: Sequence[Held], taken: Iterable[RowMatch]) -> list[RowMatch]:
        """Ask; return what belongs together, behind what was ``taken`` before.

        The best set is sought once. After another answer what is free again is filled up in order.
        """
        found = list(taken)
        best = {match.key for match in best_of(tuple(each.match for each in open_ones))}
        waiting = [each for each in open_ones if each.key in best]
        for _ in range(MOST_SINGLY):
            if not waiting:
                return found
            first = waiting.pop(0)
            dropped, accepted = self._asked_one(first, open_ones, found)
            found += [accepted.match] if accepted is not None else []
            used = accepted.holes if accepted is not None else frozenset()
            open_ones = free_of(open_ones, used, dropped=dropped)
            waiting = list(free_of(waiting, used, dropped=dropped))
            if accepted is not first:
                waiting = _filled_up(waiting, open_ones)
        return found + (self._ask_rest([each.match for each in waiting]) if waiting else [])

    def _asked_one(
        self, best: Held, open_ones: Sequence[Held], taken: Sequence[RowMatch]
    ) -> tuple[set[str], Held | None]:
        """Ask which of several a row belongs to; return what is off the table, and what was taken.

        What else the holes of one of its parts fit is offered beside it, and nothing else: what is
        offered and refused is not asked about again, what only shares a hole of the other part is.
        """
        subject, rivals = self._subject(best, open_ones)
        offered = (best, *rivals[:_RIVALS])
        held = {part for match in taken for part in (match.first, match.second)}
        question = self._question(
            subject, offered, len(rivals), is_open=_is_open(best.match, held)
        )
        key = self.asking.put(question)
        accepted = next((each for each in offered if each.key == key), None)
        # What is taken rules others out by its holes; what it leaves free is asked about in its turn.
        return {each.key for each in offered} if accepted is None else {accepted.key}, accepted

    def _subject(self, best: Held, open_ones: Sequence[Held]) -> tuple[str, list[Held]]:
        """Return the part whose holes fit more, of two alike the smaller, with what else they fit."""
        match = best.match
        found: list[tuple[str, list[Held]]] = []
        for at, key in enumerate((match.first, match.second)):
            holes = frozenset(pair[at] for pair in match.pairs)
            rivals = [m for m in open_ones if m is not best and not holes.isdisjoint(m.holes)]
            found.append((key, rivals))
        return min(
            found, key=lambda each: (-len(each[1]), ring_area_mm2(self.parts[each[0]].outline))
        )

    def _question(
        self, subject: str, offered: Sequence[Held], rivals: int, *, is_open: bool
    ) -> Question:
        match = offered[0].match
        matches = tuple(each.match for each in offered)
        words = told_apart(matches, self.names, self.parts)
        nothing = Choice(key=NONE, words="None of these", why="Its holes stay free for now.")
        told = tuple(
            Choice(key=each.key, words=said, why=each.match.why)
            for each, said in zip(offered, words, strict=True)
        )
        more = f", the likeliest {len(offered)} are shown" if rivals >= len(offered) else ""
        fits = "fits" if len(match.pairs) == 1 else "fit"
        holes = counted(len(match.pairs), "hole")
        text = f"{holes} of {self.names[subject]} {fits} {rivals + 1} rows{more}: which one?"
        return Question(
            id=f"row:{match.key}",
            kind=QuestionKind.ROW,
            text=text if rivals else self._alone_words(match),
            choices=(nothing, *told) if is_open else (*told, nothing),
            suggested=NONE if is_open else match.key,
            shapes=tuple(dict.fromkeys(p for m in matches for p in (m.first, m.second))),
            matches=matches,
        )

    def _alone_words(self, match: RowMatch) -> str:
        first, second = self.names[match.first], self.names[match.second]
        holes = counted(len(match.pairs), "hole")
        if match.first == match.second:
            return f"Does {first} close on itself by {holes}?"
        return f"Do {first} and {second} belong together by {holes}?"

    def _ask_rest(self, rest: list[RowMatch]) -> list[RowMatch]:
        """Ask of all that is left at once: so many rows are not looked through one by one."""
        told = listed([match_words(match, self.names) for match in rest], 4)
        question = Question(
            id="rows:rest",
            kind=QuestionKind.ROWS,
            text=f"{len(rest):,} more rows fit several others; the likeliest of each are {told}. "
            "Do they belong together?",
            choices=(
                Choice(key=NONE, words="Leave them free", why="Join them on the drawing table."),
                Choice(key=ALL, words="They belong together"),
            ),
            suggested=NONE,
            shapes=tuple(dict.fromkeys(part for m in rest for part in (m.first, m.second))),
            matches=tuple(rest),
            settles=len(rest),
        )
        return rest if self.asking.put(question) == ALL else []


def _is_open(match: RowMatch, held: Collection[str]) -> bool:
    """Tell whether nothing is suggested: of what is held by something, and fits others as well.

    A part that hangs on nothing yet has to go somewhere, so that a row without a miss is suggested.
    """
    is_loose = is_exact(match) and not {match.first, match.second}.issubset(held)
    return match.likely < DOUBTFUL and not is_loose


def _filled_up(waiting: Sequence[Held], open_ones: Sequence[Held]) -> list[Held]:
    """Return what waits with the likeliest of what uses no hole of it, the likeliest first."""
    kept = {each.key for each in waiting}
    used = {hole for each in waiting for hole in each.holes}
    for each in open_ones:
        if each.key not in kept and used.isdisjoint(each.holes):
            kept.add(each.key)
            used |= each.holes
    return [each for each in open_ones if each.key in kept]
