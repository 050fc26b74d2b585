"""How far a person is with the reasons, in rows and plain sentences: by piece and by rule."""

from dataclasses import dataclass
from datetime import datetime

from armorplan.practice.grades import Grade, ReasonState


@dataclass(frozen=True, slots=True, kw_only=True)
class ReasonRow:
    """How one reason sits with a person.

    Attributes:
        rule: code of the rule; ``name``: the rule's name for people.
        asked: how often an exercise met it; ``kept``: how often an answer kept it.
        last: how it was known the last time; ``None``: it was met only in passing, or never.
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
