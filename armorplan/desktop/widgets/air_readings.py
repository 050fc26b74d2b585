"""Readings of the shop's air: one of now typed in, a logger's file, or all of them forgotten."""

from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from armorplan.app.air_form import AirFault, read_air
from armorplan.app.shop_air import with_reading, with_readings
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.desktop.widgets.air_row import AirRow
from armorplan.files.climate_csv import AirLog, read_air_log
from armorplan.workshop.air import AirReading, Room


class AirReadings(QWidget):
    """Holds the readings of a room.

    ``changed`` says that there are others, ``faulty`` carries an ``AirFault`` of what was typed,
    ``logged`` an ``AirLog`` that was read, and ``refused`` why there is none.
    """

    changed = Signal()
    faulty = Signal(object)
    logged = Signal(object)
    refused = Signal(str)

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("air_readings")
        self._bridge = bridge
        self._room = Room()
        self._reader = Runner(self)
        self.now = AirRow("now", self.tr("Reading of now"), self)
        self.add = QPushButton(self.tr("&Add this reading"), self)
        self.log = QPushButton(self.tr("&Read a logger's CSV …"), self)
        self.forget = QPushButton(self.tr("&Forget all readings"), self)
        across = QHBoxLayout()
        for button, name in (
            (self.add, "air_add"),
            (self.log, "air_log"),
            (self.forget, "air_forget"),
        ):
            button.setObjectName(name)
            button.setAutoDefault(False)
            across.addWidget(button)
        across.addStretch(1)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self.now)
        down.addLayout(across)
        self.setFocusProxy(self.now)
        self.now.changed.connect(self._allow)
        self.add.clicked.connect(self._add)
        self.log.clicked.connect(self._ask_log)
        self.forget.clicked.connect(lambda: self.show_readings(()))
        self._reader.answered.connect(self._take_log)
        self._reader.failed.connect(lambda error: self.refused.emit(str(error)))
        self._allow()

    @property
    def readings(self) -> tuple[AirReading, ...]:
        """The readings as they stand."""
        return self._room.readings

    def show_readings(self, readings: tuple[AirReading, ...]) -> None:
        """Hold these readings."""
        self._take(Room(readings=readings))

    def _take(self, room: Room) -> None:
        self._room = room
        self._allow()
        self.changed.emit()

    def _allow(self) -> None:
        self.add.setEnabled(not self.now.is_blank)
        self.forget.setEnabled(bool(self._room.readings))

    def _add(self) -> None:
        climate = read_air(self.now.typed())
        if isinstance(climate, AirFault):
            self.faulty.emit(climate)
            return
        self.now.show_air(None)
        reading = AirReading(at=self._bridge.clock.now(), climate=climate)
        self._take(with_reading(self._room, reading))

    def _ask_log(self) -> None:
        title = self.tr("Read a logger's file")
        kinds = self.tr("Tables (*.csv *.txt *.tsv);;All (*)")
        chosen, _ = QFileDialog.getOpenFileName(self, title, str(Path.home()), kinds)
        if chosen:
            self.read_log(Path(chosen))

    def read_log(self, file: Path) -> None:
        """Read what a logger wrote, in the shop's time zone where the file names none."""
        zone = str(self._bridge.zone)

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            return read_air_log(file, zone=zone)

        self._reader.ask(work)

    def _take_log(self, log: AirLog) -> None:
        self._take(with_readings(self._room, log.readings))
        self.logged.emit(log)

    def end_jobs(self) -> None:
        """Wait for what is still being read."""
        self._reader.close()
