"""A row of fields to put a question together: of what, and from when to when; or written out."""

from datetime import datetime, time

from PySide6.QtCore import QDateTime, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QDateTimeEdit,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.what_if_plan import EVENING, Subject
from armorplan.desktop.widgets.flow import Flow, named_field

SUBJECT_LETTERS = 24
WRITTEN_LETTERS = 56
_SHOWN = "yyyy-MM-dd HH:mm"


class SideForm(QWidget):
    """``asked`` carries a question in the notation of ``app.what_if_plan``."""

    asked = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("side_form")
        self.subject = QComboBox(self)
        self.since = QDateTimeEdit(self)
        self.until = QDateTimeEdit(self)
        self.add = QPushButton(self.tr("&Ask"), self)
        self.written = QLineEdit(self)
        self._subjects: tuple[Subject, ...] = ()
        self._name_all()
        self._lay_out()
        self.subject.currentIndexChanged.connect(self._allow)
        for edit in (self.since, self.until):
            edit.dateTimeChanged.connect(self._show_written)
        self.add.clicked.connect(self._ask)
        self.written.returnPressed.connect(self._ask_written)

    def _name_all(self) -> None:
        self.subject.setObjectName("side_subject")
        self.subject.setAccessibleName(self.tr("What would be otherwise"))
        self.subject.view().setAccessibleName(self.tr("What would be otherwise"))
        self.subject.setMinimumContentsLength(SUBJECT_LETTERS)
        for edit, name, spoken in (
            (self.since, "side_since", self.tr("From, local time of the shop")),
            (self.until, "side_until", self.tr("To, local time of the shop")),
        ):
            edit.setObjectName(name)
            edit.setAccessibleName(spoken)
            edit.setDisplayFormat(_SHOWN)
        self.add.setObjectName("side_add")
        self.add.setAutoDefault(False)
        self.written.setObjectName("side_written")
        self.written.setAccessibleName(self.tr("The question written out, Enter asks it"))
        self.written.setMinimumWidth(WRITTEN_LETTERS * self.fontMetrics().averageCharWidth())

    def _lay_out(self) -> None:
        flow = Flow(self)
        for words, field in (
            (self.tr("&What if"), self.subject),
            (self.tr("&from"), self.since),
            (self.tr("&to"), self.until),
        ):
            flow.add(named_field(words, field, self))
        flow.add(self.add)
        flow.add(named_field(self.tr("or wr&itten out"), self.written, self))
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(flow)

    def offer(self, subjects: tuple[Subject, ...], tomorrow: datetime) -> None:
        """Offer what can be asked about; hours begin with an evening of this day."""
        if subjects == self._subjects:
            return
        self._subjects = subjects
        self.subject.clear()
        for subject in subjects:
            self.subject.addItem(subject.title)
        for edit, at in zip((self.since, self.until), EVENING, strict=True):
            edit.setDateTime(_on(tomorrow, at))
        self._allow()

    @property
    def text(self) -> str:
        """The question in the notation; empty where nothing is offered."""
        at = self.subject.currentIndex()
        if not 0 <= at < len(self._subjects):
            return ""
        subject = self._subjects[at]
        return f"{subject.text}:{self._when()}" if subject.needs_hours else subject.text

    def _when(self) -> str:
        since, until = (
            edit.dateTime().toString("yyyy-MM-ddTHH:mm") for edit in (self.since, self.until)
        )
        return f"{since}..{until}"

    def _allow(self) -> None:
        at = self.subject.currentIndex()
        has_subject = 0 <= at < len(self._subjects)
        needs_hours = has_subject and self._subjects[at].needs_hours
        for edit in (self.since, self.until):
            edit.setEnabled(needs_hours)
        self.add.setEnabled(has_subject)
        self._show_written()

    def _show_written(self) -> None:
        """Show as a hint how what is chosen is written: with the names of this shop."""
        self.written.setPlaceholderText(self.text)
        self.written.setToolTip(self.text)

    def _ask(self) -> None:
        if self.text:
            self.asked.emit(self.text)

    def _ask_written(self) -> None:
        if self.written.text().strip():
            self.asked.emit(self.written.text().strip())


def _on(day: datetime, at: time) -> QDateTime:
    return QDateTime(day.year, day.month, day.day, at.hour, at.minute, 0)
