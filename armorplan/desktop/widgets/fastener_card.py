"""A card on the chosen fastener: its layers from outside in, its step, and what waits for it."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QLabel, QSizePolicy, QVBoxLayout, QWidget

from armorplan.app.rows import BenchState, DiagramJoint, Why
from armorplan.desktop.glyphs import state_word
from armorplan.desktop.part_words import stack_words
from armorplan.desktop.picture_colours import leather
from armorplan.desktop.stack_words import stack_sentence
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.checklist_delegate import small_font
from armorplan.desktop.widgets.stack_painting import StackSketch
from armorplan.desktop.widgets.state_mark import StateMark
from armorplan.geometry.pictures import StackPicture

CARD_PX = 292
CARD_LINES = 16
"""With large text the card is so many lines wide."""
LEAST_LINES = 12
"""However narrow the picture is, the card is so many lines wide."""
SLAB_PX = 84
MOST_WAITING = 2
SECTION_SCALE = 5.0
"""Pixels to the mm of a section drawn to scale."""


class StackSection(QWidget):
    """The layers of which no stack is reckoned, the outermost on top: glued, stitched, laced."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._joint: DiagramJoint | None = None
        self._kinds: tuple[str, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_joint(self, joint: DiagramJoint, kinds: tuple[str, ...]) -> None:
        """Show a fastener's stack; ``kinds`` are the kinds of part, layer by layer."""
        self._joint, self._kinds = joint, kinds
        self.setAccessibleName(stack_words(joint))
        self.updateGeometry()
        self.update()

    def _row_px(self) -> int:
        return self.fontMetrics().height() + 4

    def sizeHint(self) -> QSize:
        layers = len(self._joint.stack) if self._joint else 0
        return QSize(CARD_PX - 24, self._row_px() * layers + 20)

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._joint is None:
            return
        colours = colours_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        row, top = self._row_px(), 10.0
        for place, name in enumerate(self._joint.stack):
            slab = QRectF(1, top + place * row, SLAB_PX, row - 2)
            kind = self._kinds[place] if place < len(self._kinds) else ""
            painter.setPen(QPen(QColor(colours.edge), 1.2))
            painter.setBrush(QColor(leather(colours, kind, len(self._joint.stack) - place)))
            painter.drawRect(slab)
            painter.setPen(QColor(colours.text))
            room = QRectF(SLAB_PX + 10, slab.top(), self.width() - SLAB_PX - 10, slab.height())
            text = self.fontMetrics().elidedText(
                name, Qt.TextElideMode.ElideRight, int(room.width())
            )
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, text)
        self._paint_fastener(painter, row * len(self._joint.stack))
        painter.end()

    def _paint_fastener(self, painter: QPainter, deep: float) -> None:
        colours = colours_of(self.palette())
        middle, post, cap = 1 + SLAB_PX / 2, 8.0, 30.0
        painter.setPen(QPen(QColor(colours.edge), 1.4))
        painter.setBrush(QColor(colours.bar))
        painter.drawRect(QRectF(middle - post / 2, 8, post, deep + 2))
        for y, rise in ((10.0, -8.0), (8 + deep, 8.0)):
            flat = QRectF(middle - cap / 2, min(y, y + rise), cap, abs(rise))
            painter.drawChord(
                QRectF(flat.left(), y - abs(rise), cap, 2 * abs(rise)),
                0 if rise < 0 else 180 * 16,
                180 * 16,
            )
        if self._joint is not None and not self._joint.head_mm:
            painter.drawPoint(QPointF(middle, 10))


class FastenerCard(QFrame):
    """Shown in a corner of the diagram while one fastener is chosen."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("fastener_card")
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAutoFillBackground(True)
        self._most_px = CARD_PX
        self._name = QLabel(self)
        font = self._name.font()
        font.setBold(True)
        self._name.setFont(font)
        self._section = StackSection(self)
        self._sketch = StackSketch(SECTION_SCALE, CARD_PX - 24, self)
        self._mark = StateMark(self)
        self._step = QLabel(self)
        self._waiting = QLabel(self)
        self._box = box = QVBoxLayout(self)
        box.setContentsMargins(10, 8, 10, 8)
        box.setSpacing(4)
        for widget in (
            self._name,
            self._section,
            self._sketch,
            self._mark,
            self._step,
            self._waiting,
        ):
            box.addWidget(widget)
        for label in (self._name, self._step, self._waiting):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
        self.hide()

    def show_joint(
        self,
        joint: DiagramJoint,
        kinds: tuple[str, ...],
        why: Why | None,
        stack: StackPicture | None = None,
    ) -> None:
        """Show a fastener.

        ``why`` speaks of the step that sets it, ``stack`` is its section; either may be missing.
        """
        self._name.setText(joint.fastener)
        self._show_section(joint, kinds, stack)
        self._mark.show_state(joint.state)
        self._step.setText(why.title if why else self.tr("No step sets it."))
        self._waiting.setText(self._waiting_words(joint, why))
        self.setAccessibleName(self.tr("Chosen fastener"))
        told = (stack_sentence(stack),) if stack else ()
        self.setAccessibleDescription(" ".join((self.sentence(joint, why), *told)))
        for label in (self._step, self._waiting):
            label.show()
        self._take_room()
        self.show()

    def keep_within(self, most_px: QSize) -> None:
        """Be no larger than this if it can be: the step, too, stands among the reasons.

        A narrow card has its section in smaller letters.
        """
        self._most_px = most_px.width()
        narrow = self._most_px < self._wide_px()
        self._sketch.setFont(small_font(self.font()) if narrow else self.font())
        self._take_room()
        for label in (self._waiting, self._step):
            if self.height() > most_px.height():
                label.hide()
                self._take_room()

    def _wide_px(self) -> int:
        return max(CARD_PX, CARD_LINES * self.fontMetrics().height())

    def _take_room(self) -> None:
        least = LEAST_LINES * self.fontMetrics().height()
        wide = max(min(self._wide_px(), self._most_px), least)
        self.setFixedWidth(wide)
        self._box.invalidate()
        self.resize(wide, self._box.totalHeightForWidth(wide))

    def _show_section(
        self, joint: DiagramJoint, kinds: tuple[str, ...], stack: StackPicture | None
    ) -> None:
        self._section.setVisible(stack is None)
        self._sketch.setVisible(stack is not None)
        if stack is None:
            self._section.show_joint(joint, kinds)
        else:
            self._sketch.show_picture(stack)

    def sentence(self, joint: DiagramJoint, why: Why | None) -> str:
        """Return the card in one sentence, as a screen reader speaks it."""
        step = why.title if why else self.tr("No step sets it.")
        return " ".join(
            (
                f"{joint.fastener}, {stack_words(joint)}.",
                f"{step}: {state_word(joint.state)}.",
                self._waiting_words(joint, why),
            )
        )

    def _waiting_words(self, joint: DiagramJoint, why: Why | None) -> str:
        titles = [line.other_title for line in why.holds_up if not line.met] if why else []
        if why is None or joint.state in (BenchState.DONE, BenchState.EARLY):
            return ""
        if not titles:
            return self.tr("Nothing waits for it.")
        shown = self.tr("Waits for it: {steps}").format(steps="; ".join(titles[:MOST_WAITING]))
        more = len(titles) - MOST_WAITING
        return shown + (self.tr(" and {n} more").format(n=more) if more > 0 else "")
