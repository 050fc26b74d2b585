"""The timers that each build of the workshop keeps: the other ones read, this one's written."""

from collections.abc import Container, Iterable
from dataclasses import replace
from zoneinfo import ZoneInfo

from armorplan.app.kept_timers import (
    KeptBuildTimers,
    are_alike,
    in_sight,
    kept_from,
    kept_text,
)
from armorplan.app.rows import TimerRow
from armorplan.app.same_work import tail
from armorplan.app.timer_book import TimerShelf
from armorplan.app.timer_rows import AFTER
from armorplan.ledger.builds import BuildRecord
from armorplan.ledger.events import Event
from armorplan.ledger.present import moment_in_present_wall
from armorplan.ledger.records import Moment


class BuildsInSight:
    """Timers of all builds of a workshop, as they were kept last."""

    def __init__(self, build: BuildRecord, shelf: TimerShelf) -> None:
        self._build = build.id
        self._title = build.name
        self._begun_at = build.created_at
        self._shelf = shelf
        self._texts: dict[str, str] = {}
        self._kept: dict[str, KeptBuildTimers] = {}
        self.read()

    def read(self) -> bool:
        """Read what was kept; tell whether anything of another build is new.

        Raises:
            WorkshopError: the file cannot be read.
        """
        texts = {kept.build: kept.rows_json for kept in self._shelf.kept()}
        changed = [build for build, text in texts.items() if self._texts.get(build) != text]
        for build in changed:
            self._know(build, texts[build])
        return any(build != self._build for build in changed)

    def know(self, text: str) -> None:
        """Take in that this build's timers were kept so, together with what happened."""
        self._know(self._build, text)

    def _know(self, build: str, text: str) -> None:
        self._texts[build] = text
        found = kept_from(text)
        if found is None:
            self._kept.pop(build, None)
        else:
            self._kept[build] = found

    def rows(self, now: Moment, zone: ZoneInfo) -> tuple[TimerRow, ...]:
        """Return the other builds' timers by the clocks of now.

        What dries there was reckoned in the air, and by what was learned, of when it was kept: that
        is said with it.
        """
        return tuple(
            _with_age(row, kept.moment, now, zone)
            for build, kept in sorted(self._kept.items())
            if build != self._build
            for row in in_sight(build, kept, now)
        )

    def text_of(self, rows: tuple[TimerRow, ...], now: Moment) -> str | None:
        """Return this build's timers as they are to be kept; ``None`` where they are kept so."""
        kept = self._kept.get(self._build)
        known = in_sight("", kept, now) if kept else ()
        if are_alike(rows, known) and (kept is None or kept.title == self._title):
            return None
        return kept_text(KeptBuildTimers(title=self._title, moment=now, rows=rows))

    def settle_in(self, rows: tuple[TimerRow, ...], events: Iterable[Event], now: Moment) -> None:
        """Keep this build's timers as they are, and take away those of builds it goes on from.

        What it took over would ring twice, and what it left behind nobody works at any more.

        Raises:
            WorkshopError: the file cannot be written or read.
        """
        try:
            self._leave_former(rows, events, now)
        finally:
            # Of a window that may not write, too.
            self.read()

    def _leave_former(
        self, rows: tuple[TimerRow, ...], events: Iterable[Event], now: Moment
    ) -> None:
        text = self.text_of(rows, now)
        if text is not None:
            self._shelf.keep(self._build, text)
        begun = {(tail(e.step), f"{e.boot_id}|{e.boot_s:.3f}") for e in events}
        for build, kept in sorted(self._kept.items()):
            if build == self._build or not kept.rows:
                continue
            if not self._shelf.go_on(self._build, build):
                continue
            # What nothing happened to since this build goes on from it is left behind whole.
            is_left = kept.moment.at <= self._begun_at
            left = () if is_left else _without(kept.rows, begun)
            if left != kept.rows:
                self._shelf.keep(build, kept_text(replace(kept, rows=left)))

    @property
    def latest(self) -> tuple[Moment, ...]:
        """The moments at which timers were kept."""
        return tuple(kept.moment for kept in self._kept.values())


def _with_age(row: TimerRow, kept: Moment, now: Moment, zone: ZoneInfo) -> TimerRow:
    """Return a timer of what dries with the time at which that was reckoned."""
    if not row.drying:
        return row
    at = moment_in_present_wall(kept, now).at.astimezone(zone)
    day = "" if at.date() == now.at.astimezone(zone).date() else f"{at.day} {at:%b} "
    return replace(row, title=f"{row.title} (as reckoned at {day}{at:%H:%M})")


def _without(
    rows: tuple[TimerRow, ...], begun: Container[tuple[str, str]]
) -> tuple[TimerRow, ...]:
    return tuple(row for row in rows if _begun_by(row) not in begun)


def _begun_by(row: TimerRow) -> tuple[str, str]:
    """Return the step, without its build, and the moment that began a run of a timer."""
    step, what, moment = row.id.split("|", 2)
    return tail(what.removeprefix(AFTER) if what.startswith(AFTER) else step), moment
