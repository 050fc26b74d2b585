"""The bar under a picture that is played: back, on, by itself, and what happens in words."""

from collections.abc import Callable

from PySide6.QtCore import QRect, Qt, QTimer, Signal
from PySide6.QtGui import QHideEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from armorplan.desktop.widgets.announcing import announce
from armorplan.practice.drill import Frame

STEP_MS = 2600
"""Long enough to read a sentence before the next picture."""
BUTTON_PX = 36
MANY_PX = 10_000


class PlayBar(QWidget):
    """Steps through frames; ``shown`` carries the one to be seen, ``left`` that the play is over."""

    shown = Signal(object)
    left = Signal()

    def __init__(self, is_calm: Callable[[], bool], parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("drill_play")
        self._is_calm = is_calm
        self._frames: tuple[Frame, ...] = ()
        self._at = 0
        self._timer = QTimer(self)
        self._timer.setInterval(STEP_MS)
        self._timer.timeout.connect(self._run_on)
        self.said = QLabel(self)
        self.back = QPushButton("◀", self)
        self.run = QPushButton(self)
        self.on = QPushButton("▶", self)
        self.end = QPushButton(self.tr("Close"), self)
        self._lay_out()
        self.back.clicked.connect(lambda: self.turn(-1))
        self.on.clicked.connect(lambda: self.turn(1))
        self.run.clicked.connect(self.hold)
        self.end.clicked.connect(self.left)
        self.hide()

    def _lay_out(self) -> None:
        self.said.setObjectName("drill_play_said")
        self.said.setWordWrap(True)
        self.said.setAlignment(Qt.AlignmentFlag.AlignTop)
        named = {
            self.back: ("drill_play_back", self.tr("Picture before: Left")),
            self.run: ("drill_play_run", self.tr("Play by itself, or stop: Space")),
            self.on: ("drill_play_on", self.tr("Next picture: Right")),
            self.end: ("drill_play_end", self.tr("Close the pictures: Escape")),
        }
        foot = QHBoxLayout()
        for button, (name, words) in named.items():
            button.setObjectName(name)
            button.setToolTip(words)
            button.setAccessibleName(words)
            button.setAutoDefault(False)
            button.setMinimumSize(BUTTON_PX, BUTTON_PX)
            foot.addWidget(button)
        foot.addStretch(1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self.said)
        whole.addLayout(foot)

    def begin(self, frames: tuple[Frame, ...]) -> None:
        """Show the first of the frames, and go on by itself unless one wants it calm."""
        self._frames = frames
        self._at = 0
        self.show()
        self._keep_room()
        self._tell()
        if not self._is_calm() and len(frames) > 1:
            self._timer.start()
        self._mind()

    def _keep_room(self) -> None:
        """Keep room for the longest sentence: the picture does not change its size on the way."""
        room = QRect(0, 0, max(self.width(), 1), MANY_PX)
        flags = int(Qt.TextFlag.TextWordWrap)
        metrics = self.said.fontMetrics()
        sentences = (self._sentence(at) for at in range(len(self._frames)))
        high = (metrics.boundingRect(room, flags, text).height() for text in sentences)
        self.said.setMinimumHeight(max(high, default=0))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._keep_room()

    def hideEvent(self, event: QHideEvent) -> None:
        """Nothing goes on by itself where nobody can see it."""
        self._timer.stop()
        super().hideEvent(event)

    def stop(self) -> None:
        """Play no more."""
        self._timer.stop()
        self._frames = ()
        self.hide()

    def has_keys(self) -> bool:
        """Tell whether one of its buttons has the keyboard."""
        return any(button.hasFocus() for button in (self.back, self.run, self.on, self.end))

    def set_pace(self, step_ms: int) -> None:
        """Have each picture stand so long where it goes by itself."""
        self._timer.setInterval(step_ms)

    @property
    def is_running(self) -> bool:
        """Tell whether it goes on by itself."""
        return self._timer.isActive()

    def turn(self, by: int) -> None:
        """Go to another picture by hand; from then on it goes by hand alone."""
        self._timer.stop()
        self._go(self._at + by)

    def hold(self) -> None:
        """Stop; or go on by itself, from the beginning where it was over. Calm: one picture on."""
        if self.is_running:
            self._timer.stop()
        elif self._is_calm():
            self._go(self._at + 1)
        else:
            if self._at == len(self._frames) - 1:
                self._go(0)
            self._timer.start()
        self._mind()

    def _run_on(self) -> None:
        self._go(self._at + 1)
        if self._at >= len(self._frames) - 1:
            self._timer.stop()
            self._mind()

    def _go(self, at: int) -> None:
        to = min(max(at, 0), len(self._frames) - 1)
        if self._frames and to != self._at:
            self._at = to
            self._tell()
        self._mind()

    def _tell(self) -> None:
        self.said.setText(self._sentence(self._at))
        announce(self.said, self.said.text())
        self.shown.emit(self._frames[self._at])

    def _sentence(self, at: int) -> str:
        place = self.tr("Picture {0} of {1}").format(at + 1, len(self._frames))
        return f"{place}: {self._frames[at].said}"

    def _mind(self) -> None:
        """The button that has the keyboard stays: taken away from it, the keys would go astray."""
        last = len(self._frames) - 1
        for button, can in ((self.back, self._at > 0), (self.on, self._at < last)):
            button.setEnabled(can or button.hasFocus())
        self.run.setVisible(not self._is_calm())
        self.run.setText(self.tr("Stop") if self.is_running else self.tr("Play"))
