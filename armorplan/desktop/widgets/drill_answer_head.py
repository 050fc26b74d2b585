"""What an exercise asks and what is known: read from an arm's length, whatever the text's size."""

from html import escape

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QVBoxLayout, QWidget

from armorplan.desktop.practice_words import form_words, number_words
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.drill_cautions import CautionFold
from armorplan.desktop.widgets.drill_ring import KeyRing
from armorplan.practice.drill import Drill

ARM_MM = 700.0
"""An arm's length from the screen (common practice, no source)."""
MOST_HINT_PX = 1000
QUESTION_SHARE = 1.5
"""So much larger than other text is the question: it is read from an arm's length then."""


def question_font(font: QFont) -> QFont:
    """Return the font of a question beside text of this font."""
    larger = QFont(font)
    larger.setBold(True)
    if font.pixelSize() > 0:
        larger.setPixelSize(round(font.pixelSize() * QUESTION_SHARE))
    else:
        larger.setPointSizeF(font.pointSizeF() * QUESTION_SHARE)
    return larger


class QuestionHead(QWidget):
    """The title of what it is about, small, and the question in big type."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.about = QLabel(self)
        self.question = QLabel(self)
        for label, name in ((self.about, "drill_about"), (self.question, "drill_question")):
            label.setObjectName(name)
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.question.setFont(question_font(self.font()))
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(2)
        down.addWidget(self.about)
        down.addWidget(self.question)

    def show_drill(self, drill: Drill) -> None:
        """Show what an exercise asks."""
        about = self.tr("{0} \N{MIDDLE DOT} {1}").format(drill.title, number_words(drill.asked))
        self.about.setText(about)
        self.question.setText(drill.question)

    def say(self, sentence: str) -> None:
        """Show a sentence where there is no exercise."""
        self.about.setText("")
        self.question.setText(sentence)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.question.setFont(question_font(self.font()))


class GivenPane(QScrollArea):
    """What is known, line by line, what an answer is made of, the cautions; scrolled where long.

    ``changed`` says that it takes another height.
    """

    changed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("drill_given")
        self.setAccessibleName(self.tr("What is known"))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.viewport().setAutoFillBackground(False)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        KeyRing(self)
        self._drill: Drill | None = None
        self._within: QWidget | None = None
        self._wanted_px = MOST_HINT_PX

    def show_drill(self, drill: Drill | None) -> None:
        """Show what is known of an exercise; without one, nothing."""
        self._drill = drill
        old = self.takeWidget()
        if old is not None:
            old.deleteLater()
        self._within = None
        self.setVisible(drill is not None)
        if drill is not None:
            self._within = self._made(drill)
            self.setWidget(self._within)
            # It lies on the ground of the tab, whatever that is.
            self._within.setAutoFillBackground(False)
        self.changed.emit()

    def _made(self, drill: Drill) -> QWidget:
        within = QWidget()
        down = QVBoxLayout(within)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(4)
        # First: where what is known has to be scrolled, the line of cautions is still in sight.
        if drill.cautions:
            fold = CautionFold(drill.cautions, within)
            fold.turned.connect(self.changed)
            down.addWidget(fold)
        if drill.given:
            down.addWidget(_label(_lines(drill.given), within, "drill_known"))
        quiet = colours_of(self.palette()).quiet
        how = f'<span style="color:{quiet}">{escape(form_words(drill.form))}</span>'
        down.addWidget(_label(how, within, "drill_how"))
        down.addStretch(1)
        self.setAccessibleDescription(
            " ".join((drill.question, *drill.given, form_words(drill.form)))
        )
        return within

    def want(self, high_px: int) -> None:
        """Be so high where there is room, never higher; a window is not made larger for it."""
        self._wanted_px = high_px
        self.setMaximumHeight(high_px)
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        usual = super().sizeHint()
        return QSize(usual.width(), min(self._wanted_px, MOST_HINT_PX))

    def needs_px(self, wide_px: int) -> int:
        """Return how high all of it is in a width; nothing where it is not shown."""
        layout = self._within.layout() if self._within else None
        return layout.heightForWidth(max(wide_px, 1)) if layout else 0

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self.show_drill(self._drill)


def _lines(texts: tuple[str, ...]) -> str:
    return "<br>".join(f"\N{BULLET} {escape(text)}" for text in texts)


def _label(html: str, parent: QWidget, name: str) -> QLabel:
    label = QLabel(html, parent)
    label.setObjectName(name)
    label.setTextFormat(Qt.TextFormat.RichText)
    label.setWordWrap(True)
    return label
