"""What rings at an instant, and when it sounds again: pure functions that a tick may ask.

Nothing here reads a file or derives anything; rows and answers change only when something did.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from armorplan.app.bells import Bell
from armorplan.app.rows import TimerRow
from armorplan.ledger.present import LEAST_JUMP

_OFTEN = timedelta(minutes=1)
_SELDOM = timedelta(minutes=5)
_OFTEN_FOR = timedelta(minutes=10)


_MOVED = timedelta(minutes=15)
"""A moment that lies so long after its answer was put off since, and rings again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """Up to which bell each timer was answered, and up to which it was told as missed, and when."""

    answered: Mapping[str, str] = field(default_factory=dict)
    told: Mapping[str, str] = field(default_factory=dict)
    answered_at: Mapping[str, datetime] = field(default_factory=dict)
    told_at: Mapping[str, datetime] = field(default_factory=dict)


NO_ANSWERS = Answers()


def _marked(row: TimerRow, upto: str | None, at: datetime | None) -> frozenset[str]:
    """Return the ids of a timer's bells up to one, but for those that were put off since."""
    count = next((n for n, bell in enumerate(row.bells, 1) if bell.id == upto), 0)
    return frozenset(b.id for b in row.bells[:count] if at is None or b.at <= at + _MOVED)


def open_bells(row: TimerRow, answers: Answers) -> tuple[Bell, ...]:
    """Return the bells of a timer that nobody has answered and that no answer made needless."""
    if row.id not in answers.answered:
        return row.bells
    answered = _marked(row, answers.answered[row.id], answers.answered_at.get(row.id))
    return tuple(
        bell for bell in row.bells if bell.id not in answered and bell.instead_of not in answered
    )


def ringing_bell(row: TimerRow, answers: Answers, now_at: datetime) -> Bell | None:
    """Return what rings of a timer: the last of its open moments that has passed."""
    passed = [bell for bell in open_bells(row, answers) if bell.at <= now_at]
    return passed[-1] if passed else None


def next_bell(row: TimerRow, answers: Answers, now_at: datetime) -> Bell | None:
    """Return the next moment of a timer that is still to come."""
    return next((bell for bell in open_bells(row, answers) if bell.at > now_at), None)


def ringing(rows: Iterable[TimerRow], answers: Answers, now_at: datetime) -> tuple[Bell, ...]:
    """Return what rings at an instant, one bell for each timer, the latest last."""
    found = (ringing_bell(row, answers, now_at) for row in rows)
    return tuple(sorted((b for b in found if b is not None), key=lambda b: (b.at, b.id)))


def sounds_again_at(bell: Bell, after_at: datetime) -> datetime:
    """Return when a bell that nobody answers sounds next: once a minute, after ten once in five."""
    if after_at < bell.at:
        return bell.at
    since = after_at - bell.at
    pause = _OFTEN if since < _OFTEN_FOR else _SELDOM
    return bell.at + (since // pause + 1) * pause


def sounding(bells: Iterable[Bell], *, since_at: datetime, now_at: datetime) -> tuple[Bell, ...]:
    """Return the bells whose turn to sound came after ``since_at`` and up to now.

    Several turns that a suspended machine slept through are one.
    """
    return tuple(bell for bell in bells if sounds_again_at(bell, since_at) <= now_at)


def passed_untold(row: TimerRow, answers: Answers, now_at: datetime) -> tuple[Bell, ...]:
    """Return what passed of a timer, was not answered, and was not told before."""
    told = _marked(row, answers.told.get(row.id), answers.told_at.get(row.id))
    past = (bell for bell in open_bells(row, answers) if bell.at <= now_at)
    return tuple(bell for bell in past if bell.id not in told)


def clock_jumped(before: tuple[datetime, float], now: tuple[datetime, float]) -> bool:
    """Tell whether the wall clock was set between two looks: (wall, seconds since boot) each.

    A suspended machine moves both alike, so that this is no jump.
    """
    by_wall = now[0] - before[0]
    by_boot = timedelta(seconds=now[1] - before[1])
    return abs(by_wall - by_boot) >= LEAST_JUMP
