"""All timers that are in sight of a session, settled as of now and kept until something changes."""

from contextlib import suppress
from typing import Protocol
from zoneinfo import ZoneInfo

from armorplan.app.builds_in_sight import BuildsInSight
from armorplan.app.moment import BenchMoment
from armorplan.app.ringing import Answers
from armorplan.app.rows import TimerRow
from armorplan.app.settled_timers import in_words, settled
from armorplan.app.timer_book import TimerBook
from armorplan.app.timer_rows import free_rows
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.events import Event
from armorplan.ledger.free_timers import free_timers
from armorplan.ledger.records import Moment, moment_now
from armorplan.ledger.timer_entries import TimerEntry, TimerEntryKind
from armorplan.ledger.timers import present_at


class Bench(Protocol):
    """What timers ask of their session."""

    def moment(self) -> BenchMoment:
        """Return how the build stands."""
        ...

    def show_timers(self) -> None:
        """Show timers anew: nothing of the build has changed."""
        ...


class TimersInSight:
    """This build's timers, those set by hand, those that other builds keep."""

    def __init__(self, bench: Bench, book: TimerBook, others: BuildsInSight, clock: Clock) -> None:
        self._bench = bench
        self._book = book
        self._others = others
        self._clock = clock
        self._rows: tuple[TimerRow, ...] | None = None
        self._answers: Answers | None = None

    @property
    def answers(self) -> Answers:
        """Up to where timers were answered and told, for ``ringing``."""
        if self._answers is None:
            self._answers = _answers(self._book.all, moment_now(self._clock))
        return self._answers

    @property
    def rows(self) -> tuple[TimerRow, ...]:
        """All timers, soonest first; the same until something changes."""
        if self._rows is None:
            now = moment_now(self._clock)
            zone = ZoneInfo(self._bench.moment().derived.shop.zone)
            found = (
                *self._bench.moment().timers,
                *free_rows(free_timers(self._book.all), self._clock),
                *self._others.rows(now, zone),
            )
            spoken = (in_words(row, zone, now.at) for row in found)
            rows = settled(spoken, self.answers, now.at)
            self._rows = tuple(row for row in rows if not _is_over_elsewhere(row))
        return self._rows

    def settle_in(self, events: tuple[Event, ...]) -> None:
        """Keep this build's timers as they are now; what it took over leaves its former build.

        Where the file cannot be written the next key press says so.
        """
        with suppress(WorkshopError):
            self._others.settle_in(self._bench.moment().timers, events, moment_now(self._clock))

    def text_of(self, rows: tuple[TimerRow, ...]) -> str | None:
        """Return this build's timers as they are to be kept; ``None`` where they are kept so."""
        return self._others.text_of(rows, moment_now(self._clock))

    def kept(self, text: str | None) -> None:
        """Take in that this build's timers were kept so."""
        if text is not None:
            self._others.know(text)

    def forget(self) -> None:
        """Let the timers be read anew: something changed."""
        self._rows = self._answers = None

    def read_new(self) -> bool:
        """Take in what other windows wrote; tell whether anything was new.

        Raises:
            WorkshopError: the file cannot be read.
        """
        entries = self._book.read_new()
        if entries:
            self.forget()
        kept = self._others.read()
        if kept:
            self.forget()
        return entries or kept

    @property
    def doubt(self) -> str:
        """Ask whether the clock is right, where it stands behind something recorded before.

        Within one run of the machine nothing is doubted: there the other clock counts.
        """
        now = moment_now(self._clock)
        latest = max(self._recorded(), key=lambda moment: moment.at, default=now)
        if latest.boot_id == now.boot_id or latest.at <= now.at:
            return ""
        zone = ZoneInfo(self._bench.moment().derived.shop.zone)
        here, there = now.at.astimezone(zone), latest.at.astimezone(zone)
        return (
            f"Is the computer's clock right? It says {here:%H:%M on %d %B %Y}, but something was "
            f"recorded at {there:%H:%M on %d %B %Y}. Until it is set, timers may be wrong."
        )

    def _recorded(self) -> tuple[Moment, ...]:
        latest = self._bench.moment().ledger.latest
        entries = (entry.moment for entry in self._book.all)
        return (*((latest,) if latest else ()), *entries, *self._others.latest)

    def _row(self, timer_id: str) -> TimerRow | None:
        return next((row for row in self.rows if row.id == timer_id), None)


def _is_over_elsewhere(row: TimerRow) -> bool:
    """Tell whether another build's timer has nothing left to say here."""
    return bool(row.build) and row.hushed and row.next_bell_at is None


def _answers(entries: tuple[TimerEntry, ...], now: Moment) -> Answers:
    answered = {e.timer: e for e in entries if e.kind is TimerEntryKind.ANSWERED}
    told = {e.timer: e for e in entries if e.kind is TimerEntryKind.TOLD}
    return Answers(
        answered={timer: entry.text for timer, entry in answered.items()},
        told={timer: entry.text for timer, entry in told.items()},
        answered_at={t: present_at(e.moment, now) for t, e in answered.items()},
        told_at={t: present_at(e.moment, now) for t, e in told.items()},
    )
