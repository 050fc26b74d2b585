"""One reason of the 'why' panel: its state, the steps it speaks of, the sentence, the numbers."""

from typing import Protocol

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.mending import OF_WAYS
from armorplan.app.rows import BenchState, WhyLine
from armorplan.desktop.glyphs import paint_state
from armorplan.desktop.shapes_choice import RULE_TOPICS
from armorplan.desktop.theme import colours_of
from armorplan.desktop.why_words import (
    Group,
    aside_words,
    footnote,
    is_rule,
    met_words,
    rule_words,
    strength_words,
)
from armorplan.relations.model import OWN
from armorplan.rules.overruling import NEVER

MARK_SHARE = 0.8
PAD_PX = 8
LEAST_PX = 34
MOST_SHOWN = 4


class Says(Protocol):
    """Says in a word or two how another step stands to the chosen one."""

    def __call__(self, *, met: bool) -> str:
        """Return the word."""
        ...


class StepButton(QPushButton):
    """A step one can go to: by click, Space or Enter. Long titles wrap."""

    def __init__(self, line: WhyLine, word: str, parent: QWidget, *, ticks: bool = True) -> None:
        super().__init__(parent)
        self.step = line.other
        self._title = line.other_title
        met = BenchState.DONE if ticks else None  # one that waits no more need not be done
        self._mark = met if line.met else BenchState.WAITING
        self._word = word
        self.setObjectName(f"why_{line.other}")
        self.setAccessibleName(f"{line.other_title}, {word}")
        self.setAccessibleDescription(self.tr("Choose this step"))
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def _left(self) -> int:
        return PAD_PX * 2 + round(self.fontMetrics().height() * MARK_SHARE)

    def _met_px(self) -> int:
        return self.fontMetrics().horizontalAdvance(self._word) + 2 * PAD_PX

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        room = QRectF(0, 0, max(width - self._left() - self._met_px(), 60), 1000)
        box = self.fontMetrics().boundingRect(room.toRect(), Qt.TextFlag.TextWordWrap, self._title)
        return max(box.height() + PAD_PX, LEAST_PX)

    def sizeHint(self) -> QSize:
        return QSize(240, self.heightForWidth(max(self.width(), 240)))

    def minimumSizeHint(self) -> QSize:
        return QSize(120, self.heightForWidth(max(self.width(), 120)))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        colours = colours_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        busy = self.hasFocus() or self.underMouse() or self.isDown()
        painter.setPen(QColor(colours.focus if self.hasFocus() else colours.line))
        painter.setBrush(QColor(colours.chosen if busy else colours.panel))
        painter.drawRoundedRect(box, 5, 5)
        side = self.fontMetrics().height() * MARK_SHARE
        if self._mark is not None:
            mark = QRectF(PAD_PX, (self.height() - side) / 2, side, side)
            paint_state(painter, mark, self._mark, colours.state(self._mark))
        painter.setPen(QColor(colours.text))
        upright = Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap
        words = box.adjusted(self._left(), 0, -self._met_px(), 0)
        painter.drawText(words, upright, self._title)
        painter.setPen(QColor(colours.quiet))
        side_words = box.adjusted(0, 0, -PAD_PX, 0)
        right = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight
        painter.drawText(side_words, right, self._word)
        painter.end()


def prose(text: str, parent: QWidget, *, small: bool = False) -> QLabel:
    """Return text that wraps and can be selected by mouse and keys."""
    label = QLabel(text, parent)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setTextInteractionFlags(
        Qt.TextInteractionFlag.TextSelectableByMouse
        | Qt.TextInteractionFlag.TextSelectableByKeyboard
    )
    label.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
    label.setMinimumWidth(60)
    if small:
        font = label.font()
        font.setPointSizeF(font.pointSizeF() * 0.88)
        label.setFont(font)
    return label


class WhyGroup(QFrame):
    """Reasons that share a sentence.

    ``gone_to`` carries the step one wants to see, ``asked_for`` the code of a rule, ``reckoned``
    that of a rule of which one wants to see the numbers.
    """

    gone_to = Signal(str)
    asked_for = Signal(str)
    reckoned = Signal(str)
    questioned = Signal(str, str)

    def __init__(self, group: Group, says: Says, parent: QWidget) -> None:
        super().__init__(parent)
        line = group.first
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(3)
        self._rest: list[StepButton] = []
        for place, member in enumerate(group.lines):
            aside = aside_words(member)
            word = aside or says(met=member.met)
            ticks = says is met_words and not aside
            button = StepButton(member, word, self, ticks=ticks)
            button.clicked.connect(self._go)
            box.addWidget(button)
            if place >= MOST_SHOWN:
                self._rest.append(button)
                button.hide()
        if self._rest:
            more = QPushButton(self.tr("and {n} more").format(n=len(self._rest)), self)
            _look_like_link(more)
            more.clicked.connect(self._show_rest)
            box.addWidget(more, 0, Qt.AlignmentFlag.AlignLeft)
            self._more = more
        for text, small in (
            (line.text, False),
            ("; ".join(line.numbers), False),
            (strength_words(line), False),
            (footnote(line), True),
        ):
            if text:
                words = prose(text, self, small=small)
                words.setIndent(PAD_PX)
                box.addWidget(words)
        box.addLayout(self._acts(group))

    def _acts(self, group: Group) -> QHBoxLayout:
        """Lay out what one can do with a reason: read of it, see its numbers, set it aside."""
        acts, line = QHBoxLayout(), group.first
        if is_rule(line.rule):
            acts.addWidget(self._rule_button(line.rule))
        if line.rule in RULE_TOPICS:
            acts.addWidget(self._numbers_button(line.rule))
        if line.rule not in (NEVER, *OF_WAYS):
            acts.addWidget(self._question_button(group))
        acts.addStretch(1)
        return acts

    def _rule_button(self, code: str) -> QPushButton:
        rule = QPushButton(self.tr("Rule: {0}").format(rule_words(code)), self)
        _look_like_link(rule)
        rule.setMinimumWidth(LEAST_PX)
        rule.setObjectName(f"rule_{code}")
        rule.setAccessibleDescription(self.tr("Show this rule's page of the help"))
        rule.setCursor(Qt.CursorShape.PointingHandCursor)
        rule.clicked.connect(lambda: self.asked_for.emit(code))
        return rule

    def _numbers_button(self, code: str) -> QPushButton:
        button = QPushButton(self.tr("How it is reckoned"), self)
        _look_like_link(button)
        button.setMinimumWidth(LEAST_PX)
        button.setObjectName(f"reckoned_{code}")
        button.setAccessibleDescription(self.tr("Show the numbers of the shapes behind it"))
        button.setCursor(Qt.CursorShape.PointingHandCursor)
        button.clicked.connect(lambda: self.reckoned.emit(code))
        return button

    def _question_button(self, group: Group) -> QPushButton:
        line = group.first
        is_own = line.overruled or line.rule.startswith(OWN)
        text = self.tr("Change …") if is_own else self.tr("Overrule …")
        button = QPushButton(text, self)
        _look_like_link(button)
        button.setMinimumWidth(LEAST_PX)
        button.setObjectName(f"question_{line.rule}")
        button.setAccessibleDescription(line.text)
        button.setCursor(Qt.CursorShape.PointingHandCursor)
        other = line.other if len(group.lines) == 1 else ""
        button.clicked.connect(lambda: self.questioned.emit(line.rule, other))
        return button

    def _go(self) -> None:
        button = self.sender()
        if isinstance(button, StepButton):
            self.gone_to.emit(button.step)

    def _show_rest(self) -> None:
        for button in self._rest:
            button.show()
        self._rest[0].setFocus()
        self._more.hide()


def _look_like_link(button: QPushButton) -> None:
    """Set a button without a frame apart from the prose around it."""
    button.setFlat(True)
    font = button.font()
    font.setUnderline(True)
    button.setFont(font)
