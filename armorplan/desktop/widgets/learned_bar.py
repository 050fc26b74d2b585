"""What a drying taught: it was found dry or damp, or weighed; what that changed; forgotten or not."""

from PySide6.QtCore import Signal
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import (
    QGroupBox,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.drying_choices import DryingChoice
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.weigh_words import weights_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.flow import Flow, named_field
from armorplan.kernel.errors import WorkshopError

FIELD_PX = 70


class LearnedBar(QGroupBox):
    """Speaks of one drying; ``turned`` says that another one is in sight, or none."""

    turned = Signal()

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("learned")
        self.setTitle(self.tr("What was seen in this shop"))
        self._bridge = bridge
        self._choice: DryingChoice | None = None
        self._forgotten: set[str] = set()
        self.words = QLabel(self)
        self.dry = QPushButton(self.tr("It is &dry now"), self)
        self.damp = QPushButton(self.tr("Still da&mp"), self)
        self.weigh = QPushButton(self.tr("&Weighed …"), self)
        self.forget = QPushButton(self.tr("F&orget what was learned"), self)
        self.scale = Flow(self)
        self.weights = tuple(
            self._line(key, name)
            for key, name in (
                ("before", self.tr("before the bath")),
                ("wet", self.tr("out of the bath")),
                ("now", self.tr("now")),
            )
        )
        self.record = QPushButton(self.tr("&Record the weighing"), self.scale)
        self._name_all()
        self._lay_out()
        self.dry.clicked.connect(lambda: self._look(is_dry=True))
        self.damp.clicked.connect(lambda: self._look(is_dry=False))
        self.weigh.toggled.connect(self._show_scale)
        self.record.clicked.connect(self._weigh)
        self.forget.clicked.connect(self._forget)

    def _line(self, key: str, name: str) -> QLineEdit:
        line = QLineEdit(self.scale)
        line.setObjectName(f"weight_{key}")
        line.setAccessibleName(self.tr("Weight {0}, grams").format(name))
        line.setFixedWidth(FIELD_PX)
        line.returnPressed.connect(self._weigh)
        return line

    def _name_all(self) -> None:
        self.words.setObjectName("learned_words")
        self.words.setWordWrap(True)
        for button, name in (
            (self.dry, "learned_dry"),
            (self.damp, "learned_damp"),
            (self.weigh, "learned_weigh"),
            (self.forget, "learned_forget"),
            (self.record, "learned_record"),
        ):
            button.setObjectName(name)
        self.weigh.setCheckable(True)
        self.scale.setObjectName("learned_scale")
        self.scale.hide()

    def _lay_out(self) -> None:
        buttons = Flow(self)
        for button in (self.dry, self.damp, self.weigh, self.forget):
            buttons.add(button)
        names = (self.tr("&Before, g"), self.tr("We&t, g"), self.tr("&Now, g"))
        for words, field in zip(names, self.weights, strict=True):
            self.scale.add(named_field(words, field, self.scale))
        self.scale.add(self.record)
        down = QVBoxLayout(self)
        down.setContentsMargins(6, 4, 6, 6)
        down.setSpacing(4)
        down.addWidget(self.words)
        down.addWidget(buttons)
        down.addWidget(self.scale)

    def show_choice(self, choice: DryingChoice | None) -> None:
        """Speak of this drying."""
        if choice is None or self._choice is None or choice.id != self._choice.id:
            self.weigh.setChecked(False)
        self._choice = choice
        self.setVisible(choice is not None)
        if choice is not None:
            self.refresh()
        self.turned.emit()

    @property
    def shown_step(self) -> str:
        """The step whose drying is in sight; empty where none is."""
        return self._choice.step if self._choice is not None and self.isVisible() else ""

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.turned.emit()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.turned.emit()

    def refresh(self) -> None:
        """Say anew what was learned."""
        choice, drying = self._choice, self._bridge.session.drying
        if choice is None:
            return
        may_look = bool(choice.step) and drying.may_look(choice.step)
        for button in (self.dry, self.damp, self.weigh):
            button.setVisible(may_look)
        if not may_look:
            self.weigh.setChecked(False)
        try:
            row = drying.estimate(choice.entry.id)
        except WorkshopError as error:
            self.words.setText(str(error))
            return
        self.words.setText(row.words)
        is_forgotten = choice.entry.id in self._forgotten and not row.observations
        self.forget.setText(
            self.tr("C&ount all that was seen again")
            if is_forgotten
            else self.tr("F&orget what was learned")
        )
        self.forget.setVisible(bool(row.observations) or is_forgotten)

    def _show_scale(self, wanted: bool) -> None:
        self.scale.setVisible(wanted)
        if wanted:
            self.weights[0].setFocus()

    def _look(self, *, is_dry: bool) -> None:
        if self._choice is not None:
            self._bridge.look(self._choice.step, dry=is_dry)
            self.refresh()

    def _weigh(self) -> None:
        names = (self.tr("Before"), self.tr("Wet"), self.tr("Now"))
        texts = (line.text() for line in self.weights)
        found = weights_of(tuple(zip(names, texts, strict=True)))
        if isinstance(found, str):
            self._bridge.said.emit(found)
            announce(self, found)
            return
        if self._choice is None:
            return
        before_g, wet_g, now_g = found
        self._bridge.weigh(self._choice.step, before_g=before_g, wet_g=wet_g, now_g=now_g)
        self.refresh()
        self.weights[-1].clear()

    def _forget(self) -> None:
        """Forget what was learned of the treatment, or take that back: here alone, not by undo."""
        if self._choice is None:
            return
        drying, treatment = self._bridge.session.drying, self._choice.entry.id
        if treatment in self._forgotten:
            self._forgotten.discard(treatment)
            said = drying.remember(treatment)
        else:
            self._forgotten.add(treatment)
            said = drying.forget(treatment)
        self._bridge.said.emit(said)
        self.refresh()
