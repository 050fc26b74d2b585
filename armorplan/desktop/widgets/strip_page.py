"""The page of the test strip: six numbers in, K with its formula out, kept for a leather."""

from html import escape
from itertools import pairwise

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.desktop.shapes_html import HEADS, figures_html, finding_html
from armorplan.desktop.strip_fields import (
    FIELDS,
    StripBench,
    StripField,
    plain_label,
    strip_of,
    strip_picture,
)
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.page_foot import close_box, fit_screen
from armorplan.desktop.widgets.shapes_picture import ShapePicture
from armorplan.geometry.bends.allowance import setback_mm
from armorplan.geometry.bends.strip import Strip, StripResult, read_strip

FIELD_PX = 110
LEATHER_LETTERS = 26
HINT_LINES = 3
"""Room for what to measure, so that nothing moves while one goes from field to field."""
PICTURE_PX = 190
WIDE_PX, HIGH_PX = 860, 620


class StripPage(QDialog):
    """Reckons while one types; does not hold up the bench."""

    def __init__(self, bench: StripBench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("strip_page")
        self.setWindowTitle(self.tr("Test strip of a leather"))
        self.setModal(False)
        self._bench = bench
        self._result: StripResult | None = None
        self._writer = Runner(self)
        self._reader = Runner(self)
        self.fields = {field.key: self._field(field) for field in FIELDS}
        self.outside = QCheckBox(self.tr("Legs are measured to the &outer corner"), self)
        self.leathers = QComboBox(self)
        self.hint = QLabel(self)
        self.picture = ShapePicture(self)
        self.told = QTextBrowser(self)
        self.keep = QPushButton(self.tr("&Keep for this leather"), self)
        self.kept = QLabel(self)
        self._name_all()
        self._lay_out()
        self.outside.toggled.connect(self._reckon)
        self.leathers.currentIndexChanged.connect(self._allow)
        self.keep.clicked.connect(self._keep)
        self._writer.answered.connect(self._tell)
        self._writer.failed.connect(self._tell_failed)
        self._reader.answered.connect(self._name_leathers)
        self._reader.failed.connect(self._tell_failed)
        self._reckon()
        self._reader.ask(lambda _report, _should_stop: bench.leathers())

    def _field(self, field: StripField) -> QLineEdit:
        line = QLineEdit(self)
        line.setObjectName(f"strip_{field.key}")
        line.setAccessibleName(f"{plain_label(field)}, {field.unit}")
        line.setAccessibleDescription(self.tr(field.help))
        line.setToolTip(self.tr(field.help))
        line.setMaximumWidth(FIELD_PX)
        line.textChanged.connect(self._reckon)
        line.installEventFilter(self)
        return line

    def _name_all(self) -> None:
        self.outside.setObjectName("strip_outside")
        self.leathers.setObjectName("strip_leather")
        self.leathers.setAccessibleName(self.tr("Leather"))
        self.leathers.setMinimumContentsLength(LEATHER_LETTERS)
        self.told.setObjectName("strip_told")
        self.told.setAccessibleName(self.tr("What the strip tells"))
        self.told.setTabChangesFocus(True)
        self.keep.setObjectName("strip_keep")
        self.keep.setAutoDefault(False)
        self.kept.setObjectName("strip_kept")
        self.kept.setWordWrap(True)
        self.hint.setObjectName("strip_hint")
        self.hint.setWordWrap(True)
        self.hint.setMinimumHeight(HINT_LINES * self.fontMetrics().height())
        self.hint.setAlignment(Qt.AlignmentFlag.AlignTop)

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.addRow(self.tr("&Leather"), self.leathers)
        for field in FIELDS:
            row = QHBoxLayout()
            row.addWidget(self.fields[field.key])
            row.addWidget(QLabel(field.unit, self))
            row.addStretch(1)
            name = QLabel(self.tr(field.label), self)
            name.setBuddy(self.fields[field.key])
            form.addRow(name, row)
        form.addRow(self.outside)
        form.addRow(self.hint)
        how = QLabel(
            self.tr(
                "Bend a strip of the leather round a rod as you bend your parts, let it dry, "
                "and measure it."
            ),
            self,
        )
        how.setWordWrap(True)
        self.picture.setMinimumHeight(PICTURE_PX)
        left = QVBoxLayout()
        left.addWidget(how)
        left.addLayout(form)
        left.addStretch(1)
        right = QVBoxLayout()
        right.addWidget(self.picture, 2)
        right.addWidget(self.told, 3)
        across = QHBoxLayout()
        across.addLayout(left, 4)
        across.addLayout(right, 5)
        foot = QHBoxLayout()
        foot.addWidget(self.keep)
        foot.addWidget(self.kept, 1)
        foot.addWidget(close_box(self))
        whole = QVBoxLayout(self)
        whole.addLayout(across, 1)
        whole.addLayout(foot)
        order = (self.leathers, *self.fields.values(), self.outside, self.picture, self.told)
        for one, other in pairwise((*order, self.keep)):
            self.setTabOrder(one, other)
        self.leathers.setFocus()
        fit_screen(self, WIDE_PX, HIGH_PX)

    def _name_leathers(self, leathers: tuple[tuple[str, str], ...]) -> None:
        for leather_id, name in leathers:
            self.leathers.addItem(name, leather_id)
        self._allow()

    # --- reckoning --------------------------------------------------------------------------

    def _reckon(self) -> None:
        typed = {key: line.text() for key, line in self.fields.items()}
        strip = strip_of(typed, outside=self.outside.isChecked())
        self.kept.clear()
        if isinstance(strip, str):
            self._result = None
            self.picture.show_picture(None)
            self.told.setPlainText(strip)
        else:
            self._result = read_strip(strip)
            self._show(strip, self._result)
        self._allow()

    def _show(self, strip: Strip, result: StripResult) -> None:
        setback = setback_mm(strip.angle_deg, strip.radius_mm, strip.thickness_mm)
        past_mm = (setback or 0.0) if strip.outside else 0.0
        self.picture.show_picture(strip_picture(strip, past_mm))
        colours = colours_of(self.palette())
        head = ""
        if result.neutral is not None:
            told = self.tr("K = {0}: the bend keeps its length at {1} % of the thickness.")
            words = told.format(f"{result.neutral:.2f}", round(100 * result.neutral))
            head = f"<p><b>{escape(words)}</b></p>"
        finding = finding_html(result.finding, colours) if result.finding else ""
        heads = tuple(self.tr(one) for one in HEADS)
        self.told.document().setDefaultFont(self.font())
        self.told.setHtml(
            head + finding + figures_html(result.figures, colours, heads, wide=False)
        )

    def _allow(self) -> None:
        """What is no measure cannot be kept, nor kept twice at once."""
        has_measure = self._result is not None and self._result.neutral is not None
        chosen = self.leathers.currentIndex() >= 0
        self.keep.setEnabled(has_measure and chosen and not self._writer.is_busy)

    # --- keeping ----------------------------------------------------------------------------

    def _keep(self) -> None:
        result, leather = self._result, str(self.leathers.currentData())
        if result is None:
            return
        write = self._bench.keep

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            return write(leather, result)

        self._writer.ask(work)
        self._allow()

    def _tell(self, said: str) -> None:
        self.kept.setText(said)
        announce(self.kept, said)
        self._allow()

    def _tell_failed(self, error: Exception) -> None:
        self._tell(str(error))

    # --- events -----------------------------------------------------------------------------

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Say below the fields what to measure for the one that has the keyboard."""
        if event.type() == QEvent.Type.FocusIn and isinstance(watched, QLineEdit):
            self.hint.setText(watched.accessibleDescription())
        return super().eventFilter(watched, event)

    def closeEvent(self, event: QCloseEvent) -> None:
        self._writer.close()
        self._reader.close()
        super().closeEvent(event)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._reckon()
