"""One air as it is typed: temperature, humidity, and how it moves, in a row."""

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QLineEdit, QSizePolicy, QWidget

from armorplan.app.air_form import TypedAir
from armorplan.app.shop_air import FAN_SOURCE, FANS
from armorplan.desktop.air_words import fan_words
from armorplan.workshop.air import STILL_AIR_M_S, Climate

FIELD_PX = 70


class AirRow(QWidget):
    """``changed`` says that something was typed; ``name`` tells what air it is, for who hears it."""

    changed = Signal()

    def __init__(self, key: str, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(f"air_{key}")
        self.name = name
        self._sure = ""
        self.temperature = self._line(f"air_{key}_temperature", self.tr("temperature, °C"))
        self.humidity = self._line(f"air_{key}_humidity", self.tr("relative humidity, per cent"))
        self.fan = QComboBox(self)
        self.fan.setObjectName(f"air_{key}_fan")
        self.fan.setAccessibleName(f"{name}: {self.tr('how the air moves, or its speed in m/s')}")
        self.fan.view().setAccessibleName(self.fan.accessibleName())
        self.fan.setEditable(True)
        self.fan.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.fan.setToolTip(
            self.tr("Choose, or type the speed in m/s. Speeds of fans: {0}.").format(FAN_SOURCE)
        )
        self.fan.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.fan.setMinimumContentsLength(12)
        for words, speed in FANS:
            self.fan.addItem(fan_words(words, speed), speed)
        self.fan.currentTextChanged.connect(lambda _text: self.changed.emit())
        across = QHBoxLayout(self)
        across.setContentsMargins(0, 0, 0, 0)
        for field, unit in ((self.temperature, "°C"), (self.humidity, "%")):
            across.addWidget(field)
            across.addWidget(QLabel(unit, self))
        across.addWidget(self.fan, 1)
        self.setFocusProxy(self.temperature)

    def _line(self, name: str, spoken: str) -> QLineEdit:
        line = QLineEdit(self)
        line.setObjectName(name)
        line.setAccessibleName(f"{self.name}: {spoken}")
        line.setMaximumWidth(FIELD_PX)
        line.textChanged.connect(lambda _text: self.changed.emit())
        return line

    def typed(self) -> TypedAir:
        """Return what was typed."""
        return TypedAir(
            temperature=self.temperature.text(),
            humidity=self.humidity.text(),
            air=self._air(),
            is_sure=bool(self._sure) and self._sure == self.temperature.text().strip(),
        )

    def _air(self) -> str:
        """Return a speed: the chosen one's, or what was typed, without its unit."""
        text = self.fan.currentText().strip()
        at = self.fan.findText(text)
        if at >= 0:
            return f"{self.fan.itemData(at):g}"
        return text.removesuffix("m/s").strip()

    @property
    def is_blank(self) -> bool:
        """Whether neither temperature nor humidity was typed."""
        return not (self.temperature.text().strip() or self.humidity.text().strip())

    def be_sure(self) -> None:
        """Take the temperature for what it is, however hot."""
        self._sure = self.temperature.text().strip()
        self.changed.emit()

    def show_air(self, climate: Climate | None) -> None:
        """Show an air, or nothing."""
        here = climate or Climate(air_m_s=STILL_AIR_M_S)
        for field, number in (
            (self.temperature, here.temperature_c),
            (self.humidity, here.humidity_pct),
        ):
            with QSignalBlocker(field):
                field.setText(f"{number:g}" if climate else "")
        names = {speed: fan_words(words, speed) for words, speed in FANS}
        with QSignalBlocker(self.fan):
            self.fan.setCurrentText(names.get(here.air_m_s, f"{here.air_m_s:g} m/s"))
