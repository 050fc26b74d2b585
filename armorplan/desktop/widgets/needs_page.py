"""What the build uses up, section by section, and a table of it for any spreadsheet."""

from pathlib import Path

from PySide6.QtCore import QEvent, QSignalBlocker
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QMenu,
    QPushButton,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.needs_rows import NeedsPage
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.desktop.needs_html import needs_html
from armorplan.desktop.theme import colours_of

MARGIN_PX = 8
NAME_OF_FILE = "needs.csv"


class NeedsView(QWidget):
    """Asks for the take-off off the window's thread once it is in sight, and follows the build."""

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("needs_page")
        self._bridge = bridge
        self._shown: NeedsPage | None = None
        self._tray = ""
        self._reckoner = Runner(self)
        self._writer = Runner(self)
        self.text = QTextBrowser(self)
        self.sections = QPushButton(self.tr("&Go to section"), self)
        self.sections.setMenu(QMenu(self.sections))
        self.trays = QComboBox(self)
        self._trays_name = QLabel(self.tr("&Tray:"), self)
        self._save = QPushButton(self.tr("Save as CSV …"), self)
        self._name_all()
        self._lay_out()
        self.setFocusProxy(self.text)
        self._reckoner.answered.connect(self._show)
        self._reckoner.failed.connect(self._tell_failed)
        self._writer.answered.connect(self._tell_written)
        self._writer.failed.connect(self._tell_unwritten)
        self.trays.activated.connect(self._choose_tray)
        self._save.clicked.connect(self.ask_file)
        bridge.opened.connect(self._forget)
        bridge.changed.connect(self.refresh)

    def _name_all(self) -> None:
        self.text.setObjectName("needs_text")
        self.text.setAccessibleName(self.tr("What the build needs"))
        self.text.setOpenLinks(False)
        self.text.setTabChangesFocus(True)
        self.text.document().setDocumentMargin(MARGIN_PX)
        self.sections.setObjectName("needs_sections")
        self.sections.setAccessibleName(self.tr("Go to a section"))
        self.trays.setObjectName("needs_trays")
        self.trays.setAccessibleName(self.tr("Tray that baths are reckoned for"))
        self._trays_name.setBuddy(self.trays)
        self._save.setObjectName("needs_save")
        self._save.setAccessibleName(self.tr("Save what the build needs as CSV"))

    def _lay_out(self) -> None:
        across = QHBoxLayout()
        across.addWidget(self.sections)
        across.addWidget(self._trays_name)
        across.addWidget(self.trays)
        across.addStretch(1)
        across.addWidget(self._save)
        down = QVBoxLayout(self)
        down.setContentsMargins(MARGIN_PX, MARGIN_PX, MARGIN_PX, MARGIN_PX)
        down.addLayout(across)
        down.addWidget(self.text, 1)
        self._show_trays(())

    def refresh(self) -> None:
        """Ask for the take-off where it is in sight; the session reckons it once for a build."""
        if not self.isVisible():
            return
        session, tray = self._bridge.session, self._tray

        def reckon(_report: Report, _should_stop: ShouldStop) -> object:
            return session.needs(tray)

        self._reckoner.ask(reckon)

    def ask_file(self) -> None:
        """Ask where the table of figures is to go, and write it there."""
        named = str(Path.home() / NAME_OF_FILE)
        title, kinds = self.tr("Save what the build needs"), self.tr("Tables (*.csv)")
        chosen, _ = QFileDialog.getSaveFileName(self, title, named, kinds)
        if chosen:
            self._write(Path(chosen))

    def _write(self, file: Path) -> None:
        session, tray = self._bridge.session, self._tray
        said = self.tr("Written: {0}").format(file)

        def write(_report: Report, _should_stop: ShouldStop) -> object:
            # With a mark of its encoding, so that spreadsheets read ² and × for what they are.
            file.write_text(session.needs_csv(tray), encoding="utf-8-sig", newline="")
            return said

        self._writer.ask(write)

    def end_jobs(self) -> None:
        """Wait for what is still being reckoned or written."""
        self._reckoner.close()
        self._writer.close()

    def _forget(self) -> None:
        """Another build is shown: what is still reckoned speaks of the former one."""
        self._reckoner.drop()
        self._shown, self._tray = None, ""
        self.text.clear()
        self.refresh()

    def _show(self, page: NeedsPage) -> None:
        if page == self._shown:
            return
        self._shown, self._tray = page, page.tray
        self._show_trays(page.trays)
        self._show_sections(page)
        self._draw()

    def _show_trays(self, trays: tuple[tuple[str, str], ...]) -> None:
        with QSignalBlocker(self.trays):
            self.trays.clear()
            for tray_id, name in trays:
                self.trays.addItem(name, tray_id)
            self.trays.setCurrentIndex(self.trays.findData(self._tray))
        for widget in (self.trays, self._trays_name):
            widget.setVisible(len(trays) > 1)

    def _show_sections(self, page: NeedsPage) -> None:
        menu = self.sections.menu()
        menu.clear()
        for section in page.sections:
            action = menu.addAction(section.title)
            action.triggered.connect(lambda _on, to=section.id: self.text.scrollToAnchor(to))

    def _draw(self) -> None:
        """Write the page anew and stay where the eye was."""
        if self._shown is None:
            return
        bar = self.text.verticalScrollBar()
        before = bar.value()
        self.text.document().setDefaultFont(self.font())
        self.text.setHtml(needs_html(self._shown, colours_of(self.palette())))
        bar.setValue(before)

    def _choose_tray(self, at: int) -> None:
        self._tray = str(self.trays.itemData(at))
        self.refresh()

    def _tell_failed(self, error: Exception) -> None:
        self.text.setPlainText(self.tr("This could not be reckoned: {0}").format(error))

    def _tell_written(self, said: str) -> None:
        self._bridge.said.emit(said)

    def _tell_unwritten(self, error: Exception) -> None:
        why = getattr(error, "strerror", None) or error
        said = self.tr("Not written: {0}. Choose another file or folder.").format(why)
        self._bridge.said.emit(said)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.refresh()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._draw()
