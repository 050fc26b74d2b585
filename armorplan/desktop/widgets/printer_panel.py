"""Scale of the printer: the bars as they came out are typed in, and sheets make up for them."""

from itertools import pairwise

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.announcing import announce
from armorplan.files.typed_numbers import typed_number
from armorplan.kernel.errors import ArmorplanError
from armorplan.sheets.printer_scale import PrinterScale, bar_question, scale_words

FIELD_PX = 110


class PrinterPanel(QWidget):
    """Worked by ``begin``; reads and keeps through the bridge, at once."""

    left = Signal()

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("printer")
        self._bridge = bridge
        self.used = QComboBox(self)
        self.name = QLineEdit(self)
        self.along = QLineEdit(self)
        self.up = QLineEdit(self)
        self.keep = QPushButton(self.tr("&Keep, and draw for it"), self)
        self.close_it = QPushButton(self.tr("Close"), self)
        self.told = QLabel(self)
        self._name_all()
        self._lay_out()
        self.used.activated.connect(self._use)
        self.keep.clicked.connect(self._keep)
        self.close_it.clicked.connect(self.left)

    def _name_all(self) -> None:
        for widget, name, said in (
            (self.used, "printer_used", self.tr("Sheets are drawn for")),
            (self.name, "printer_name", self.tr("Your name for the printer")),
            (self.along, "printer_along", self.tr("Bar along the page, in mm")),
            (self.up, "printer_up", self.tr("Bar up the page, in mm")),
        ):
            widget.setObjectName(name)
            widget.setAccessibleName(said)
        for field in (self.along, self.up):
            field.setMaximumWidth(FIELD_PX)
            field.setPlaceholderText("98.7")
        for button, name in ((self.keep, "printer_keep"), (self.close_it, "printer_close")):
            button.setObjectName(name)
            button.setAutoDefault(False)
        self.told.setObjectName("printer_told")
        self.told.setWordWrap(True)

    def _lay_out(self) -> None:
        how = QLabel(
            self.tr(
                "Save the parts at full size with 'true to size' chosen here and print them at 100 %, "
                "never fitted to the page. Measure the two bars of 100 mm, along the page and up it, "
                "and type them in as they came out. Sheets saved from then on make up for the printer."
            ),
            self,
        )
        how.setWordWrap(True)
        form = QFormLayout()
        form.addRow(self.tr("Sheets are &drawn for"), self.used)
        form.addRow(self.tr("&Name of the printer"), self.name)
        form.addRow(self.tr("Bar &along, mm"), self.along)
        form.addRow(self.tr("Bar &up, mm"), self.up)
        foot = QHBoxLayout()
        foot.addWidget(self.keep)
        foot.addStretch(1)
        foot.addWidget(self.close_it)
        whole = QVBoxLayout(self)
        whole.addWidget(how)
        whole.addLayout(form)
        whole.addWidget(self.told)
        whole.addStretch(1)
        whole.addLayout(foot)
        order = (self.used, self.name, self.along, self.up, self.keep, self.close_it)
        for one, other in pairwise(order):
            self.setTabOrder(one, other)

    def begin(self) -> None:
        """Show the printers that are kept."""
        printers = self._bridge.printers
        self.used.clear()
        self.used.addItem(self.tr("any printer, true to size"), "")
        self.keep.setEnabled(printers is not None)
        try:
            used = printers.in_use().printer if printers else ""
            for scale in printers.scales() if printers else ():
                words = scale_words(scale) or self.tr("true to size")
                self.used.addItem(f"{scale.printer}: {words}", scale.printer)
        except ArmorplanError as error:
            self._tell(str(error))
            return
        self.used.setCurrentIndex(max(self.used.findData(used), 0))
        self.name.setFocus()

    def _use(self, at: int) -> None:
        printer = str(self.used.itemData(at))
        try:
            if self._bridge.printers is not None:
                self._bridge.printers.use(printer)
        except ArmorplanError as error:
            self._tell(str(error))
            return
        who = printer or self.tr("any printer, true to size")
        self._tell(self.tr("Sheets are drawn for: {0}.").format(who))

    def _keep(self) -> None:
        scale = self._typed()
        if isinstance(scale, str):
            self._tell(scale)
            return
        try:
            if self._bridge.printers is not None:
                self._bridge.printers.keep(scale)
        except ArmorplanError as error:
            self._tell(str(error))
            return
        self.begin()
        words = scale_words(scale) or self.tr("true to size")
        self._tell(self.tr("Kept: {0}, {1}.").format(scale.printer, words))

    def _typed(self) -> PrinterScale | str:
        """Return what was typed, or what is asked about it."""
        along_mm, up_mm = (typed_number(field.text()) for field in (self.along, self.up))
        if along_mm is None or up_mm is None:
            return self.tr("Write both lengths in mm, such as 98.7. Nothing was kept.")
        asked = bar_question(along_mm) or bar_question(up_mm)
        if asked:
            return self.tr("{0} Nothing was kept.").format(asked)
        return PrinterScale(along_mm=along_mm, up_mm=up_mm, printer=self.name.text().strip())

    def _tell(self, said: str) -> None:
        self.told.setText(said)
        announce(self.told, said)

    def close_jobs(self) -> None:
        """Nothing goes on here beside the window."""
