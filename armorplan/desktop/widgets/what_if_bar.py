"""What would be in another air: typed in a row of fields, told in a sentence; it changes nothing."""

from PySide6.QtCore import QSignalBlocker, QTimer, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QGroupBox,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.air_form import AirFault
from armorplan.app.drying_choices import WhatIf
from armorplan.app.shop_air import FAN_SOURCE, FANS
from armorplan.desktop.air_words import fan_words
from armorplan.desktop.what_if_words import TypedWhatIf, what_if_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.flow import Flow, named_field

WAIT_MS = 250
"""After the last key so long it is waited before anything is reckoned."""
FIELD_PX = 76


class WhatIfBar(QGroupBox):
    """``asked`` carries a ``WhatIf``; ``wanted`` one whose air is to be the plan's."""

    asked = Signal(object)
    wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("what_if")
        self.setTitle(self.tr("What if the air were otherwise?"))
        self.temperature = self._line("what_if_temperature", self.tr("Temperature, °C"))
        self.humidity = self._line("what_if_humidity", self.tr("Relative humidity, per cent"))
        self.thickness = self._line("what_if_thickness", self.tr("Thickness of the leather, mm"))
        self.fan = QComboBox(self)
        self.faces = QComboBox(self)
        self.as_it_is = QPushButton(self.tr("Cle&ar"), self)
        self.use = QPushButton(self.tr("&Use this air in the plan"), self)
        self.said = QLabel(self)
        self._what_if: WhatIf | AirFault = WhatIf()
        self._may_use = True
        self._wait = QTimer(self, interval=WAIT_MS, singleShot=True)
        self._wait.timeout.connect(self._ask)
        self._name_all()
        self._lay_out()
        self.as_it_is.clicked.connect(self.clear)
        self.use.clicked.connect(self._want)
        self._allow()

    def _line(self, name: str, spoken: str) -> QLineEdit:
        line = QLineEdit(self)
        line.setObjectName(name)
        line.setAccessibleName(spoken)
        line.setPlaceholderText(self.tr("as it is"))
        line.setToolTip(self.tr("Left empty it stays as it is."))
        line.setFixedWidth(FIELD_PX)
        line.textChanged.connect(self._hear)
        return line

    def _name_all(self) -> None:
        self.fan.setObjectName("what_if_fan")
        self.fan.setAccessibleName(self.tr("How the air moves"))
        self.fan.setToolTip(self.tr("Speeds of the air: {0}.").format(FAN_SOURCE))
        self.fan.addItem(self.tr("as it is"), None)
        for words, speed in FANS:
            self.fan.addItem(fan_words(words, speed), speed)
        self.faces.setObjectName("what_if_faces")
        self.faces.setAccessibleName(self.tr("Faces open to the air"))
        for words, count in (
            (self.tr("as it is"), None),
            (self.tr("one face open"), 1),
            (self.tr("both faces open"), 2),
        ):
            self.faces.addItem(words, count)
        for box in (self.fan, self.faces):
            box.view().setAccessibleName(box.accessibleName())
            box.currentIndexChanged.connect(self._hear)
        self.as_it_is.setObjectName("what_if_as_it_is")
        self.use.setObjectName("what_if_use")
        self.said.setObjectName("what_if_said")
        self.said.setWordWrap(True)
        self.said.hide()

    def _lay_out(self) -> None:
        flow = Flow(self)
        for words, field in (
            (self.tr("&Temperature °C"), self.temperature),
            (self.tr("&Humidity %"), self.humidity),
            (self.tr("A&ir"), self.fan),
            (self.tr("Th&ickness mm"), self.thickness),
            (self.tr("&Faces"), self.faces),
        ):
            flow.add(named_field(words, field, self))
        for button in (self.as_it_is, self.use):
            flow.add(button)
        down = QVBoxLayout(self)
        down.setContentsMargins(6, 4, 6, 6)
        down.setSpacing(4)
        down.addWidget(flow)
        down.addWidget(self.said)

    @property
    def what_if(self) -> WhatIf:
        """What is asked now; nothing where what is typed cannot be read."""
        return self._what_if if isinstance(self._what_if, WhatIf) else WhatIf()

    def clear(self) -> None:
        """Ask nothing."""
        for line in (self.temperature, self.humidity, self.thickness):
            with QSignalBlocker(line):
                line.clear()
        for box in (self.fan, self.faces):
            with QSignalBlocker(box):
                box.setCurrentIndex(0)
        self._wait.stop()
        self._ask()

    def tell(self, words: str) -> None:
        """Say what it would change."""
        if isinstance(self._what_if, AirFault):
            return
        self._say(words)

    def _say(self, words: str) -> None:
        if words != self.said.text():
            self.said.setText(words)
            self.said.setVisible(bool(words))
            announce(self.said, words)

    def allow_use(self, *, may_use: bool) -> None:
        """Let the air be used in the plan, or not: nothing keeps it here, or it is being kept."""
        self._may_use = may_use
        self._allow()

    def _hear(self) -> None:
        self._wait.start()

    def _ask(self) -> None:
        self._what_if = what_if_of(
            TypedWhatIf(
                temperature=self.temperature.text(),
                humidity=self.humidity.text(),
                air_m_s=self.fan.currentData(),
                thickness=self.thickness.text(),
                faces=self.faces.currentData(),
            )
        )
        self._allow()
        if isinstance(self._what_if, AirFault):
            self._say(f"\N{HEAVY MULTIPLICATION X} {self._what_if.text}")
            self.asked.emit(WhatIf())
            return
        if not self._what_if.asks:
            self._say("")
        self.asked.emit(self._what_if)

    def _allow(self) -> None:
        self.use.setEnabled(self._may_use and self.what_if.asks_air)
        self.as_it_is.setEnabled(self._what_if != WhatIf())

    def _want(self) -> None:
        self.wanted.emit(self.what_if)

    def stop(self) -> None:
        """Ask no more: the page is closed or turned away."""
        self._wait.stop()
