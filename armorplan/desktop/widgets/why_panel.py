"""Why the chosen step stands where it stands: what it waits for, and what waits for it."""

from contextlib import suppress

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPalette, QPen, QShowEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QLabel,
    QScrollArea,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.help_pages import RULE
from armorplan.app.rows import BenchState, Selection, Why, WhyLine
from armorplan.desktop.bridge import Bridge, Questioned
from armorplan.desktop.glyphs import paint_state
from armorplan.desktop.keepsake_words import at_step_words, step_about
from armorplan.desktop.theme import colours_of
from armorplan.desktop.why_words import Group, grouped, held_words, met_words
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.state_mark import StateMark
from armorplan.desktop.widgets.turned_away import is_turned_away
from armorplan.desktop.widgets.why_line import Says, WhyGroup, prose
from armorplan.kernel.errors import WorkshopError

PAD_PX = 10


class Caution(QFrame):
    """The usual cautions in a box with a warning sign, its word, and a frame."""

    def __init__(self, cautions: tuple[str, ...], parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("why_cautions")
        self.setAccessibleName(self.tr("Caution"))
        self.setAccessibleDescription(" ".join(cautions))
        box = QVBoxLayout(self)
        box.setContentsMargins(self._sign_px() + 2 * PAD_PX, PAD_PX, PAD_PX, PAD_PX)
        box.setSpacing(3)
        word = prose(self.tr("Caution"), self)
        font = word.font()
        font.setBold(True)
        word.setFont(font)
        box.addWidget(word)
        for caution in cautions:
            box.addWidget(prose(caution, self))

    def _sign_px(self) -> int:
        return round(self.fontMetrics().height() * 1.5)

    def paintEvent(self, event: QPaintEvent) -> None:
        colours = colours_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(colours.alarm), 1.6))
        painter.setBrush(QColor(colours.stripe))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 6, 6)
        side = self._sign_px()
        sign = QRectF(PAD_PX, PAD_PX, side, side)
        paint_state(painter, sign, BenchState.EARLY, colours.alarm)
        painter.end()


class WhyPanel(QScrollArea):
    """Shows the reasons of the first chosen step; a line leads to the other step.

    ``reckoned`` carries the code of a rule of which one wants to see the numbers.
    """

    reckoned = Signal(str)

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("why_panel")
        self.setAccessibleName(self.tr("Why this order"))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._bridge = bridge
        self._why: Why | None = None
        self._kept = ""
        self._page: QWidget | None = None
        bridge.changed.connect(self.refresh)
        bridge.selected.connect(self._show_selection)
        self._build(None, 0)

    def refresh(self) -> None:
        """Ask for the reasons anew and show what has changed, keeping the place."""
        self._show_selection(self._bridge.selection)

    def _show_selection(self, selection: Selection) -> None:
        """Tell the reasons of what is chosen; put away, it waits until it is shown again."""
        if self.isHidden() or is_turned_away(self):
            return
        why = self._bridge.session.why(selection.steps[0]) if selection.steps else None
        others = max(len(selection.steps) - 1, 0)
        same = why is not None and self._why is not None and why.step == self._why.step
        at = self.verticalScrollBar().value() if same else 0
        kept = self._kept_of(why)
        if why == self._why and kept == self._kept and self._page is not None:
            return
        if self._why is not None and why is not None and not same:
            announce(self, why.title)
        self._why, self._kept = why, kept
        self._build(why, others)
        self.verticalScrollBar().setValue(at)

    def _kept_of(self, why: Why | None) -> str:
        """Say what is kept of a step; what cannot be read is told where it is kept."""
        with suppress(WorkshopError):
            kept = self._bridge.session.keepsakes
            return at_step_words(kept.all(step_about(why.step))) if why else ""
        return ""

    # --- building ---------------------------------------------------------------------------

    def _build(self, why: Why | None, others: int) -> None:
        page = QWidget()
        page.setObjectName("why_page")
        page.setAutoFillBackground(True)
        page.setBackgroundRole(QPalette.ColorRole.Base)
        box = QVBoxLayout(page)
        box.setContentsMargins(PAD_PX, PAD_PX, PAD_PX, PAD_PX)
        box.setSpacing(6)
        if why is None:
            self._add_hint(box, page)
        else:
            self._add_step(box, page, why, others)
        box.addStretch(1)
        focus = QApplication.focusWidget()
        held = self._page is not None and focus is not None and self._page.isAncestorOf(focus)
        # A line of the old page may be the one that was just pressed: it goes after the press.
        old = self.takeWidget()
        if old is not None:
            old.hide()
            old.deleteLater()
        self._page = page
        self.setWidget(page)
        if held:
            self.setFocus()

    def _add_hint(self, box: QVBoxLayout, page: QWidget) -> None:
        hint = self.tr(
            "Nothing is chosen. Choose a step in the checklist or in the coming days, or a part "
            "or fastener in the diagram, and read here why it stands where it stands."
        )
        label = prose(hint, page)
        label.setObjectName("why_hint")
        box.addWidget(label)

    def _add_step(self, box: QVBoxLayout, page: QWidget, why: Why, others: int) -> None:
        title = _heading(why.title, page, 1.2)
        title.setObjectName("why_title")
        box.addWidget(title)
        mark = StateMark(page)
        mark.setObjectName("why_state")
        mark.show_state(why.state)
        box.addWidget(mark)
        if others:
            more = self.tr("The first of {n} chosen steps.").format(n=others + 1)
            box.addWidget(prose(more, page, small=True))
        if why.cautions:
            box.addWidget(Caution(why.cautions, page))
        if why.detail:
            box.addWidget(prose(why.detail, page))
        if self._kept:
            kept = prose(self._kept, page)
            kept.setObjectName("why_kept")
            box.addWidget(kept)
        waits = (self.tr("Waits for"), self.tr("It waits for nothing."), met_words)
        holds = (self.tr("Holds up"), self.tr("Nothing waits for it."), held_words)
        for (heading, none, says), lines in ((waits, why.needs), (holds, why.holds_up)):
            box.addSpacing(4)
            box.addWidget(_heading(heading, page, 1.0))
            if not lines:
                box.addWidget(prose(none, page))
            self._add_groups(box, page, lines, says)

    def _add_groups(
        self, box: QVBoxLayout, page: QWidget, lines: tuple[WhyLine, ...], says: Says
    ) -> None:
        """Add the reasons; those that others already see to are folded away."""
        groups = grouped(lines)
        folded = [group for group in groups if group.first.also]
        for group in groups:
            if not group.first.also:
                box.addWidget(self._group(group, says, page))
        if not folded:
            return
        fold = QToolButton(page)
        fold.setText(self.tr("Follows from these as well: {n}").format(n=len(folded)))
        fold.setCheckable(True)
        fold.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        fold.setArrowType(Qt.ArrowType.RightArrow)
        fold.setAutoRaise(True)
        inner = QWidget(page)
        rest = QVBoxLayout(inner)
        rest.setContentsMargins(PAD_PX, 0, 0, 0)
        for group in folded:
            rest.addWidget(self._group(group, says, inner))
        inner.hide()
        fold.toggled.connect(inner.setVisible)
        fold.toggled.connect(
            lambda out: fold.setArrowType(
                Qt.ArrowType.DownArrow if out else Qt.ArrowType.RightArrow
            )
        )
        box.addWidget(fold)
        box.addWidget(inner)

    def _group(self, group: Group, says: Says, parent: QWidget) -> WhyGroup:
        shown = WhyGroup(group, says, parent)
        shown.gone_to.connect(self._go)
        shown.asked_for.connect(lambda code: self._bridge.help_wanted.emit(f"{RULE}{code}"))
        shown.reckoned.connect(self.reckoned)
        shown.questioned.connect(self._question)
        return shown

    def _question(self, rule: str, other: str) -> None:
        if self._why is not None:
            asked = Questioned(rule=rule, step=self._why.step, other=other)
            self._bridge.questioned.emit(asked)

    def _go(self, step: str) -> None:
        self._bridge.choose_steps((step,))

    # --- events -----------------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.refresh()

    def sizeHint(self) -> QSize:
        return QSize(360, 240)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange and self._page is not None:
            steps = self._bridge.selection.steps
            self._build(self._why, max(len(steps) - 1, 0))


def _heading(text: str, parent: QWidget, share: float) -> QLabel:
    label = prose(text, parent)
    font = label.font()
    font.setBold(True)
    font.setPointSizeF(font.pointSizeF() * share)
    label.setFont(font)
    return label
