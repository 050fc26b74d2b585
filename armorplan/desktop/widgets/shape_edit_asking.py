"""The strip below the drawing that asks for numbers before something is done."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.shape_edit_asks import Ask, AskField, lacking
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.edit_fields import CalmBox
from armorplan.desktop.widgets.edit_form import FIELD_EDGES
from armorplan.desktop.widgets.flow import Flow
from armorplan.pattern.parts import Point

SHORT_PX, LONG_PX = 84, 260
CROSS = "\N{HEAVY MULTIPLICATION X}"
Control = QLineEdit | QComboBox


class AskFields(Flow):
    """The fields of what is asked. ``changed`` says that something else is typed, ``entered`` Enter."""

    changed = Signal()
    entered = Signal()

    def __init__(self, ask: Ask, parent: QWidget) -> None:
        super().__init__(parent)
        self._ask = ask
        self._spot = 0
        self._controls: dict[str, Control] = {}
        for one in ask.fields:
            self.add(self._field(one))

    def _field(self, one: AskField) -> QWidget:
        whole = QWidget(self)
        row = QHBoxLayout(whole)
        row.setContentsMargins(0, 0, 0, 0)
        label = QLabel(one.label, whole)
        control = self._control(one, whole)
        control.setObjectName(f"ask_{one.name}")
        control.setAccessibleName(f"{one.label}, {one.unit}" if one.unit else one.label)
        label.setBuddy(control)
        row.addWidget(label)
        row.addWidget(control)
        if one.unit:
            row.addWidget(QLabel(one.unit, whole))
        self._controls[one.name] = control
        return whole

    def _control(self, one: AskField, parent: QWidget) -> Control:
        if not one.words:
            line = QLineEdit(one.text, parent)
            line.setFixedWidth(SHORT_PX if one.unit or one.may_lack else LONG_PX)
            line.setCursorPosition(0)
            line.returnPressed.connect(self.entered)
            line.textChanged.connect(lambda _text: self.changed.emit())
            return line
        box = CalmBox(parent)
        for word, meaning in one.words:
            box.addItem(meaning, word)
        box.setCurrentIndex(max(box.findData(one.text), 0))
        box.currentIndexChanged.connect(lambda _at: self.changed.emit())
        return box

    def told(self) -> dict[str, str]:
        """Return what the fields hold."""
        return {
            name: control.text() if isinstance(control, QLineEdit) else str(control.currentData())
            for name, control in self._controls.items()
        }

    def take_spot(self, at: Point) -> None:
        """Fill a clicked place into the next pair of fields for one."""
        spots = [one for one in self._ask.fields if one.spot]
        pairs = list(zip(spots[::2], spots[1::2], strict=True))
        if not pairs:
            return
        for one, value in zip(pairs[self._spot % len(pairs)], at, strict=True):
            control = self._controls[one.name]
            if isinstance(control, QLineEdit):
                control.setText(f"{round(value, 2):g}")
        self._spot += 1

    def begin(self) -> None:
        """Give the first field the keyboard."""
        first = next(iter(self._controls.values()), None)
        if first is not None:
            first.setFocus()
            if isinstance(first, QLineEdit):
                first.selectAll()


class AskStrip(QWidget):
    """Hidden until something is asked. Enter does it, Escape drops it.

    ``began`` and ``left`` frame what is asked, ``changed`` says that something else is typed.
    """

    began = Signal()
    changed = Signal()
    left = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("table_ask")
        self.setStyleSheet(FIELD_EDGES)
        self._ask: Ask | None = None
        self._title = QLabel(self)
        self._title.setObjectName("ask_title")
        self._title.setWordWrap(True)
        self._title.setTextFormat(Qt.TextFormat.PlainText)
        self._refusal = QLabel(self)
        self._refusal.setObjectName("ask_refusal")
        self._refusal.setWordWrap(True)
        self._refusal.hide()
        self._fields: AskFields | None = None
        self._down = QVBoxLayout(self)
        self._down.setContentsMargins(0, 0, 0, 0)
        self._down.addWidget(self._title)
        self._down.addWidget(self._refusal)
        self.hide()

    @property
    def ask(self) -> Ask | None:
        """What is being asked; ``None`` where nothing is."""
        return self._ask

    @property
    def wants_spots(self) -> bool:
        """Whether clicks on the drawing fill in fields now."""
        return self._ask is not None and any(one.spot for one in self._ask.fields)

    def begin(self, ask: Ask) -> None:
        """Ask; what was being asked before is dropped."""
        self._ask = ask
        self._title.setText(f"{ask.title} – {ask.help}" if ask.help else ask.title)
        self._refusal.hide()
        self._build(ask)
        self.show()
        if self._fields is not None:
            self._fields.begin()
        announce(self, ask.title)
        self.began.emit()

    def _build(self, ask: Ask) -> None:
        fields = AskFields(ask, self)
        fields.changed.connect(self.changed)
        fields.entered.connect(self.do)
        for name, text, slot in (
            ("ask_do", self.tr("Do it"), self.do),
            ("ask_drop", self.tr("Never mind"), self.drop),
        ):
            button = QPushButton(text, fields)
            button.setObjectName(name)
            button.clicked.connect(slot)
            fields.add(button)
        if self._fields is not None:
            self._down.removeWidget(self._fields)
            self._fields.setParent(None)
            self._fields.deleteLater()
        self._down.insertWidget(1, fields)
        self._fields = fields

    def told(self) -> dict[str, str]:
        """Return what the fields hold."""
        return self._fields.told() if self._fields is not None else {}

    def take_spot(self, at: Point) -> None:
        """Fill a clicked place into the next pair of fields for one."""
        if self._fields is not None and self._ask is not None:
            self._fields.take_spot(at)

    def do(self) -> None:
        """Do what was asked, if all numbers are there."""
        if self._ask is None:
            return
        told = self.told()
        if label := lacking(self._ask, told):
            unit = next(one.unit for one in self._ask.fields if one.label == label)
            wants = self.tr("a number, like 12 or 12.5") if unit else self.tr("some letters")
            self.refuse(self.tr("'{0}' wants {1}.").format(label, wants))
            return
        ask = self._ask
        self._end()
        ask.then(told)

    def refuse(self, words: str) -> None:
        """Tell below the fields what is wrong."""
        self._refusal.setText(f"{CROSS} {words}")
        self._refusal.show()
        announce(self, words)

    def drop(self) -> None:
        """Ask no more, if anything is being asked; nothing is done."""
        if self._ask is not None:
            self._end()

    def _end(self) -> None:
        self._ask = None
        self.hide()
        self.left.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.drop()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.do()
        else:
            super().keyPressEvent(event)
