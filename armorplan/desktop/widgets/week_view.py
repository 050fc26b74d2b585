"""The week of all builds: who does what when, what dries through the night, and the same as a table."""

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from armorplan.app.rows import Selection
from armorplan.app.week_rows import By, Week, WeekBar
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.week_desk import LaidWeek, WeekDesk, facts_of, laid_week
from armorplan.desktop.week_layout import Block
from armorplan.desktop.week_words import block_sentence
from armorplan.desktop.widgets.picture_pane import PicturePane
from armorplan.desktop.widgets.week_canvas import WeekCanvas
from armorplan.desktop.widgets.week_head import WeekHead
from armorplan.desktop.widgets.week_line import WeekLine
from armorplan.desktop.widgets.week_saver import WeekSaver
from armorplan.desktop.widgets.week_table import WeekTable
from armorplan.desktop.widgets.window_actions import Slot

NOW_MS = 20_000
"""The line of the present moves less than a pixel in this time at any zoom one works in."""
AGAIN_MS = 300
"""So soon it is looked again whether the pointer has come to rest."""
_NEXT = {By.PERSON: By.PLACE, By.PLACE: By.BUILD, By.BUILD: By.PERSON}


class WeekView(PicturePane):
    """Shows the week and tells the bridge which steps are chosen.

    ``opening`` carries the id of another build that is to be opened, and a step of it.
    """

    opening = Signal(str, str)

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__("week_view", self._choose_key, parent)
        self._bridge = bridge
        self._by = By.PERSON
        self._laid = laid_week(facts_of(bridge), self._by)
        self._waiting: LaidWeek | None = None
        self._foreign = ""
        self._told = ""
        """The block that the line below speaks of."""
        self.desk = WeekDesk(self)
        self.saver = WeekSaver(bridge, self)
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
        self.line = WeekLine(self)
        self.table = WeekTable(self)
        self.twin, self.twin_model = self.table, self.table.rows
        self._lay_out()
        self._listen()
        self._beat = QTimer(self, interval=NOW_MS)
        self._beat.timeout.connect(self._move_now)
        self._again = QTimer(self, singleShot=True, interval=AGAIN_MS)
        self._again.timeout.connect(self._show_waiting)
        self.watch(bridge)
        bridge.opened.connect(self._begin)
        bridge.acted.connect(self._show_at_once)
        self._show(self._laid)
        self.show_selection(bridge.selection)

    def _lay_out(self) -> None:
        picture = QWidget(self)
        picture.setFocusProxy(self.canvas)
        box = QVBoxLayout(picture)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(0)
        box.addWidget(self.head)
        box.addWidget(self.canvas, 1)
        box.addWidget(self.line)
        self.hold(picture, self.canvas, self.twin)

    def _listen(self) -> None:
        hands = self.canvas.hands
        self.desk.laid.connect(self._take)
        self.desk.failed.connect(self._bridge.said.emit)
        hands.chosen.connect(self._choose_key)
        hands.walked.connect(self._walked)
        hands.pointed.connect(self._say)
        self.canvas.typed.connect(self._type)
        self.canvas.opened.connect(self._open_block)
        self.head.laid.connect(self.lay)
        self.head.saved.connect(self.save)
        self.head.days.connect(self.canvas.show_days)
        self.head.compared.connect(self.canvas.compare)
        self.line.open.clicked.connect(lambda: self._open_block(self._told))

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
        self.head.show_laying(self._by, has_promise=laid.week.has_promise)
        key = self.canvas.hands.here or self._chosen_key()
        if is_first:
            self.canvas.open_at_now()
        elif is_other and key:
            self.canvas.reveal(key)

    def lay(self, by: By) -> None:
        """Lay the week by person, by bath and rack, or by build."""
        self._by = by
        self.desk.ask(facts_of(self._bridge), by)
        self.announce(self.tr("The week {0}").format(self.tr(by.value)))

    def lay_otherwise(self) -> None:
        """Lay the week the next way."""
        self.lay(_NEXT[self._by])

    @property
    def week(self) -> Week:
        """The rows that are shown."""
        return self._laid.week

    def _begin(self) -> None:
        self._foreign = ""
        self._show_at_once()
        self.canvas.open_at_now()

    def end_jobs(self) -> None:
        """Wait for what is still being laid or written."""
        self.desk.close()
        self.saver.end_jobs()

    def slots(self) -> dict[str, Slot]:
        """Return what the actions about the week do, by their ids."""
        return {
            "lay_week": self.lay_otherwise,
            "compare_week": self.head.promised.click,
            "keep_promise": self.keep_promise,
            "save_week": self.save,
        }

    def keep_promise(self) -> None:
        """Keep the plan that is shown as the one that is promised."""
        self._bridge.said.emit(self._bridge.session.keep_promise())

    def save(self) -> None:
        """Ask for a file and write the week, as it is laid now, as a picture."""
        self.saver.ask_file(self._laid.week, compares=self.head.promised.isChecked())

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

    # --- choosing ---------------------------------------------------------------------------

    def _choose_key(self, key: str) -> None:
        """Choose a block's steps; a row of the table is a single step of its block.

        What is all another build's is only told at first; chosen once more, its build is opened.
        """
        geometry = self.canvas.geometry_now
        block = geometry.blocks.get(geometry.key_of_bar(key))
        single = self.twin.hasFocus()
        bars = [b for b in block.bars if b.key == key or not single] if block else []
        own = tuple(
            dict.fromkeys(b.step for b in bars if not b.build and self._laid.facts.knows(b))
        )
        if bars and not own:
            self._choose_foreign(key)
            return
        self._foreign = ""
        self._bridge.choose_steps(own)
        self._say("")

    def _choose_foreign(self, key: str) -> None:
        if self._foreign == key:
            self._open_block(key)
            return
        self._foreign = key
        self._say(key)
        self.announce(self.line.text())

    def _open_block(self, key: str) -> None:
        """Open the build of a block, where that is another one."""
        foreign = _foreign_of(self._block(key))
        if foreign is not None:
            self.opening.emit(foreign.build, foreign.step)

    def _type(self, letter: str) -> None:
        if letter == "l":
            self.lay_otherwise()
        elif letter == "c":
            self.head.promised.click()
        else:
            self._open_block(self._foreign or self.canvas.hands.here)

    def _walked(self, key: str) -> None:
        self._say(key)
        self.announce(self.line.text())

    def _block(self, key: str) -> Block | None:
        geometry = self.canvas.geometry_now
        return geometry.blocks.get(geometry.key_of_bar(key))

    def _say(self, key: str) -> None:
        geometry = self.canvas.geometry_now
        key = key or self._foreign or self.canvas.hands.here or self._chosen_key()
        self._told, block = key, self._block(key)
        if block is None:
            self.line.show_hint(is_empty=not self._laid.week.bars)
            return
        lane = next(lane.of for lane in geometry.lanes if lane.of.id == block.bars[0].lane)
        foreign = _foreign_of(block)
        chosen = frozenset(self._bridge.selection.steps)
        words = block_sentence(block, lane, geometry.zone, chosen=chosen)
        self.line.show_words(words, foreign.build_title if foreign else "")

    def _chosen_key(self) -> str:
        steps = self._bridge.selection.steps
        return self.canvas.geometry_now.key_of_step(steps[0]) if steps else ""

    def show_selection(self, selection: Selection) -> None:
        """Show what is chosen."""
        if selection.steps:
            self._foreign = ""
        self.canvas.light(frozenset(selection.steps))
        self.follow(self.table.keys_of(self._laid.week, selection.steps))
        self._say(self._chosen_key())


def _foreign_of(block: Block | None) -> WeekBar | None:
    """Return the first bar of a block that is all of other builds; ``None`` for any other block."""
    bars = block.bars if block else ()
    return bars[0] if bars and all(bar.build for bar in bars) else None
