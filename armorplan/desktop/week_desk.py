"""Lays the week into rows: at once where it is small, off the window's thread where it is large."""

from dataclasses import dataclass

from PySide6.QtCore import QObject, Signal

from armorplan.app.week_facts import WeekFacts
from armorplan.app.week_lanes import week_of
from armorplan.app.week_rows import By, Week
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.desktop.twin_model import TwinRow
from armorplan.desktop.week_words import week_rows

FEW = 250
"""So many steps are laid within some 10 ms."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidWeek:
    """The week at one laying, what it was laid out of, and the same as rows of a table."""

    facts: WeekFacts
    week: Week
    rows: tuple[TwinRow, ...]


def facts_of(bridge: Bridge) -> WeekFacts:
    """Return what the week is laid out of now."""
    session = bridge.session
    plan = session.week()
    return WeekFacts(
        chart=session.chart(),
        build=session.build_id,
        title=session.title,
        problem=plan.problem if plan else None,
        shown=plan.shown if plan else None,
        promised=plan.promised if plan else None,
    )


def laid_week(facts: WeekFacts, by: By) -> LaidWeek:
    """Return the week at a laying; some 20 ms for 600 steps, 110 ms for 3,000."""
    week = week_of(facts, by)
    return LaidWeek(facts=facts, week=week, rows=week_rows(week))


class WeekDesk(QObject):
    """Lays one week at a time; ``laid`` carries a ``LaidWeek``, ``failed`` why there is none."""

    laid = Signal(object)
    failed = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._next: tuple[WeekFacts, By] | None = None
        self._runner = Runner(self)
        self._runner.answered.connect(self._tell)
        self._runner.failed.connect(self._tell_failed)

    def ask(self, facts: WeekFacts, by: By) -> None:
        """Have the week laid; where one is being laid, this one is next, instead of any asked before.

        The one under way is not dropped: plans come faster than long weeks are laid, and none
        would ever be seen.
        """
        self._next = facts, by
        if not self._runner.is_busy:
            self._go_on()

    def _go_on(self) -> None:
        if self._next is None:
            return
        (facts, by), self._next = self._next, None
        if len(facts.activities) <= FEW:
            self.laid.emit(laid_week(facts, by))
            return

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            return laid_week(facts, by)

        self._runner.ask(work)

    def _tell(self, laid: LaidWeek) -> None:
        self.laid.emit(laid)
        self._go_on()

    def _tell_failed(self, error: Exception) -> None:
        self.failed.emit(str(error))
        self._go_on()

    def close(self) -> bool:
        """Wait for what is under way; tell whether it ended in time."""
        self._next = None
        return self._runner.close()
