"""How far a person is with the reasons, in rows and plain sentences: by piece and by rule."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, tzinfo

from armorplan.practice.grades import Grade, ReasonState
from armorplan.practice.memory import Memory, is_due, sits, state_of
from armorplan.practice.progress_words import (
    counts_sentence,
    drills_sentence,
    due_sentence,
    reason_sentence,
)
from armorplan.practice.results import Result, grade_of_reason, reason_key


@dataclass(frozen=True, slots=True, kw_only=True)
class ReasonRow:
    """How one reason sits with a person.

    Attributes:
        rule: code of the rule; ``name``: the rule's name for people.
        asked: how often an answer told something of it; ``kept``: how often that it was kept.
        last: how it was known the last time; ``None``: never.
        last_at: when that was; aware, UTC. ``None``: never.
        due_at: when it is worth asking again; ``is_due``: that is now or past.
        sits: how sure it still sits, above 0 up to 1: for a bar or a bench mark, never as a mark.
        sentence: all this in words.
    """

    rule: str
    name: str
    state: ReasonState
    asked: int = 0
    kept: int = 0
    last: Grade | None = None
    last_at: datetime | None = None
    due_at: datetime | None = None
    is_due: bool = False
    sits: float | None = None
    sentence: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceProgress:
    """The reasons that bind in one piece, or were met in it; counts are of this piece alone.

    How a reason sits is the same on every piece; ``asked`` and ``kept`` are of this one.
    """

    piece: str
    name: str
    reasons: tuple[ReasonRow, ...]
    sentence: str = ""

    def count(self, state: ReasonState) -> int:
        """Return how many of its reasons sit so."""
        return sum(row.state is state for row in self.reasons)


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How far a person is.

    Attributes:
        person: id; ``name``: what they are called.
        at: the instant it is told for; aware, UTC.
        drills: how many exercises were answered.
        last_at: when the last one was.
        reasons: every reason of the build, and every other that was met: shaky first, then
            unseen, then mastered.
        pieces: the same by piece, in the pattern's order.
        sentences: what the page says on top.
    """

    person: str
    name: str
    at: datetime
    drills: int
    last_at: datetime | None
    reasons: tuple[ReasonRow, ...]
    pieces: tuple[PieceProgress, ...]
    sentences: tuple[str, ...] = ()

    def count(self, state: ReasonState) -> int:
        """Return how many reasons sit so."""
        return sum(row.state is state for row in self.reasons)

    @property
    def due(self) -> int:
        """How many are worth asking again by now."""
        return sum(row.is_due for row in self.reasons)


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedReason:
    """A reason of the build: what it is remembered by, its rule's code, its name for people."""

    key: str
    rule: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceReasons:
    """A piece of the build with the reasons that bind in it."""

    piece: str
    name: str
    reasons: tuple[NamedReason, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """How a person stands at an instant, to be told of in a zone.

    Attributes:
        results: what they answered, in the order it was kept.
        memories: how each reason sits, by key.
    """

    person: str
    name: str
    results: Sequence[Result]
    memories: Mapping[str, Memory]
    at: datetime
    zone: tzinfo


_ORDER = (ReasonState.SHAKY, ReasonState.UNSEEN, ReasonState.MASTERED)


def progress_of(
    standing: Standing, pieces: Sequence[PieceReasons], *, pattern: str, title: str
) -> Progress:
    """Return how far a person is with a build, and with whatever else they met.

    Args:
        standing: the person, and what is known of them.
        pieces: the build's, each with its reasons.
        pattern: uuid of the build's pattern: results of others count for reasons, not for pieces.
        title: the build's name.
    """
    everywhere = _Told(standing, standing.results)
    own = {reason.key: reason for piece in pieces for reason in piece.reasons}
    reasons = everywhere.rows((*own.values(), *everywhere.others(own)))
    last = standing.results[-1] if standing.results else None
    mine = [result for result in standing.results if result.pattern == pattern]
    progress = Progress(
        person=standing.person,
        name=standing.name,
        at=standing.at,
        drills=len(standing.results),
        last_at=last.at if last else None,
        reasons=reasons,
        pieces=tuple(_piece(standing, piece, mine) for piece in pieces),
    )
    elsewhere = len(mine) < len(standing.results)
    what = f"of '{title}'" + (" and of other work" if elsewhere else "")
    return replace(progress, sentences=_sentences(progress, what, standing.zone))


def _sentences(progress: Progress, what: str, zone: tzinfo) -> tuple[str, ...]:
    told = (
        drills_sentence(progress.name, progress.drills, progress.last_at, zone),
        counts_sentence(progress.count, what),
        due_sentence(progress.due),
    )
    return tuple(filter(None, told))


def _piece(standing: Standing, piece: PieceReasons, results: Iterable[Result]) -> PieceProgress:
    told = _Told(standing, [result for result in results if result.piece == piece.piece])
    own = {reason.key: reason for reason in piece.reasons}
    found = PieceProgress(
        piece=piece.piece,
        name=piece.name,
        reasons=told.rows((*own.values(), *told.others(own))),
    )
    return replace(found, sentence=counts_sentence(found.count, "of this piece"))


class _Told:
    """Rows of reasons with what some results say of each."""

    def __init__(self, standing: Standing, results: Iterable[Result]) -> None:
        self._standing = standing
        self._asked: Counter[str] = Counter()
        self._kept: Counter[str] = Counter()
        self._named: dict[str, NamedReason] = {}
        for result in results:
            self._count(result)

    def _count(self, result: Result) -> None:
        for reason in result.reasons:
            if grade_of_reason(result, reason) is None:
                continue
            key = reason_key(reason.rule, result.pattern)
            self._asked[key] += 1
            self._kept[key] += reason.kept
            self._named[key] = NamedReason(key=key, rule=reason.rule, name=reason.name)

    def others(self, own: Mapping[str, NamedReason]) -> list[NamedReason]:
        """Return what was met beside the build's own reasons."""
        return [reason for key, reason in self._named.items() if key not in own]

    def rows(self, reasons: Iterable[NamedReason]) -> tuple[ReasonRow, ...]:
        """Return the rows: shaky first, then unseen, then mastered; by name."""
        rows = (self._row(reason) for reason in reasons)
        return tuple(sorted(rows, key=lambda row: (_ORDER.index(row.state), row.name, row.rule)))

    def _row(self, reason: NamedReason) -> ReasonRow:
        at, memory = self._standing.at, self._standing.memories.get(reason.key)
        row = ReasonRow(
            rule=reason.rule,
            name=reason.name,
            state=state_of(memory, at),
            asked=self._asked[reason.key],
            kept=self._kept[reason.key],
            sentence=reason_sentence(memory, at, self._standing.zone),
        )
        if memory is None:
            return row
        return replace(
            row,
            last=memory.last,
            last_at=memory.last_at,
            due_at=memory.due_at,
            is_due=is_due(memory, at),
            sits=sits(memory, at),
        )
