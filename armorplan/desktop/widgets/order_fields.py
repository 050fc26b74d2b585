"""The fields of what is agreed about one build: its dates, its weight, whether it is in hand."""

from datetime import tzinfo

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QFormLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QSpinBox,
    QWidget,
)

from armorplan.app.in_hand import InHand
from armorplan.app.order_form import TypedDate, date_text, typed_date
from armorplan.ledger.build_orders import LEAST_WEIGHT, MOST_WEIGHT

DATE_LETTERS = 18


class OrderFields(QWidget):
    """Shows what is agreed; ``wanted`` says that what is typed is to be agreed."""

    wanted = Signal()

    def __init__(self, zone: tzinfo, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("order_fields")
        self.zone = zone
        self.due = self._date("order_due", self.tr("Due, local date and time"))
        self.due.setPlaceholderText(self.tr("no date"))
        self.ready = self._date("order_ready", self.tr("Not to be begun before, local date"))
        self.ready.setPlaceholderText(self.tr("at any time"))
        self.weight = QSpinBox(self)
        self.weight.setObjectName("order_weight")
        self.weight.setAccessibleName(self.tr("What its lateness counts beside the others'"))
        self.weight.setRange(LEAST_WEIGHT, MOST_WEIGHT)
        self.in_hand = QCheckBox(self.tr("&In hand: planned with the others"), self)
        self.in_hand.setObjectName("order_in_hand")
        self.agree = QPushButton(self.tr("&Agree on this"), self)
        self.agree.setObjectName("order_agree")
        self.agree.setAutoDefault(False)
        self.agree.clicked.connect(self.wanted)
        self._lay_out()
        self.show_build(None)

    def _date(self, name: str, spoken: str) -> QLineEdit:
        line = QLineEdit(self)
        line.setObjectName(name)
        line.setAccessibleName(spoken)
        line.setToolTip(self.tr("Written as 2026-12-16 17:30; empty: none."))
        line.setMinimumWidth(DATE_LETTERS * line.fontMetrics().averageCharWidth())
        line.returnPressed.connect(self.wanted)
        return line

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.addRow(self.tr("&Due"), self.due)
        form.addRow(self.tr("Not &before"), self.ready)
        beside = QFormLayout()
        beside.addRow(self.tr("&Weight of its lateness"), self.weight)
        beside.addRow("", self.in_hand)
        across = QHBoxLayout(self)
        across.setContentsMargins(0, 0, 0, 0)
        across.addLayout(form)
        across.addLayout(beside)
        across.addStretch(1)
        across.addWidget(self.agree)

    def show_build(self, build: InHand | None) -> None:
        """Show what is agreed about a build; nothing can be typed where none is chosen."""
        for field in (self.due, self.ready, self.weight, self.in_hand, self.agree):
            field.setEnabled(build is not None)
        fields = (self.due, self.ready, self.weight, self.in_hand)
        blockers = [QSignalBlocker(field) for field in fields]
        self.due.setText(date_text(build.due_at, self.zone) if build else "")
        self.ready.setText(date_text(build.ready_at, self.zone) if build else "")
        self.weight.setValue(build.weight if build else LEAST_WEIGHT)
        self.in_hand.setChecked(bool(build and build.in_hand))
        blockers.clear()

    def typed(self) -> tuple[TypedDate, TypedDate]:
        """Return when it is due and when it can be begun, as typed."""
        return (
            typed_date(self.due.text(), self.zone, ends=True),
            typed_date(self.ready.text(), self.zone, ends=False),
        )
