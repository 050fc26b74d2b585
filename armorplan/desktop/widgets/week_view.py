"""The week of all builds: who does what when, what dries through the night, and the same as a table."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from armorplan.app.rows import Selection
from armorplan.app.week_rows import By, WeekBar
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.week_layout import Block
from armorplan.desktop.week_words import block_sentence
from armorplan.desktop.widgets.week_pane import WeekPane
from armorplan.desktop.widgets.week_saver import WeekSaver
from armorplan.desktop.widgets.window_actions import Slot

_NEXT = {By.PERSON: By.PLACE, By.PLACE: By.BUILD, By.BUILD: By.PERSON}


class WeekView(WeekPane):
    """Shows the week and tells the bridge which steps are chosen.

    ``opening`` carries the id of another build that is to be opened, and a step of it; ``kept``
    what was said of the plan that was to be kept as promised.
    """

    opening = Signal(str, str)
    kept = Signal(str)

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(bridge, self._choose_key, parent)
        self._foreign = ""
        self._seen: tuple[str, ...] = bridge.selection.steps
        self._told = ""
        """The block that the line below speaks of."""
        self.saver = WeekSaver(bridge, self)
        self._listen()
        self.watch(bridge)
        bridge.opened.connect(self._begin)
        bridge.acted.connect(self._show_at_once)
        self._show(self._laid)
        self.show_selection(bridge.selection)

    def _listen(self) -> None:
        hands = self.canvas.hands
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

    def _begin(self) -> None:
        self._foreign = ""
        self._show_at_once()
        self.canvas.open_at_now()

    def end_jobs(self) -> None:
        """Wait for what is still being laid or written."""
        self.desk.close()
        self.saver.end_jobs()

    def lay_otherwise(self) -> None:
        """Lay the week the next way."""
        self.lay(_NEXT[self._by])

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
        words = self._bridge.session.keep_promise()
        self._bridge.said.emit(words)
        self.kept.emit(words)

    def save(self) -> None:
        """Ask for a file and write the week, as it is laid now, as a picture."""
        self.saver.ask_file(self._laid.week, compares=self.head.promised.isChecked())

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
        foreign = _foreign_of(self._block(key), key if self.twin.hasFocus() else "")
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
        key = key or self._foreign or self.canvas.hands.here or self.chosen_key()
        self._told, block = key, self._block(key)
        if block is None:
            self.line.show_hint(is_empty=not self._laid.week.bars)
            return
        lane = next(lane.of for lane in geometry.lanes if lane.of.id == block.bars[0].lane)
        foreign = _foreign_of(block)
        chosen = frozenset(self._bridge.selection.steps)
        words = block_sentence(block, lane, geometry.zone, chosen=chosen)
        self.line.show_words(words, foreign.build_title if foreign else "")

    def chosen_key(self) -> str:
        steps = self._bridge.selection.steps
        return self.canvas.geometry_now.key_of_step(steps[0]) if steps else ""

    def show_selection(self, selection: Selection) -> None:
        """Show what is chosen; what was chosen elsewhere is brought into view once."""
        if selection.steps:
            self._foreign = ""
        self.canvas.light(frozenset(selection.steps))
        self.follow(self.table.keys_of(self._laid.week, selection.steps))
        key = self.chosen_key()
        self._say(key)
        if selection.steps != self._seen and key and not self.canvas.hasFocus():
            self.canvas.reveal(key)
        self._seen = selection.steps


def _foreign_of(block: Block | None, row: str = "") -> WeekBar | None:
    """Return the first bar of a block that is all of other builds; ``None`` for any other block.

    Of a row of the table only that one bar counts.
    """
    bars = [bar for bar in block.bars if not row or bar.key == row] if block else []
    return bars[0] if bars and all(bar.build for bar in bars) else None
