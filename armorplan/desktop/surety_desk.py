"""How sure the dates of the plan shown are, reckoned once plans have stopped coming."""

from PySide6.QtCore import QObject, Signal

from armorplan.app.in_hand import WeekPlan
from armorplan.app.promises import Asked, PromiseRow, Promises, names_in
from armorplan.app.surety import changed_words, surety_words
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.odds_desk import OddsDesk
from armorplan.desktop.planning import PlanDesk
from armorplan.schedule.measures import any_due
from armorplan.schedule.problem import Plan


class SuretyDesk(QObject):
    """Follows the bench; ``told`` says that there are other ``words``.

    While a search goes on its first plan is looked at only: each takes some tenths of a second.
    """

    told = Signal()

    def __init__(self, bridge: Bridge, desk: PlanDesk, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._desk = desk
        self._asked: Plan | None = None
        self._of: Plan | None = None
        self._words = ""
        self._found: Promises | None = None
        self._odds = OddsDesk(self, with_causes=False)
        self._odds.told.connect(self._take)
        self._odds.failed.connect(self._fail)
        bridge.changed.connect(self.look)
        bridge.opened.connect(self._begin)
        desk.ended.connect(self.look)

    @property
    def words(self) -> str:
        """How sure the dates of the plan shown are; empty where none is due."""
        week = self._week()
        if week is None:
            return ""
        if week.shown.plan is self._of:
            return self._words
        return self.tr("How sure that is, is reckoned once the plan rests.")

    def of_build(self, title: str) -> PromiseRow | None:
        """Return what the plan shown promises of a build; ``None`` where it has no date, or until it is reckoned."""
        week = self._week()
        if self._found is None or week is None or week.shown.plan is not self._of:
            return None
        dated = [row for row in self._found.builds if row.kept_pct is not None]
        return next((row for row in dated if row.title == title), None)

    def look(self) -> None:
        """Have the plan shown reckoned, unless it was, or better ones are still coming."""
        week = self._week()
        if week is None or week.shown.plan is self._asked:
            return
        if self._desk.is_busy and self._of is not None:
            return
        self._asked = week.shown.plan
        shop = self._bridge.session.shop()
        self._odds.ask(week, shop.zone, Asked(names=names_in(shop)))

    def _week(self) -> WeekPlan | None:
        """Return the plan shown where it has dates to keep."""
        week = self._bridge.session.week()
        is_dated = week is not None and week.shown.plan.placed and any_due(week.problem)
        return week if is_dated else None

    def _take(self, found: Promises) -> None:
        words = surety_words(found, self.tr("Builds in hand (Ctrl+Shift+D)"))
        changed = changed_words(self._found, found) if self._found else ""
        self._found = found
        self._tell(" ".join(filter(None, (words, changed))))

    def _fail(self, why: str) -> None:
        self._tell(self.tr("How sure that is could not be reckoned: {0}.").format(why.rstrip(".")))

    def _tell(self, words: str) -> None:
        self._of, self._words = self._odds.plan, words
        self.told.emit()
        self.look()

    def _begin(self) -> None:
        """Another build is shown, perhaps of another workshop."""
        self._odds.forget()
        self._asked = self._of = self._found = None
        self.look()

    def close(self) -> bool:
        """Wait for what is under way; tell whether it ended in time."""
        return self._odds.close()
