"""Where bringing in a drawing begins: choose or drop a file, or go on with what was begun."""

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from armorplan.desktop.bring_kept import Begun
from armorplan.desktop.widgets.way_back_lists import TARGET_PX, heading_font
from armorplan.kernel.shipped import samples_folder

WIDE_PX = 460


def sample_drawing() -> Path:
    """Return the sample drawing that is there to be brought in."""
    return samples_folder() / "watch_parts" / "watch_parts.svg"


class BringStart(QWidget):
    """``asked`` asks for a file, ``resumed`` carries what was begun, ``dropped`` says it is not wanted."""

    asked = Signal()
    resumed = Signal(object)
    dropped = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_start")
        self._begun: Begun | None = None
        self._heading = QLabel(self.tr("Bring in a drawing"), self)
        self._told = QLabel(
            self.tr(
                "Choose an SVG or DXF file, or drop one here: lines made for a cutter or a "
                "printer. What they mean is suggested and asked, one "
                "question at a time; then it is written as a pattern of its own. The file itself "
                "is not changed."
            ),
            self,
        )
        self.choose = self._button("bring_choose", self.tr("&Choose a drawing …"))
        self.resume = self._button("bring_resume", self.tr("&Go on"))
        self.sample = self._button("bring_sample", self.tr("&Try it with the sample drawing"))
        self.drop = self._button("bring_drop", self.tr("&Forget it"))
        self.said = QLabel(self)
        self.choose.clicked.connect(self.asked)
        self.resume.clicked.connect(self._resume)
        self.drop.clicked.connect(self.dropped)
        self.sample.setToolTip(
            self.tr("Twenty parts of the lantern watch without a word, in inches")
        )
        self.sample.clicked.connect(lambda: self.resumed.emit(Begun(file=sample_drawing())))
        self._lay_out()
        self.show_begun(None)
        self.say("")

    def _button(self, name: str, text: str) -> QPushButton:
        button = QPushButton(text, self)
        button.setObjectName(name)
        button.setMinimumHeight(TARGET_PX)
        button.setAutoDefault(True)
        return button

    def _lay_out(self) -> None:
        self._heading.setFont(heading_font(self.font()))
        self.said.setObjectName("bring_start_said")
        whole = QVBoxLayout(self)
        whole.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        whole.addStretch(1)
        for widget in (
            self._heading,
            self._told,
            self.said,
            self.resume,
            self.choose,
            self.sample,
            self.drop,
        ):
            widget.setMaximumWidth(WIDE_PX)
            widget.setMinimumWidth(WIDE_PX)
            if isinstance(widget, QLabel):
                widget.setWordWrap(True)
            whole.addWidget(widget)
        whole.addStretch(2)

    def show_begun(self, begun: Begun | None) -> None:
        """Offer to go on with what was begun and left, where something was."""
        self._begun = begun
        for button in (self.resume, self.drop):
            button.setVisible(begun is not None)
        if begun is None:
            self.choose.setFocus()
            return
        text = self.tr("&Go on with {file}: {count} answered")
        self.resume.setText(text.format(file=begun.file.name, count=len(begun.answers)))
        self.resume.setToolTip(str(begun.file))
        self.resume.setFocus()

    def say(self, sentence: str) -> None:
        """Say why a drawing was not read; an empty text says nothing."""
        self.said.setText(sentence)
        self.said.setVisible(bool(sentence))

    def _resume(self) -> None:
        if self._begun is not None:
            self.resumed.emit(self._begun)
