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
from armorplan.files.log_units import LogQuestion, Meant
from armorplan.workshop.air import AirReading, Room


class AirReadings(QWidget):
    """Holds the readings of a room.

    ``changed`` says that there are others, ``faulty`` carries an ``AirFault`` of what was typed,
    ``logged`` an ``AirLog`` that was read, and ``refused`` why there is none. While a file's
    ``question`` is open nothing of that file is among the readings.
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
        self._asked: tuple[Path, LogQuestion] | None = None
        self._file = Path()
        self._meant: frozenset[Meant] = frozenset()
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

    @property
    def question(self) -> LogQuestion | None:
        """What is to be known of a logger's file before it is used."""
        return self._asked[1] if self._asked else None

    def show_readings(self, readings: tuple[AirReading, ...]) -> None:
        """Hold these readings, and ask no more."""
        self._asked = None
        self._take(Room(readings=readings))

    def _take(self, room: Room) -> None:
        self._room = room
        self._allow()
        self.changed.emit()

    def _allow(self) -> None:
        self.add.setEnabled(not self.now.is_blank)
        self.forget.setEnabled(bool(self._room.readings or self._asked))

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

    def read_log(self, file: Path, meant: frozenset[Meant] = frozenset()) -> None:
        """Read what a logger wrote, in the shop's time zone where the file names none.

        Args:
            file: with its readings.
            meant: the units that were answered for it.
        """
        zone = str(self._bridge.zone)
        self._file, self._meant = file, meant

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            return read_air_log(file, zone=zone, meant=meant)

        self._reader.ask(work)

    def answer(self, meant: Meant) -> None:
        """Say in what unit the file is that was asked about, and read it so."""
        if self._asked is not None:
            self.read_log(self._asked[0], self._meant | {meant})

    def leave_out(self) -> None:
        """Do without the file that was asked about."""
        self._asked = None
        self._take(self._room)

    def _take_log(self, log: AirLog) -> None:
        self._asked = (self._file, log.questions[0]) if log.questions else None
        self._take(with_readings(self._room, log.readings))
        if not log.questions:
            self.logged.emit(log)

    def end_jobs(self) -> None:
        """Wait for what is still being read."""
        self._reader.close()
