"""The page of the shop's air: one value or day and night, readings, a logger's file, the room's size."""

from html import escape
from pathlib import Path

from PySide6.QtCore import QSignalBlocker
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QSpinBox,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.air_form import AirFault, read_air
from armorplan.app.air_sheet import RoomFault, TypedRoom, room_of, shown_days
from armorplan.app.shop_air import ShopAir, room_words, rule_words, with_reading, with_readings
from armorplan.desktop.air_desk import AirDesk
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.desktop.widgets.air_row import AirRow
from armorplan.desktop.widgets.announcing import announce
from armorplan.files.climate_csv import AirLog, read_air_log
from armorplan.kernel.findings import Finding
from armorplan.workshop.air import AirReading, Room

WIDE_PX, HIGH_PX = 620, 560
FRAME_PX = 40
"""Kept free of the screen for the frame of the window."""
LAST_HOUR = 23
FIELD_PX = 90


class AirPage(QDialog):
    """Keeps what is typed when it is told to; does not hold up the bench."""

    def __init__(self, desk: AirDesk, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("air_page")
        self.setWindowTitle(self.tr("Air of the shop"))
        self.setModal(False)
        self._desk = desk
        self._bridge = bridge
        self._room = Room()
        self._is_filled = False
        self._reader = Runner(self)
        self.rule = QLabel(self)
        self.day = AirRow("day", self.tr("By day"), self)
        self.has_night = QCheckBox(self.tr("The &nights are otherwise"), self)
        self.night = AirRow("night", self.tr("By night"), self)
        self.hours = (self._hour("day_from", 8), self._hour("night_from", 18))
        self.now = AirRow("now", self.tr("Reading of now"), self)
        self.add = QPushButton(self.tr("&Add this reading"), self)
        self.log = QPushButton(self.tr("&Read a logger's CSV …"), self)
        self.forget = QPushButton(self.tr("&Forget all readings"), self)
        self.volume = QLineEdit(self)
        self.told = QTextBrowser(self)
        self.celsius = QPushButton(self)
        self.stays = QPushButton(self)
        self.keep = QPushButton(self.tr("&Keep as the air of the shop"), self)
        self._asked: tuple[AirRow, AirFault] | None = None
        self._name_all()
        self._lay_out()
        self._connect()
        self._look()

    def _hour(self, key: str, hour: int) -> QSpinBox:
        box = QSpinBox(self)
        box.setObjectName(f"air_{key}")
        box.setRange(0, LAST_HOUR)
        box.setSuffix(":00")
        box.setValue(hour)
        box.setWrapping(True)
        return box

    def _name_all(self) -> None:
        day_from, night_from = self.hours
        day_from.setAccessibleName(self.tr("The day begins at, hour"))
        night_from.setAccessibleName(self.tr("The night begins at, hour"))
        for widget, name in (
            (self.rule, "air_rule"),
            (self.has_night, "air_has_night"),
            (self.add, "air_add"),
            (self.log, "air_log"),
            (self.forget, "air_forget"),
            (self.volume, "air_volume"),
            (self.told, "air_told"),
            (self.celsius, "air_celsius"),
            (self.stays, "air_stays"),
            (self.keep, "air_keep"),
        ):
            widget.setObjectName(name)
        for button in (self.add, self.log, self.forget, self.celsius, self.stays, self.keep):
            button.setAutoDefault(False)
        self.rule.setWordWrap(True)
        self.volume.setAccessibleName(self.tr("Volume of the room, cubic metres"))
        self.volume.setMaximumWidth(FIELD_PX)
        self.told.setAccessibleName(self.tr("What the form says"))
        self.told.setTabChangesFocus(True)

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.DontWrapRows)
        form.addRow(self.tr("Air b&y day"), self.day)
        form.addRow("", self.has_night)
        form.addRow(self.tr("Air by n&ight"), self.night)
        hours = QHBoxLayout()
        day_from, night_from = self.hours
        for words, box in ((self.tr("day from"), day_from), (self.tr("night from"), night_from)):
            hours.addWidget(QLabel(words, self))
            hours.addWidget(box)
        hours.addStretch(1)
        form.addRow("", hours)
        form.addRow(self.tr("As it is n&ow"), self.now)
        readings = QHBoxLayout()
        for button in (self.add, self.log, self.forget):
            readings.addWidget(button)
        readings.addStretch(1)
        form.addRow("", readings)
        size = QHBoxLayout()
        size.addWidget(self.volume)
        size.addWidget(QLabel(self.tr("m³, for what evaporates into it; may be left empty"), self))
        size.addStretch(1)
        form.addRow(self.tr("&Volume of the room"), size)
        answers = QHBoxLayout()
        for button in (self.celsius, self.stays):
            answers.addWidget(button)
            button.hide()
        answers.addStretch(1)
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        close.button(QDialogButtonBox.StandardButton.Close).setAutoDefault(False)
        close.rejected.connect(self.close)
        foot = QHBoxLayout()
        foot.addWidget(self.keep)
        foot.addStretch(1)
        foot.addWidget(close)
        whole = QVBoxLayout(self)
        whole.addWidget(self.rule)
        whole.addLayout(form)
        whole.addWidget(self.told, 1)
        whole.addLayout(answers)
        whole.addLayout(foot)
        room = self.screen().availableSize()
        self.resize(min(WIDE_PX, room.width() - FRAME_PX), min(HIGH_PX, room.height() - FRAME_PX))

    def _connect(self) -> None:
        for row in (self.day, self.night, self.now):
            row.changed.connect(self._look)
        self.has_night.toggled.connect(self._look)
        for box in self.hours:
            box.valueChanged.connect(self._look)
        self.volume.textChanged.connect(self._look)
        self.add.clicked.connect(self._add)
        self.log.clicked.connect(self._ask_log)
        self.forget.clicked.connect(self._forget)
        self.celsius.clicked.connect(self._take_celsius)
        self.stays.clicked.connect(self._let_stay)
        self.keep.clicked.connect(self._keep)
        self._reader.answered.connect(self._take_log)
        self._reader.failed.connect(lambda error: self._refuse(str(error)))
        self._desk.shown.connect(self._take)
        self._desk.kept.connect(self._say)
        self._desk.refused.connect(self._refuse)
        self._desk.busy.connect(lambda _busy: self._look())

    # --- what is kept ------------------------------------------------------------------------

    def _take(self, air: ShopAir) -> None:
        """Show the air that counts, once; what was typed meanwhile stays."""
        self.rule.setText(rule_words(air))
        if self._is_filled:
            return
        self._is_filled = True
        self._room = air.kept or air.room
        two = shown_days(self._room)
        day = two.day if two else next(iter(self._room.by_hour), self._room.usual)
        self.day.show_air(day)
        self.night.show_air(two.night if two else day)
        for box, hour in zip(
            self.hours, (two.day_from_h, two.night_from_h) if two else (8, 18), strict=True
        ):
            with QSignalBlocker(box):
                box.setValue(hour)
        with QSignalBlocker(self.has_night), QSignalBlocker(self.volume):
            self.has_night.setChecked(two is not None)
            volume_m3 = self._room.volume_m3
            self.volume.setText("" if volume_m3 is None else f"{volume_m3:g}")
        self._look()

    def _typed(self) -> TypedRoom:
        return TypedRoom(
            has_night=self.has_night.isChecked(),
            day=self.day.typed(),
            night=self.night.typed(),
            day_from_h=self.hours[0].value(),
            night_from_h=self.hours[1].value(),
            volume=self.volume.text(),
        )

    def _look(self) -> None:
        """Say what the form says as it stands, or what is wrong with it."""
        for widget in (self.night, *self.hours):
            widget.setEnabled(self.has_night.isChecked())
        self.forget.setEnabled(bool(self._room.readings))
        self.add.setEnabled(not self.now.is_blank)
        found = room_of(self._typed(), self._room)
        if isinstance(found, RoomFault):
            rows = {"day": self.day, "night": self.night}
            self._tell_fault(found.fault, rows.get(found.row))
            self.keep.setEnabled(False)
            return
        self._ask_about(None, None)
        self.keep.setEnabled(self._is_filled and not self._desk.is_keeping)
        self.told.setPlainText(room_words(found))

    def _tell_fault(self, fault: AirFault, row: AirRow | None) -> None:
        where = f"{row.name}: " if row is not None else ""
        self.told.setHtml(f"<p><b>\N{HEAVY MULTIPLICATION X}</b> {escape(where + fault.text)}</p>")
        announce(self.told, where + fault.text)
        self._ask_about(row, fault)

    def _ask_about(self, row: AirRow | None, fault: AirFault | None) -> None:
        """Ask whether Fahrenheit was meant, where a row is that hot."""
        is_asked = row is not None and fault is not None and fault.celsius is not None
        self._asked = (row, fault) if is_asked and row and fault else None
        self.celsius.setVisible(is_asked)
        self.stays.setVisible(is_asked and fault is not None and fault.may_stay)
        if row is not None and fault is not None and is_asked:
            self.celsius.setText(self.tr("Fahrenheit: &take {0} °C").format(f"{fault.celsius:g}"))
            self.stays.setText(self.tr("&It is so hot"))

    def _take_celsius(self) -> None:
        if self._asked is not None:
            row, fault = self._asked
            row.temperature.setText(f"{fault.celsius:g}")
            row.temperature.setFocus()

    def _let_stay(self) -> None:
        if self._asked is not None:
            self._asked[0].be_sure()

    # --- readings ----------------------------------------------------------------------------

    def _add(self) -> None:
        climate = read_air(self.now.typed())
        if isinstance(climate, AirFault):
            self._tell_fault(climate, self.now)
            return
        reading = AirReading(at=self._bridge.clock.now(), climate=climate)
        self._room = with_reading(self._room, reading)
        self.now.show_air(None)
        self._look()

    def _forget(self) -> None:
        self._room = Room(usual=self._room.usual, by_hour=self._room.by_hour, zone=self._room.zone)
        self._look()

    def _ask_log(self) -> None:
        title, kinds = (
            self.tr("Read a logger's file"),
            self.tr("Tables (*.csv *.txt *.tsv);;All (*)"),
        )
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
        self._room = with_readings(self._room, log.readings)
        self._look()
        self.told.setHtml(_log_html(log, self.told.toPlainText()))
        announce(self.told, self.told.toPlainText())

    # --- keeping -----------------------------------------------------------------------------

    def _keep(self) -> None:
        found = room_of(self._typed(), self._room)
        if isinstance(found, Room):
            self.keep.setEnabled(False)
            self._say(self.tr("Keeping it, and reckoning anew with it …"))
            self._desk.keep(found)

    def _say(self, said: str) -> None:
        self.told.setPlainText(said)
        announce(self.told, said)

    def _refuse(self, why: str) -> None:
        self._say(f"\N{HEAVY MULTIPLICATION X} {why}")

    def closeEvent(self, event: QCloseEvent) -> None:
        self._reader.close()
        super().closeEvent(event)


def _log_html(log: AirLog, words: str) -> str:
    def line(finding: Finding) -> str:
        return f"<li>{escape(finding.text)} {escape(finding.remedy or '')}</li>"

    found = "".join(line(finding) for finding in log.findings)
    return f"<p>{escape(words)}</p><ul>{found}</ul>" if found else f"<p>{escape(words)}</p>"
