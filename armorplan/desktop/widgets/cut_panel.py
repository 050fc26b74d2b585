"""Cutting: what is cut of which leather, how it lies on a bed, files for the cutter, the log."""

from itertools import pairwise

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSplitter,
    QTabWidget,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.cutting import CutPage
from armorplan.app.needs_rows import NeedsPage
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.desktop.needs_html import needs_html
from armorplan.desktop.settings import CUTTING, Settings
from armorplan.desktop.shapes_html import finding_html
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.cut_asking import CutAsking
from armorplan.desktop.widgets.cut_bed_side import BedSide
from armorplan.desktop.widgets.cut_log_form import CutLogForm
from armorplan.desktop.widgets.cut_saver import CutSaver

SHARES_PX = (600, 460)
TEXT_PX = 440
"""Narrower than this the columns of the list break within words."""


class CutPanel(QWidget):
    """Reckons off the window's thread whenever what is typed can be asked."""

    left = Signal()

    def __init__(
        self, bridge: Bridge, settings: Settings | None = None, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("cutting")
        self._bridge = bridge
        self._settings = settings
        self._page: CutPage | None = None
        self._reckoner = Runner(self)
        self.saver = CutSaver(bridge, self)
        self.asking = CutAsking(self)
        self.fault, self.told = QLabel(self), QLabel(self)
        self.text = QTextBrowser(self)
        self.beds = BedSide(self)
        self.log = CutLogForm(bridge, self)
        self.save_list = QPushButton(self.tr("Save the &list as CSV …"), self)
        self.save_beds = QPushButton(self.tr("Save beds for the &cutter …"), self)
        self._name_all()
        self._lay_out()
        if settings is not None:
            self.asking.take(settings.value(CUTTING))
        self.asking.changed.connect(self.refresh)
        self._reckoner.answered.connect(self._show)
        self._reckoner.failed.connect(lambda error: self.fault.setText(str(error)))
        self.save_list.clicked.connect(lambda: self.saver.ask_list(self.page))
        self.save_beds.clicked.connect(lambda: self.saver.ask_beds(self.page))
        self.saver.says.connect(self.told.setText)
        bridge.opened.connect(self._forget)
        self._allow()

    def _name_all(self) -> None:
        self.text.setObjectName("cut_text")
        self.text.setAccessibleName(self.tr("What is cut"))
        self.text.setTabChangesFocus(True)
        self.text.setOpenLinks(False)
        self.text.setMinimumWidth(TEXT_PX)
        for button, name in (
            (self.save_list, "cut_save_list"),
            (self.save_beds, "cut_save_beds"),
        ):
            button.setObjectName(name)
            button.setAutoDefault(False)
        self.save_beds.setToolTip(self.tr("An SVG or DXF drawing of each bed, in mm"))
        for label, name in ((self.fault, "cut_fault"), (self.told, "cut_told")):
            label.setObjectName(name)
            label.setWordWrap(True)
        self.fault.hide()

    def _lay_out(self) -> None:
        tabs = QTabWidget(self)
        tabs.setObjectName("cut_tabs")
        tabs.addTab(self.beds, self.tr("B&eds"))
        tabs.addTab(self.log, self.tr("&Settings of the machine"))
        across = QSplitter(Qt.Orientation.Horizontal, self)
        across.setChildrenCollapsible(False)
        across.addWidget(self.text)
        across.addWidget(tabs)
        across.setSizes(list(SHARES_PX))
        foot = QHBoxLayout()
        foot.addWidget(self.save_list)
        foot.addWidget(self.save_beds)
        foot.addWidget(self.told, 1)
        whole = QVBoxLayout(self)
        whole.addWidget(self.asking)
        whole.addWidget(self.fault)
        whole.addWidget(across, 1)
        whole.addLayout(foot)
        order = (*self.asking.fields, self.text, tabs, self.save_list, self.save_beds)
        for one, other in pairwise(order):
            self.setTabOrder(one, other)

    def begin(self) -> None:
        """Show the build as it stands."""
        self.asking.setFocus()
        self.refresh()

    def refresh(self) -> None:
        """Reckon anew with what is typed; what cannot be read is told and the former page stays."""
        asked = self.asking.asked()
        is_fault = isinstance(asked, str)
        self.fault.setText(asked if isinstance(asked, str) else "")
        self.fault.setVisible(is_fault)
        if isinstance(asked, str):
            return
        make = self._bridge.session.cutting.asking(asked)

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            return make()

        self._reckoner.ask(work)

    def _forget(self) -> None:
        """Another build is shown: what is still reckoned speaks of the former one."""
        self._reckoner.drop()
        self._page = None
        self.told.clear()
        self._allow()
        if self.isVisible():
            self.refresh()

    @property
    def page(self) -> CutPage | None:
        """What is shown; ``None`` until it is reckoned."""
        return self._page

    def _show(self, page: CutPage) -> None:
        self._page = page
        self.beds.show_beds(page.beds)
        self.log.show_leathers(page.found.leathers)
        self._draw()
        self._allow()

    def _draw(self) -> None:
        """Write the list anew and stay where the eye was."""
        if self._page is None:
            return
        colours, bar = colours_of(self.palette()), self.text.verticalScrollBar()
        before = bar.value()
        told = "".join(finding_html(one, colours) for one in self._page.findings)
        listed = NeedsPage(
            title=self._page.found.pattern, tray="", trays=(), sections=self._page.sections
        )
        self.text.document().setDefaultFont(self.font())
        self.text.setHtml(told + needs_html(listed, colours))
        bar.setValue(before)

    def _allow(self) -> None:
        self.save_list.setEnabled(self._page is not None)
        self.save_beds.setEnabled(self._page is not None and bool(self._page.beds))

    def close_jobs(self) -> None:
        """Wait for what is still reckoned or written; what was typed stands there next time."""
        if self._settings is not None and not isinstance(self.asking.asked(), str):
            self._settings.put(CUTTING, self.asking.typed())
        self._reckoner.close()
        self.saver.end_jobs()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._draw()
