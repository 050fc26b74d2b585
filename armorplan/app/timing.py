"""The timers of a session: this build's, those set by hand, those of the workshop's other builds."""

from collections.abc import Callable
from datetime import datetime
from functools import partial
from zoneinfo import ZoneInfo

from armorplan.app.bells import Bell
from armorplan.app.builds_in_sight import BuildsInSight
from armorplan.app.free_presses import FreePresses
from armorplan.app.missed import missed_of
from armorplan.app.ringing import clock_jumped, passed_untold, ringing_bell
from armorplan.app.rows import TimerRow
from armorplan.app.settled_timers import clock_words
from armorplan.app.timer_book import TimerBook
from armorplan.app.timers_in_sight import Bench, TimersInSight
from armorplan.kernel.clock import Clock
from armorplan.ledger.records import moment_now
from armorplan.ledger.timer_entries import TimerEntry, TimerEntryKind
from armorplan.ledger.timers import present_at

_SLEPT_S = 90.0
"""Nobody looked for so long: the machine was suspended, or the program stood still."""
_GONE = "That timer is no longer there."


class Timing(TimersInSight):
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
        super().__init__(bench, book, others, clock)
        self._free = FreePresses(clock, new_id)
        self._looked = moment_now(clock)
        self._away_until = self._looked

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
