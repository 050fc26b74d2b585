"""The week in a pane: the picture, its table, and how new plans come into them without a jump."""

from abc import abstractmethod
from collections.abc import Callable

from PySide6.QtCore import QTimer
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from armorplan.app.week_rows import By, Week
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.week_desk import LaidWeek, WeekDesk, facts_of, laid_week
from armorplan.desktop.week_words import letters_words
from armorplan.desktop.widgets.notice_line import Sentence
from armorplan.desktop.widgets.picture_pane import PicturePane
from armorplan.desktop.widgets.week_canvas import WeekCanvas
from armorplan.desktop.widgets.week_head import WeekHead
from armorplan.desktop.widgets.week_line import WeekLine
from armorplan.desktop.widgets.week_table import WeekTable

NOW_MS = 20_000
"""The line of the present moves less than a pixel in this time at any zoom one works in."""
AGAIN_MS = 300
"""So soon it is looked again whether the pointer has come to rest."""


class WeekPane(PicturePane):
    """Shows the week as it stands; ``week_view.WeekView`` adds what one does with it."""

    def __init__(
        self, bridge: Bridge, choose: Callable[[str], None], parent: QWidget | None = None
    ) -> None:
        super().__init__("week_view", choose, parent)
        self._bridge = bridge
        self._by = By.PERSON
        self._laid = laid_week(facts_of(bridge), self._by)
        self._waiting: LaidWeek | None = None
        self.desk = WeekDesk(self)
        self.canvas = WeekCanvas(self._laid.week, self)
        self.canvas.setObjectName("week_canvas")
        self.canvas.setAccessibleName(self.tr("The week"))
        self.canvas.setAccessibleDescription(
            self.tr(
                "Arrow keys walk between the steps, Page Down goes through them in time, Enter "
                "chooses, Escape chooses nothing. L lays the week by person, by bath and rack, or "
                "by build. Plus and minus zoom, 1 shows a day, 7 a week, zero everything, Shift "
                "with arrows moves the days. C compares with what was promised, O opens the "
                "build of a step of another build."
            )
        )
        self.head = WeekHead(self)
        self.letters = Sentence(self)
        self.letters.setObjectName("week_letters")
        self.letters.setAccessibleName(self.tr("Which letter is which build's"))
        self.letters.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.letters.hide()
        self.line = WeekLine(self)
        self.table = WeekTable(self)
        self.twin, self.twin_model = self.table, self.table.rows
        self._lay_out()
        self._beat = QTimer(self, interval=NOW_MS)
        self._beat.timeout.connect(self._move_now)
        self._again = QTimer(self, singleShot=True, interval=AGAIN_MS)
        self._again.timeout.connect(self._show_waiting)
        self.desk.laid.connect(self._take)
        self.desk.failed.connect(bridge.said.emit)

    def _lay_out(self) -> None:
        picture = QWidget(self)
        picture.setFocusProxy(self.canvas)
        box = QVBoxLayout(picture)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(0)
        box.addWidget(self.head)
        box.addWidget(self.canvas, 1)
        box.addWidget(self.letters)
        box.addWidget(self.line)
        self.hold(picture, self.canvas, self.twin)

    # --- rows -------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Ask for the rows anew, draw what has changed, and show what is chosen."""
        self.desk.ask(facts_of(self._bridge), self._by)
        self.show_selection(self._bridge.selection)

    def _take(self, laid: LaidWeek) -> None:
        """Show new rows, once the pointer is not about to click on what would move away."""
        if laid.week.by is not self._by:
            return
        if laid.week == self._laid.week:
            self._laid = laid
            return
        self._waiting = laid
        if laid.week.by is self._laid.week.by and self.canvas.is_pointed_at():
            self._again.start()
        else:
            self._show_at_once()

    def _show_waiting(self) -> None:
        if self.canvas.is_pointed_at():
            self._again.start()
        else:
            self._show_at_once()

    def _show_at_once(self) -> None:
        self._again.stop()
        waiting, self._waiting = self._waiting, None
        if waiting is not None:
            self._show(waiting)
            self.show_selection(self._bridge.selection)

    def _show(self, laid: LaidWeek) -> None:
        is_other = laid.week.by is not self._laid.week.by
        is_first = not self._laid.week.bars and bool(laid.week.bars)
        self._laid = laid
        self.canvas.show_week(laid.week, laid.facts.build)
        self.table.show_rows(laid.rows)
        words = letters_words(laid.week)
        self.letters.setText(words)
        self.letters.setVisible(bool(words))
        self.head.show_laying(self._by, has_promise=laid.week.has_promise)
        key = self.canvas.hands.here or self.chosen_key()
        if is_first:
            self.canvas.open_at_now()
        elif is_other and key:
            self.canvas.reveal(key)

    @abstractmethod
    def chosen_key(self) -> str:
        """Return the block that holds what is chosen; empty where the week does not show it."""
        ...

    def lay(self, by: By) -> None:
        """Lay the week by person, by bath and rack, or by build."""
        self._by = by
        self.desk.ask(facts_of(self._bridge), by)
        self.announce(self.tr("The week {0}").format(self.tr(by.value)))

    @property
    def week(self) -> Week:
        """The rows that are shown."""
        return self._laid.week

    # --- the present ------------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._move_now()
        self._beat.start()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._beat.stop()
        self._show_at_once()

    def _move_now(self) -> None:
        self.canvas.show_now(self._bridge.clock.now())
