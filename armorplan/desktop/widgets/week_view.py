"""The coming days: who does what when, what dries through the night, and the same as a table."""

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QHeaderView, QLabel, QSizePolicy, QTableView, QVBoxLayout, QWidget

from armorplan.app.rows import Selection
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.twin_model import TwinModel
from armorplan.desktop.week_words import block_sentence, week_rows
from armorplan.desktop.widgets.picture_pane import PicturePane
from armorplan.desktop.widgets.week_canvas import WeekCanvas

_STEP = 2
_STEP_LETTERS = 34
"""So much of a title is read before the table has to be moved sideways for what follows it."""
NOW_MS = 20_000
"""The line of the present moves less than a pixel in this time at any zoom one works in."""


class WeekView(PicturePane):
    """Shows the coming days and tells the bridge which steps are chosen."""

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__("week_view", self._choose_key, parent)
        self._bridge = bridge
        self._chart = bridge.session.chart()
        self.canvas = WeekCanvas(self._chart, self)
        self.canvas.setObjectName("week_canvas")
        self.canvas.setAccessibleName(self.tr("The coming days"))
        self.canvas.setAccessibleDescription(
            self.tr(
                "Arrow keys walk between the steps, Page Down goes through them in time, Enter "
                "chooses, Escape chooses nothing. Plus and minus zoom from hours to days, zero "
                "shows all days, Shift with arrows moves the days."
            )
        )
        self._line = QLabel(self)
        self._line.setObjectName("week_line")
        self._line.setTextFormat(Qt.TextFormat.PlainText)
        self._line.setMargin(4)
        self._line.setWordWrap(True)
        self._line.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        picture = QWidget(self)
        picture.setFocusProxy(self.canvas)
        box = QVBoxLayout(picture)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(0)
        box.addWidget(self.canvas, 1)
        box.addWidget(self._line)
        self.twin_model = TwinModel(
            (
                self.tr("Start"),
                self.tr("End"),
                self.tr("Step"),
                self.tr("Who"),
                self.tr("State"),
                self.tr("When it is dry"),
            ),
            self,
        )
        self.twin = self._table()
        self.hold(picture, self.canvas, self.twin)
        self.canvas.hands.chosen.connect(self._choose_key)
        self.canvas.hands.walked.connect(self._walked)
        self.canvas.hands.pointed.connect(self._say)
        self._beat = QTimer(self, interval=NOW_MS, timerType=Qt.TimerType.VeryCoarseTimer)
        self._beat.timeout.connect(self._move_now)
        self.watch(bridge)
        bridge.opened.connect(self.canvas.open_at_now)
        self.twin_model.show(week_rows(self._chart))
        self.show_selection(bridge.selection)

    def _table(self) -> QTableView:
        table = QTableView(self)
        table.setObjectName("week_table")
        table.setAccessibleName(self.tr("The coming days as a table"))
        table.setModel(self.twin_model)
        table.setSelectionBehavior(QTableView.SelectionBehavior.SelectRows)
        table.setSelectionMode(QTableView.SelectionMode.ExtendedSelection)
        table.setTabKeyNavigation(False)
        table.setWordWrap(False)
        table.verticalHeader().hide()
        heading = table.horizontalHeader()
        heading.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        heading.setSectionResizeMode(_STEP, QHeaderView.ResizeMode.Interactive)
        heading.resizeSection(_STEP, _STEP_LETTERS * table.fontMetrics().averageCharWidth())
        return table

    def refresh(self) -> None:
        """Ask for the rows anew and draw what has changed."""
        chart = self._bridge.session.chart()
        if chart != self._chart:
            self._chart = chart
            self.canvas.show_chart(chart)
            self.twin_model.show(week_rows(chart))
        self.show_selection(self._bridge.selection)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._move_now()
        self._beat.start()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._beat.stop()

    def _move_now(self) -> None:
        self.canvas.show_now(self._bridge.clock.now())

    def _choose_key(self, key: str) -> None:
        """Choose a block's steps; a row of the table is a single step of its block."""
        block = self.canvas.geometry_now.blocks.get(key)
        single = self.twin.hasFocus()
        self._bridge.choose_steps(block.steps if block and not single else (key,) if key else ())

    def _walked(self, key: str) -> None:
        self._say(key)
        self.announce(self._line.text())

    def _say(self, key: str) -> None:
        geometry = self.canvas.geometry_now
        key = key or self.canvas.hands.here or self._chosen_key()
        block = geometry.blocks.get(key)
        hint = self.tr("Choose a step to read it here.") if self._chart.bars else (
            self.tr("Nothing is planned yet."))  # fmt: skip
        self._line.setText(block_sentence(block, geometry.zone) if block else hint)

    def _chosen_key(self) -> str:
        steps = self._bridge.selection.steps
        return self.canvas.geometry_now.key_of_step(steps[0]) if steps else ""

    def show_selection(self, selection: Selection) -> None:
        """Show what is chosen."""
        self.canvas.light(frozenset(selection.steps))
        self.follow(selection.steps)
        key = self._chosen_key()
        self._say(key)
