"""Finds the exercise that is worth most now: tried out one by one, in any thread."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from itertools import chain

from armorplan.app.drills.setting import drill_for
from armorplan.app.drills.source import DrillSource
from armorplan.app.practice_reasons import BuildReasons
from armorplan.practice.coming import (
    Askable,
    coming,
    in_turn,
    kinds_in_turn,
    kinds_waiting,
    level_for,
)
from armorplan.practice.drill import NUMBERED, Asked, Drill, DrillKind, Level
from armorplan.practice.grades import Grade
from armorplan.practice.memory import Memory

MOST_TRIES = 12
"""So many exercises are made before one is taken that needs another reason than wanted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ComingAsked:
    """All that decides what comes next, beside the build.

    Attributes:
        kinds: which may be asked, in the order they are offered.
        former: what was asked for, the latest last.
        last: the exercise that was set last, which is not set again, or what was asked for it;
            ``None``: none was.
        memories: how each reason sits, by key; ``at``: as of when.
        seed: of the exercise.
        level: so much at once; ``None``: as the reason sits.
        piece: of this piece only; empty: of any.
    """

    kinds: tuple[DrillKind, ...]
    at: datetime
    former: tuple[Asked, ...] = ()
    last: Drill | Asked | None = None
    memories: Mapping[str, Memory] = field(default_factory=dict)
    seed: int = 1
    level: Level | None = None
    piece: str = ""


class FindComing:
    """Makes exercises until one needs the reason that is wanted."""

    def __init__(self, source: DrillSource, reasons: BuildReasons, asked: ComingAsked) -> None:
        self._source, self._reasons, self._asked = source, reasons, asked
        self._kinds = tuple(one.kind for one in asked.former)
        self._last: Drill | None = None
        self._spare: Drill | None = None

    def __call__(self) -> Drill | None:
        """Return the exercise; ``None``: the build holds none like this."""
        last = self._asked.last
        # Of an earlier sitting only what was asked for is known.
        self._last = drill_for(self._source, last) if isinstance(last, Asked) else last
        self._look_at_a_new_kind()
        for tried, wanted in enumerate(self._wanted()):
            if tried == MOST_TRIES:
                break
            drill = self._made(wanted)
            if drill is not None and wanted.focus in drill.rules:
                return drill
            self._reasons.never(wanted)
        return self._spare or self._any()

    def _wanted(self) -> Iterator[Asked]:
        asked = self._asked
        askable = self._reasons.askable(asked.kinds, asked.piece)
        focus = [one.focus for one in asked.former]
        turn = in_turn(askable, asked.memories, asked.at, former=focus)
        every = coming(
            turn,
            asked.memories,
            self._kinds,
            seed=asked.seed,
            level=asked.level,
            piece=asked.piece,
        )
        first = () if self._is_missed(turn) else self._of_waiting_kinds(turn)
        return (one for one in chain(first, every) if not self._reasons.is_never(one))

    def _is_missed(self, turn: Sequence[Askable]) -> bool:
        memory = self._asked.memories.get(turn[0].key) if turn else None
        return memory is not None and memory.last is Grade.MISSED

    def _of_waiting_kinds(self, turn: Sequence[Askable]) -> Iterator[Asked]:
        """Yield the first reason that each kind which waited long was seen to need."""
        for kind in kinds_waiting(self._asked.kinds, self._kinds):
            needed = self._reasons.needed(kind)
            reason = next((one for one in turn if one.rule in needed), None)
            if reason is not None:
                level = self._asked.level or level_for(self._asked.memories.get(reason.key))
                yield replace(self._plain(kind), level=level, focus=reason.rule)

    def _look_at_a_new_kind(self) -> None:
        """Make one exercise of a kind that was not looked at: it may need reasons of its own."""
        for kind in kinds_in_turn(self._asked.kinds, self._kinds):
            if not self._reasons.is_known(kind):
                self._made(self._plain(kind))
                return

    def _any(self) -> Drill | None:
        """Return an exercise of the kind whose turn it is, whatever reasons it needs."""
        for kind in kinds_in_turn(self._asked.kinds, self._kinds):
            drill = self._made(self._plain(kind))
            if drill is not None:
                return drill
        return None

    def _plain(self, kind: DrillKind) -> Asked:
        level = self._asked.level or Level.ROW
        return Asked(kind=kind, seed=self._asked.seed, level=level, piece=self._asked.piece)

    def _made(self, asked: Asked) -> Drill | None:
        """Return an exercise that is another one than the last; it is remembered as a spare."""
        for seed in range(asked.seed, asked.seed + 3):
            drill = drill_for(self._source, replace(asked, seed=seed % NUMBERED))
            self._reasons.look_at(asked.kind, drill)
            if drill is None:
                return None
            if not self._is_the_last(drill):
                self._spare = self._spare or drill
                return drill
        return None

    def _is_the_last(self, drill: Drill) -> bool:
        """Tell whether an exercise shows the same as the last one, whatever it was to teach."""
        last = self._last
        if last is None:
            return False
        return replace(drill, asked=last.asked, rules=last.rules, hint=last.hint) == last
