"""What is worth asking next: which reason, by which kind of exercise, and how much at once."""

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from armorplan.practice.drill import NUMBERED, Asked, DrillKind, Level
from armorplan.practice.grades import Grade
from armorplan.practice.memory import MASTERED_DAYS, Memory, is_due, sits

_PIECE_DAYS = 7.0
"""Stability from which a reason is asked in a whole piece: it outlasts a week (our own choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Askable:
    """A reason that exercises of this build can need.

    Attributes:
        key: what it is remembered by, ``results.reason_key``; ``rule``: code of the rule.
        binds: how often it binds in what is asked about.
        kinds: the kinds of exercise that may need it, in the order they are offered.
    """

    key: str
    rule: str
    binds: int
    kinds: tuple[DrillKind, ...]


_TIMES, _LATELY = 2, 6
"""So often of so many exercises one reason is asked, where there are others (our own choice)."""

_LONG = len(DrillKind)
"""After so many exercises without it a kind is in its turn (our own choice): each might have come once."""


def in_turn(
    reasons: Collection[Askable],
    memories: Mapping[str, Memory],
    now_at: datetime,
    *,
    former: Sequence[str] = (),
) -> tuple[Askable, ...]:
    """Return reasons, what is worth asking most first.

    First what was missed the last time, the longest waiting first. Then what is due, the least
    sure first. Then what was never seen, the most frequent first. Then all else, the least sure
    first. What was just asked twice running lets another one between, so that nobody is kept at
    one thing that will not come.

    Args:
        reasons: all that can be asked.
        memories: how they sit, by key.
        now_at: this instant; aware.
        former: the rules that exercises were to teach, the latest last.
    """

    def place(reason: Askable) -> tuple[int, float, str]:
        memory = memories.get(reason.key)
        if memory is None:
            return 2, -reason.binds, reason.key
        if memory.last is Grade.MISSED:
            return 0, memory.due_at.timestamp(), reason.key
        return (1 if is_due(memory, now_at) else 3), sits(memory, now_at), reason.key

    lately = Counter(former[-_LATELY:])
    return tuple(sorted(reasons, key=lambda one: (lately[one.rule] >= _TIMES, place(one))))


def kinds_in_turn(
    kinds: Sequence[DrillKind], former: Sequence[DrillKind]
) -> tuple[DrillKind, ...]:
    """Return kinds of exercise, those first that were not asked for the longest time.

    Args:
        kinds: which there are, in the order they are offered.
        former: what was asked, the latest last.
    """
    last = {kind: at for at, kind in enumerate(former)}
    return tuple(sorted(kinds, key=lambda kind: last.get(kind, -1)))


def kinds_waiting(
    kinds: Sequence[DrillKind], former: Sequence[DrillKind]
) -> tuple[DrillKind, ...]:
    """Return kinds of exercise that were not asked for so long that one of them is in its turn.

    Some kinds ask only what few relations tell, and would come after all else.
    """
    if len(former) < _LONG:
        return ()
    return tuple(kind for kind in kinds_in_turn(kinds, former) if kind not in former[-_LONG:])


def level_for(memory: Memory | None) -> Level:
    """Return how much is asked at once of a reason that sits so: the more, the better it sits."""
    if memory is None or memory.last is Grade.MISSED:
        return Level.STRAP
    bounds = (0.0, _PIECE_DAYS, MASTERED_DAYS)
    found = Level(1 + sum(memory.stability_days >= bound for bound in bounds))
    return Level(found - 1) if memory.last is Grade.NEEDED_REASON else found


def next_seed(number: int, former: Asked | None) -> int:
    """Return the seed of the next exercise: no two in a row have the same.

    Args:
        number: how many exercises were answered.
        former: the one that was set last; ``None``: none was.
    """
    return max(number + 1, former.seed + 1 if former is not None else 0) % NUMBERED


def coming(
    turn: Sequence[Askable],
    memories: Mapping[str, Memory],
    former: Sequence[DrillKind],
    *,
    seed: int,
    level: Level | None = None,
    piece: str = "",
) -> Iterator[Asked]:
    """Yield what to ask, best first: for each reason in its turn, by each kind in its turn.

    Args:
        turn: the reasons, as ``in_turn`` has them.
        memories: how they sit.
        former: kinds that were asked, the latest last.
        seed: of the exercise.
        level: so much at once; ``None``: as the reason sits.
        piece: of this piece only; empty: of any.
    """
    for reason in turn:
        fitting = level or level_for(memories.get(reason.key))
        for kind in kinds_in_turn(reason.kinds, former):
            yield Asked(kind=kind, seed=seed, level=fitting, piece=piece, focus=reason.rule)
