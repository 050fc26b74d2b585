"""Timers of the invented session: those of its steps, and such as are set by hand."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta

from armorplan.app.bells import Bell, BellKind
from armorplan.app.ringing import Answers, next_bell, ringing_bell
from armorplan.app.rows import TimerRow


def bell(row: TimerRow, kind: BellKind, at, **changes) -> Bell:
    """Return a moment of a timer."""
    fields = {
        "id": f"{row.id}|{kind.value}",
        "kind": kind,
        "at": at,
        "about_at": at,
        "timer": row.id,
        "step": row.step,
        "title": row.title,
        "meaning": f"{row.title}: go and see to it.",
        "build_title": row.build_title,
    }
    return Bell(**{**fields, **changes})


def ringing_once(row: TimerRow, kind: BellKind = BellKind.DUE, **changes) -> TimerRow:
    """Return a timer with one moment, when it is due."""
    if row.due_at is None:
        return row
    return replace(row, kind=kind, bells=(bell(row, kind, row.due_at, **changes),))


@dataclass
class FakeTiming:
    """What a session knows of timers; ``more`` are rows put in by a test."""

    now: Callable[[], datetime]
    of_steps: Callable[[], tuple[TimerRow, ...]]
    heard: Callable[[], None]
    more: tuple[TimerRow, ...] = ()
    passed: tuple[Bell, ...] = ()
    answers: Answers = field(default_factory=Answers)
    standing: tuple[TimerRow, ...] | None = None
    doubt: str = ""
    told: int = 0

    @property
    def rows(self) -> tuple[TimerRow, ...]:
        if self.standing is not None:
            return self.standing
        rows = [self._named(row) for row in self.of_steps()]
        rows = [self._standing(row) for row in (*rows, *self.more)]
        return tuple(sorted(rows, key=lambda r: (r.due_at is None, r.due_at or r.as_of, r.id)))

    def _named(self, row: TimerRow) -> TimerRow:
        since = row.running_since.isoformat() if row.running_since else "paused"
        return ringing_once(replace(row, id=f"{row.step}|{since}"))

    def _standing(self, row: TimerRow) -> TimerRow:
        """Return a row told by what rings, else by what comes next."""
        now = self.now()
        shown = ringing_bell(row, self.answers, now) or next_bell(row, self.answers, now)
        if shown is None:
            return replace(row, hushed=bool(row.bells))
        return replace(row, kind=shown.kind, due_at=shown.about_at, meaning=shown.meaning)

    def set_timer(self, minutes: int, title: str) -> str:
        now = self.now()
        row = TimerRow(
            step="",
            title=title,
            elapsed_s=0.0,
            as_of=now,
            running_since=now,
            planned_min=minutes,
            due_at=now + timedelta(minutes=minutes),
            id=f"free-{len(self.more) + 1}",
            free=True,
        )
        self.more += (ringing_once(row),)
        self.heard()
        return f"Set: {title}"

    def stop_timer(self, timer_id: str) -> str:
        self.more = tuple(row for row in self.more if row.id != timer_id)
        self.heard()
        return "Stopped."

    def hush(self, timer_id: str) -> str:
        row = next(row for row in self.rows if row.id == timer_id)
        rings = ringing_bell(row, self.answers, self.now())
        if rings is None:
            return f"{row.title} does not ring."
        if row.free:
            return self.stop_timer(timer_id)
        self.answers = replace(
            self.answers, answered={**self.answers.answered, timer_id: rings.id}
        )
        self.heard()
        return f"Heard: {row.title}"

    def add_minutes(self, timer_id: str, minutes: float) -> str:
        longer = timedelta(minutes=minutes)
        self.more = tuple(
            ringing_once(replace(row, due_at=row.due_at + longer)) if row.id == timer_id else row
            for row in self.more
        )
        self.heard()
        return f"{minutes} min more."

    def pause_timer(self, timer_id: str) -> str:
        self.more = tuple(
            replace(row, due_at=None, running_since=None, bells=()) if row.id == timer_id else row
            for row in self.more
        )
        self.heard()
        return "Paused."

    def told_missed(self) -> str:
        self.told += 1
        self.passed = ()
        return ""

    def missed(self) -> tuple[Bell, ...]:
        return self.passed
