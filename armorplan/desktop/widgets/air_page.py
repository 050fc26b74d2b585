"""The page of the shop's air: one value or day and night, readings, a logger's file, the room's size."""

from dataclasses import replace

from PySide6.QtCore import QSignalBlocker
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
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

from armorplan.app.air_form import AirFault
from armorplan.app.air_sheet import RoomFault, TypedRoom, beside_words, room_of, shown_days
from armorplan.app.shop_air import ShopAir, room_words
from armorplan.desktop.air_desk import AirDesk
from armorplan.desktop.air_words import fault_html, lines, log_html
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.air_readings import AirReadings
from armorplan.desktop.widgets.air_row import AirRow
from armorplan.desktop.widgets.air_rule import AirRuleLabel
from armorplan.desktop.widgets.alt_letters import AltLetters
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.page_foot import close_box, fit_screen
from armorplan.files.climate_csv import AirLog
from armorplan.files.log_units import LogQuestion, Meant
from armorplan.workshop.air import DAY_FROM_H, NIGHT_FROM_H, Room

WIDE_PX, HIGH_PX = 620, 560
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
        self._room = Room()
        self._is_filled = False
        self.rule = AirRuleLabel(desk, bridge, self)
        self.day = AirRow("day", self.tr("By day"), self)
        self.has_night = QCheckBox(self.tr("The &nights are otherwise"), self)
        self.night = AirRow("night", self.tr("By night"), self)
        self.hours = (self._hour("day_from", DAY_FROM_H), self._hour("night_from", NIGHT_FROM_H))
        self.readings = AirReadings(bridge, self)
        self.volume = QLineEdit(self)
        self.told = QTextBrowser(self)
        self.celsius = QPushButton(self)
        self.stays = QPushButton(self)
        self.leave = QPushButton(self.tr("&Leave the file out"), self)
        self.keep = QPushButton(self.tr("&Keep as the air of the shop"), self)
        self._asked: tuple[AirRow, AirFault] | None = None
        self._name_all()
        self._lay_out()
        self._connect()
        AltLetters(self)
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
            (self.volume, "air_volume"),
            (self.told, "air_told"),
            (self.celsius, "air_celsius"),
            (self.stays, "air_stays"),
            (self.leave, "air_leave"),
            (self.keep, "air_keep"),
        ):
            widget.setObjectName(name)
        for button in (self.celsius, self.stays, self.leave, self.keep):
            button.setAutoDefault(False)
        self.volume.setAccessibleName(self.tr("Volume of the room, cubic metres"))
        self.volume.setMaximumWidth(FIELD_PX)
        self.told.setAccessibleName(self.tr("What the form says"))
        self.told.setTabChangesFocus(True)

    def _lay_out(self) -> None:
        answers = QHBoxLayout()
        for button in (self.celsius, self.stays, self.leave):
            answers.addWidget(button)
            button.hide()
        answers.addStretch(1)
        foot = QHBoxLayout()
        foot.addWidget(self.keep)
        foot.addStretch(1)
        foot.addWidget(close_box(self))
        whole = QVBoxLayout(self)
        whole.addWidget(self.rule)
        whole.addLayout(self._form())
        whole.addWidget(self.told, 1)
        whole.addLayout(answers)
        whole.addLayout(foot)
        fit_screen(self, WIDE_PX, HIGH_PX)

    def _form(self) -> QFormLayout:
        form = QFormLayout()
        form.addRow(self.tr("Air b&y day"), self.day)
        form.addRow("", self.has_night)
        form.addRow(self.tr("Air by n&ight"), self.night)
        hours = QHBoxLayout()
        names = (self.tr("day from"), self.tr("night from"))
        for words, box in zip(names, self.hours, strict=True):
            hours.addWidget(QLabel(words, self))
            hours.addWidget(box)
        hours.addStretch(1)
        form.addRow("", hours)
        form.addRow(self.tr("As it is n&ow"), self.readings)
        size = QHBoxLayout()
        size.addWidget(self.volume)
        size.addWidget(QLabel(self.tr("m³, for what evaporates into it; may be left empty"), self))
        size.addStretch(1)
        name = QLabel(self.tr("&Volume of the room"), self)
        name.setBuddy(self.volume)
        form.addRow(name, size)
        return form

    def _connect(self) -> None:
        for row in (self.day, self.night, self.readings):
            row.changed.connect(self._look)
        self.has_night.toggled.connect(self._look)
        for box in self.hours:
            box.valueChanged.connect(self._look)
        self.volume.textChanged.connect(self._look)
        self.readings.faulty.connect(lambda fault: self._tell_fault(fault, self.readings.now))
        self.readings.logged.connect(self._tell_log)
        self.readings.refused.connect(self._refuse)
        self.celsius.clicked.connect(self._take_meant)
        self.stays.clicked.connect(self._let_stay)
        self.leave.clicked.connect(self.readings.leave_out)
        self.keep.clicked.connect(self._keep)
        self._desk.shown.connect(self._take)
        self._desk.kept.connect(self._tell_kept)
        self._desk.refused.connect(self._refuse)
        self._desk.busy.connect(lambda _busy: self._look())

    # --- what is kept ------------------------------------------------------------------------

    def _take(self, air: ShopAir) -> None:
        """Show the air that counts, once; what was typed meanwhile stays."""
        if self._is_filled:
            return
        self._is_filled = True
        self._room = air.kept or air.room
        two = shown_days(self._room)
        day = two.day if two else next(iter(self._room.by_hour), self._room.usual)
        self.day.show_air(day)
        self.night.show_air(two.night if two else day)
        begins = (two.day_from_h, two.night_from_h) if two else (DAY_FROM_H, NIGHT_FROM_H)
        for box, hour in zip(self.hours, begins, strict=True):
            with QSignalBlocker(box):
                box.setValue(hour)
        with QSignalBlocker(self.has_night), QSignalBlocker(self.volume):
            self.has_night.setChecked(two is not None)
            volume_m3 = self._room.volume_m3
            self.volume.setText("" if volume_m3 is None else f"{volume_m3:g}")
        self.readings.show_readings(self._room.readings)

    def _typed(self) -> TypedRoom:
        return TypedRoom(
            has_night=self.has_night.isChecked(),
            day=self.day.typed(),
            night=self.night.typed(),
            day_from_h=self.hours[0].value(),
            night_from_h=self.hours[1].value(),
            volume=self.volume.text(),
        )

    def _found(self) -> Room | RoomFault:
        return room_of(self._typed(), replace(self._room, readings=self.readings.readings))

    def _look(self) -> None:
        """Say what the form says as it stands, or what is wrong with it."""
        for widget in (self.night, *self.hours):
            widget.setEnabled(self.has_night.isChecked())
        question = self.readings.question
        if question is not None:
            self._ask_of_file(question)
            self.keep.setEnabled(False)
            return
        found = self._found()
        if isinstance(found, RoomFault):
            rows = {"day": self.day, "night": self.night}
            self._tell_fault(found.fault, rows.get(found.row))
            self.keep.setEnabled(False)
            return
        self._ask_about(None, None)
        self.keep.setEnabled(self._is_filled and not self._desk.is_keeping)
        self.told.setPlainText(lines(room_words(found), beside_words(found)))

    def _tell_fault(self, fault: AirFault, row: AirRow | None) -> None:
        where = f"{row.name}: " if row is not None else ""
        self.told.setHtml(fault_html(where + fault.text))
        announce(self.told, where + fault.text)
        self._ask_about(row, fault)

    def _ask_about(self, row: AirRow | None, fault: AirFault | None) -> None:
        is_asked = row is not None and fault is not None and fault.is_question
        self._asked = (row, fault) if is_asked and row and fault else None
        self.leave.hide()
        self.celsius.setVisible(is_asked)
        self.stays.setVisible(is_asked and fault is not None and fault.may_stay)
        if self._asked is not None and fault is not None:
            is_warm = fault.celsius is not None
            taken = f"{fault.celsius:g} °C" if is_warm else f"{fault.pct:g} %"
            self._name_answers(is_warm=is_warm, taken=taken)

    def _ask_of_file(self, question: LogQuestion) -> None:
        """Ask in what unit a logger's file is: it is taken as a whole or not at all."""
        self._tell_fault(AirFault(field="file", text=str(question.finding.text)), None)
        self.celsius.show()
        self.leave.show()
        self.stays.setVisible(question.may_stay)
        is_warm = question.perhaps is Meant.FAHRENHEIT
        self._name_answers(is_warm=is_warm, taken=question.words)

    def _name_answers(self, *, is_warm: bool, taken: str) -> None:
        unit = self.tr("Fahrenheit") if is_warm else self.tr("A share")
        self.celsius.setText(self.tr("{0}: &take {1}").format(unit, taken))
        self.stays.setText(self.tr("It is &so hot") if is_warm else self.tr("It is &so dry"))

    def _take_meant(self) -> None:
        question = self.readings.question
        if question is not None:
            self.readings.answer(question.perhaps)
        elif self._asked is not None:
            row, fault = self._asked
            is_warm = fault.celsius is not None
            field = row.temperature if is_warm else row.humidity
            field.setText(f"{fault.celsius if is_warm else fault.pct:g}")
            field.setFocus()

    def _let_stay(self) -> None:
        question = self.readings.question
        if question is not None:
            self.readings.answer(question.as_written)
        elif self._asked is not None:
            self._asked[0].be_sure()

    def _tell_log(self, log: AirLog) -> None:
        self.told.setHtml(log_html(log, self.told.toPlainText()))
        announce(self.told, self.told.toPlainText())

    # --- keeping -----------------------------------------------------------------------------

    def _keep(self) -> None:
        found = self._found()
        if isinstance(found, Room):
            self.keep.setEnabled(False)
            self._say(self.tr("Keeping it, and reckoning anew with it …"))
            self._desk.keep(found, instead=self.rule.corrects)

    def _tell_kept(self, said: str) -> None:
        """Say what was kept, and which of it counts when."""
        found = self._found()
        self._say(lines(said, beside_words(found) if isinstance(found, Room) else ""))

    def _say(self, said: str) -> None:
        self.told.setPlainText(said)
        announce(self.told, said)

    def _refuse(self, why: str) -> None:
        self._say(f"\N{HEAVY MULTIPLICATION X} {why}")

    def closeEvent(self, event: QCloseEvent) -> None:
        self.readings.end_jobs()
        super().closeEvent(event)
