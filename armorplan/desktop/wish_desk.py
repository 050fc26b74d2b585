"""What is asked of the weeks ahead, off the window's thread: what if, and what would free them."""

from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from armorplan.app.in_hand import WeekPlan
from armorplan.app.plan_naming import naming_of
from armorplan.app.what_if_plan import Asked, Subject, asked_of, subjects, usual_asks
from armorplan.app.wishes import Wishes
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.kernel.errors import ArmorplanError


class _Doing(NamedTuple):
    """What is being tried just now."""

    words: str


class WishDesk(QObject):
    """Reckons one list of questions at a time.

    ``row`` carries a ``SideRow`` or ``MendRow`` as it comes, a better one of the same key after
    it; ``told`` a sentence, ``refused`` what cannot be asked and why.
    """

    row = Signal(object)
    told = Signal(str)
    refused = Signal(str)
    begun = Signal()
    ended = Signal()

    def __init__(self, bridge: Bridge, wishes: Wishes, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._wishes = wishes
        self._runner = Runner(self)
        self._runner.begun.connect(self.begun)
        self._runner.ended.connect(self.ended)
        self._runner.better.connect(self._hear)
        self._runner.answered.connect(self._hear)
        self._runner.failed.connect(lambda error: self.refused.emit(str(error)))

    @property
    def is_busy(self) -> bool:
        """Whether something is being reckoned."""
        return self._runner.is_busy

    @property
    def week(self) -> WeekPlan | None:
        """The plan at hand; ``None`` until there is one."""
        return self._bridge.session.week()

    @property
    def has_plan(self) -> bool:
        """Whether a plan is at hand that something can stand beside."""
        return self.week is not None and bool(self.week.shown.plan.placed)

    def usual(self) -> tuple[Asked, ...]:
        """Return what is worth asking of this shop; nothing until there is a plan."""
        week, shop = self.week, self._bridge.session.shop()
        if week is None:
            return ()
        return tuple(asked_of(text, week.problem, shop) for text in usual_asks(week.problem, shop))

    def subjects(self) -> tuple[Subject, ...]:
        """Return what can be asked about; nothing until there is a plan."""
        week = self.week
        return () if week is None else subjects(week.problem, self._bridge.session.shop())

    def read(self, text: str) -> Asked | None:
        """Return what is written; ``refused`` says why it cannot be asked."""
        week = self.week
        if week is None:
            self.refused.emit(self.tr("There is no plan yet to ask this of."))
            return None
        try:
            return asked_of(text, week.problem, self._bridge.session.shop())
        except ArmorplanError as error:
            self.refused.emit(str(error))
            return None

    def ask(self, asked: tuple[Asked, ...]) -> None:
        """Reckon these side by side with the plan at hand."""
        week, shop = self.week, self._bridge.session.shop()
        if week is None or not week.shown.plan.placed:
            self.refused.emit(self.tr("There is no plan yet to ask this of."))
            return
        problem, plan, wishes = week.problem, week.shown.plan, self._wishes

        def work(report: Report, should_stop: ShouldStop) -> object:
            naming = naming_of(shop, problem)
            for row in wishes.what_if(problem, plan, asked, naming, should_stop):
                report(row)
            return None

        self._runner.ask(work)

    def ask_why(self) -> None:
        """Reckon why there is no plan, and what would free it."""
        week, shop = self.week, self._bridge.session.shop()
        if week is None:
            self.refused.emit(self.tr("There is no plan yet to ask this of."))
            return
        problem, known, wishes = week.problem, week.shown.plan, self._wishes
        source = self._bridge.session.shop_source()

        def work(report: Report, should_stop: ShouldStop) -> object:
            naming = naming_of(shop, problem, source=source)
            why = wishes.why_none(
                problem, naming, should_stop, lambda words: report(_Doing(words)), known=known
            )
            report(why.words)
            for row in why.rows():
                report(row)
            if why.tried.words():
                report(f"{why.words} {why.tried.words()}")
            return None

        self._runner.ask(work)

    def stop(self) -> None:
        """End with what has come so far."""
        self._runner.stop()

    def close(self) -> bool:
        """Stop for good; tell whether the thread ended in time."""
        return self._runner.close()

    def _hear(self, value: object) -> None:
        if isinstance(value, _Doing):
            self._bridge.said.emit(value.words)
        elif isinstance(value, str):
            self.told.emit(value)
        elif value is not None:
            self.row.emit(value)
