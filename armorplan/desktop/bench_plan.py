"""The plan in a line of the bench view: when the build is done, how surely, and what moved that."""

from PySide6.QtCore import QCoreApplication, QObject, Signal

from armorplan.app.promises import PromiseRow
from armorplan.desktop.bench_said import BenchSaid
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.planning import PlanDesk
from armorplan.desktop.surety_desk import SuretyDesk
from armorplan.desktop.wording import clock_text


class BenchPlan(QObject):
    """``told`` says that there are other ``words``. What moved stands for ten seconds and more, then the date."""

    told = Signal()

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._surety: SuretyDesk | None = None
        self._moved = BenchSaid(bridge.clock)
        bridge.opened.connect(self._moved.clear)

    def follow(self, planner: PlanDesk, surety: SuretyDesk) -> None:
        """Hear what moves the plan, and how sure its dates are."""
        self._surety = surety
        planner.replanned.connect(self._hear)
        surety.told.connect(self.told)

    def words(self) -> str:
        """What is to be said of the plan now; empty where there is none."""
        return self._moved.text or self.date_words()

    def date_words(self) -> str:
        """When the build is done by the plan, and how surely its date is kept."""
        bridge, session = self._bridge, self._bridge.session
        finish_at = session.plan_face().finish_at
        if finish_at is None:
            return ""
        at = _say("To be finished {0}").format(
            clock_text(finish_at, bridge.clock.now(), bridge.zone)
        )
        row = self._surety.of_build(session.title) if self._surety else None
        return _say("{0}, {1}").format(at, kept_words(row)) if row else at

    def lapse(self) -> None:
        """Show the date again once what moved has been read."""
        if self._moved.lapse():
            self.told.emit()

    def _hear(self, sentence: str) -> None:
        self._moved.hear(sentence)
        self.told.emit()


def kept_words(row: PromiseRow) -> str:
    """Say how surely the date of a build is kept, or that the plan is too late for it."""
    if row.due_at is not None and row.planned_at > row.due_at:
        return _say("too late for its date")
    return _say("its date kept in {0} of 100 runs").format(f"{row.kept_pct or 0.0:.0f}")


def _say(text: str) -> str:
    return QCoreApplication.translate("bench_plan", text)
