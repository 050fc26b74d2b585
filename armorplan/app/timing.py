"""The timers of a session: this build's, those set by hand, those of the workshop's other builds."""

from collections.abc import Callable
from contextlib import suppress
from datetime import datetime
from functools import partial
from typing import Protocol
from zoneinfo import ZoneInfo

from armorplan.app.bells import Bell
from armorplan.app.builds_in_sight import BuildsInSight
from armorplan.app.free_presses import FreePresses
from armorplan.app.missed import missed_of
from armorplan.app.moment import BenchMoment
from armorplan.app.ringing import Answers, clock_jumped, passed_untold, ringing_bell
from armorplan.app.rows import TimerRow
from armorplan.app.settled_timers import clock_words, in_words, settled
from armorplan.app.timer_book import TimerBook
from armorplan.app.timer_rows import free_rows
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.events import Event
from armorplan.ledger.free_timers import free_timers
from armorplan.ledger.records import Moment, moment_now
from armorplan.ledger.timer_entries import TimerEntry, TimerEntryKind
from armorplan.ledger.timers import present_at

_SLEPT_S = 90.0
"""Nobody looked for so long: the machine was suspended, or the program stood still."""
_GONE = "That timer is no longer there."


class Bench(Protocol):
    """What timers ask of their session."""

    def moment(self) -> BenchMoment:
        """Return how the build stands."""
        ...

    def show_timers(self) -> None:
        """Show timers anew: nothing of the build has changed."""
        ...


class Timing:
    """What runs, rings, was missed, and is set by hand; a part of ``session.Session``.

    Actions return a sentence for the status line. What cannot be recorded says so, and counts in
    this window all the same.
    """

    def __init__(
        self,
        bench: Bench,
        book: TimerBook,
        others: BuildsInSight,
        clock: Clock,
        new_id: Callable[[], str],
    ) -> None:
        self._bench = bench
        self._book = book
        self._others = others
        self._clock = clock
        self._free = FreePresses(clock, new_id)
        self._looked = moment_now(clock)
        self._away_until = self._looked
        self._rows: tuple[TimerRow, ...] | None = None
        self._answers: Answers | None = None

    @property
    def answers(self) -> Answers:
        """Up to where timers were answered and told, for ``ringing``."""
        if self._answers is None:
            self._answers = _answers(self._book.all)
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
                *self._others.rows(now),
            )
            spoken = (in_words(row, zone, now.at) for row in found)
            self._rows = settled(spoken, self.answers, now.at)
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
        entries, kept = self._book.read_new(), self._others.read()
        if entries or kept:
            self.forget()
        return entries or kept

    def look(self) -> bool:
        """Look at the clocks, once a second; tell whether timers have to be shown anew.

        What passed in between was told by ringing, unless nobody looked for a while.
        """
        before, now = self._looked, moment_now(self._clock)
        self._looked = now
        slept = before.boot_id != now.boot_id or now.boot_s - before.boot_s > _SLEPT_S
        jumped = clock_jumped((before.at, before.boot_s), (now.at, now.boot_s))
        turn_at = min((r.next_bell_at for r in self.rows if r.next_bell_at), default=None)
        turned = turn_at is not None and turn_at <= now.at
        if slept:
            self._away_until = now
        elif turned and not jumped:
            self._tell(now.at, since_at=present_at(before, now))
        if slept or jumped or turned:
            self.forget()
        return slept or jumped or turned

    def _tell(self, now_at: datetime, *, since_at: datetime | None = None) -> str:
        """Note what rings as told, where it is not yet; of what passed lately, where said so."""
        found = []
        for row in self.rows:
            passed = passed_untold(row, self.answers, now_at)
            if passed and (since_at is None or passed[-1].at > since_at):
                found.append(self._entry(row.id, TimerEntryKind.TOLD, passed[-1].id))
        said = self._book.add(*found) if found else ""
        self._answers = None
        return said

    def _entry(self, timer: str, kind: TimerEntryKind, text: str) -> TimerEntry:
        return TimerEntry(timer=timer, kind=kind, moment=moment_now(self._clock), text=text)

    def missed(self) -> tuple[Bell, ...]:
        """Return what passed while nobody was there, oldest first, with what it means now.

        The same until ``told_missed``, an answer, or work that answers it.
        """
        now = moment_now(self._clock)
        until_at = present_at(self._away_until, now)
        zone = ZoneInfo(self._bench.moment().derived.shop.zone)
        words = partial(clock_words, zone=zone, now_at=now.at)
        found = (missed_of(passed_untold(row, self.answers, until_at), words) for row in self.rows)
        return tuple(sorted((b for b in found if b), key=lambda bell: (bell.at, bell.id)))

    def told_missed(self) -> str:
        """Note that the maker has seen what was missed: it is not told a second time."""
        return self._tell(present_at(self._away_until, moment_now(self._clock)))

    def hush(self, timer_id: str) -> str:
        """Answer what rings of a timer; it rings again at its next moment. A free one ends."""
        row = self._row(timer_id)
        if row is None:
            return _GONE
        bell = ringing_bell(row, self.answers, self._clock.now())
        if bell is None:
            return f"Nothing rings: {row.title}."
        if row.free:
            return self._keep(f"Answered: {row.title}.", self._free.stop(timer_id))
        entry = self._entry(row.id, TimerEntryKind.ANSWERED, bell.id)
        return self._keep(f"Answered: {row.title}.", entry)

    def set_timer(self, minutes: float, title: str) -> str:
        """Set a timer for minutes from now, for nothing of a build."""
        entry, said = self._free.set(minutes, title)
        return self._keep(said, entry) if entry else said

    def add_minutes(self, timer_id: str, minutes: float) -> str:
        """Let a free timer run for so much longer; one that rings rings again after that."""
        row = self._row(timer_id)
        if row is None or not row.free:
            return _not_free(row)
        entry, said = self._free.add(row, minutes)
        return self._keep(said, entry) if entry else said

    def pause_timer(self, timer_id: str) -> str:
        """Pause a free timer, or let it go on."""
        row = self._row(timer_id)
        if row is None or not row.free:
            return _not_free(row)
        word = "Paused" if row.running_since else "Goes on"
        return self._keep(f"{word}: {row.title}.", self._free.pause_or_go_on(row))

    def stop_timer(self, timer_id: str) -> str:
        """Stop a free timer for good."""
        row = self._row(timer_id)
        if row is None or not row.free:
            return _not_free(row)
        return self._keep(f"Stopped: {row.title}.", self._free.stop(timer_id))

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

    def _keep(self, said: str, entry: TimerEntry) -> str:
        refused = self._book.add(entry)
        self._bench.show_timers()
        return (
            f"{said} This holds until the window is closed: it was not recorded. {refused}"
            if refused
            else said
        )


def _not_free(row: TimerRow | None) -> str:
    if row is None:
        return _GONE
    return f"This timer belongs to a step: pause or tick that. {row.title}."


def _answers(entries: tuple[TimerEntry, ...]) -> Answers:
    answered = {e.timer: e.text for e in entries if e.kind is TimerEntryKind.ANSWERED}
    told = {e.timer: e.text for e in entries if e.kind is TimerEntryKind.TOLD}
    return Answers(answered=answered, told=told)
