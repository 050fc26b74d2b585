"""What machines were set to: what cut each leather last, all trials, and a form for the next one."""

from itertools import pairwise

from PySide6.QtWidgets import (
    QComboBox,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QPushButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.cut_log_words import leather_words, result_words, setting_words
from armorplan.app.cutting import MOST_PASSES, Tried
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.announcing import announce
from armorplan.files.typed_numbers import typed_number
from armorplan.kernel.errors import ArmorplanError
from armorplan.needs.cutting.model import CutLeather
from armorplan.workshop.cut_settings import CutResult

LEATHER_LETTERS = 22


class CutLogForm(QWidget):
    """Reads and keeps the log through the session; rows are only added."""

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("cut_log")
        self._bridge = bridge
        self._leathers: tuple[CutLeather, ...] = ()
        self.leathers = QComboBox(self)
        self.good = QLabel(self)
        self.machine = QLineEdit(self)
        self.words = QLineEdit(self)
        self.passes = QSpinBox(self)
        self.kerf = QLineEdit(self)
        self.result = QComboBox(self)
        self.note = QLineEdit(self)
        self.keep = QPushButton(self.tr("&Keep it in the log"), self)
        self.told = QLabel(self)
        self.log = QListWidget(self)
        self._name_all()
        self._lay_out()
        self.leathers.currentIndexChanged.connect(self._tell_good)
        self.keep.clicked.connect(self._keep)

    def _name_all(self) -> None:
        for widget, name, said in (
            (self.leathers, "cut_log_leather", self.tr("Leather")),
            (self.machine, "cut_log_machine", self.tr("Machine")),
            (self.words, "cut_log_words", self.tr("Set to")),
            (self.passes, "cut_log_passes", self.tr("Times over the line")),
            (self.kerf, "cut_log_kerf", self.tr("Kerf measured, in mm")),
            (self.result, "cut_log_result", self.tr("How it came out")),
            (self.note, "cut_log_note", self.tr("Note")),
            (self.log, "cut_log_rows", self.tr("All trials, the latest first")),
        ):
            widget.setObjectName(name)
            widget.setAccessibleName(said)
        self.leathers.setMinimumContentsLength(LEATHER_LETTERS)
        adjust = QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        self.leathers.setSizeAdjustPolicy(adjust)
        self.passes.setRange(1, MOST_PASSES)
        self.words.setPlaceholderText(self.tr("power, speed, focus, blade"))
        for result in CutResult:
            self.result.addItem(result_words(result), result)
        self.keep.setObjectName("cut_log_keep")
        self.keep.setEnabled(False)
        self.keep.setAutoDefault(False)
        for label, name in ((self.good, "cut_log_good"), (self.told, "cut_log_told")):
            label.setObjectName(name)
            label.setWordWrap(True)
        self.log.setWordWrap(True)

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        form.addRow(self.tr("&Leather"), self.leathers)
        form.addRow(self.tr("Cut it last"), self.good)
        form.addRow(self.tr("&Machine"), self.machine)
        form.addRow(self.tr("Set &to"), self.words)
        form.addRow(self.tr("Times &over"), self.passes)
        form.addRow(self.tr("Kerf, &mm"), self.kerf)
        form.addRow(self.tr("Came &out"), self.result)
        form.addRow(self.tr("&Note"), self.note)
        foot = QHBoxLayout()
        foot.addWidget(self.keep)
        foot.addWidget(self.told, 1)
        whole = QVBoxLayout(self)
        whole.addLayout(form)
        whole.addLayout(foot)
        whole.addWidget(self.log, 1)
        typed = (self.machine, self.words, self.passes, self.kerf, self.result, self.note)
        for one, other in pairwise((self.leathers, *typed, self.keep, self.log)):
            self.setTabOrder(one, other)

    def show_leathers(self, leathers: tuple[CutLeather, ...]) -> None:
        """Offer the leathers of the build, the same one as before where it is among them."""
        chosen = self.leathers.currentText()
        self._leathers = leathers
        self.leathers.blockSignals(True)
        self.leathers.clear()
        self.leathers.addItems([leather_words(one) for one in leathers])
        self.leathers.setCurrentIndex(max(self.leathers.findText(chosen), 0))
        self.leathers.blockSignals(False)
        self.read()

    def read(self) -> None:
        """Read the log anew: another window may have added to it."""
        rows = self._bridge.session.cutting.log()
        names = {(one.leather, one.thickness_mm): leather_words(one) for one in self._leathers}
        self.log.clear()
        for one in rows:
            usual = f"{one.leather}, {one.thickness_mm:g} mm"
            leather = names.get((one.leather, one.thickness_mm), usual)
            self.log.addItem(f"{setting_words(one, self._bridge.zone)} ({leather})")
        self._tell_good()

    def _chosen(self) -> CutLeather | None:
        at = self.leathers.currentIndex()
        return self._leathers[at] if 0 <= at < len(self._leathers) else None

    def _tell_good(self) -> None:
        leather = self._chosen()
        found = self._bridge.session.cutting.good(leather) if leather else ()
        self.good.setText(
            "\n".join(setting_words(one, self._bridge.zone) for one in found)
            or self.tr("Nothing is kept yet that cut it through.")
        )
        self.keep.setEnabled(leather is not None)

    def _keep(self) -> None:
        leather = self._chosen()
        if leather is None:
            return
        kerf_mm = typed_number(self.kerf.text()) if self.kerf.text().strip() else None
        if self.kerf.text().strip() and kerf_mm is None:
            self._tell(self.tr("Kerf: write a number of mm, such as 0.2. Nothing was kept."))
            return
        tried = Tried(
            machine=self.machine.text(),
            leather=leather,
            words=self.words.text(),
            passes=self.passes.value(),
            result=CutResult(self.result.currentData()),
            kerf_mm=kerf_mm,
            note=self.note.text(),
        )
        try:
            self._bridge.session.cutting.keep(tried)
        except ArmorplanError as error:
            self._tell(str(error))
            return
        self.note.clear()
        self.read()
        self._tell(self.tr("Kept."))

    def _tell(self, said: str) -> None:
        self.told.setText(said)
        announce(self.told, said)
