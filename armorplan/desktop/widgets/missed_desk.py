"""Tells what passed while nobody was there, once, and leads to where something can be done."""

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QWidget

from armorplan.app.bells import Bell
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.opening import Opener
from armorplan.desktop.widgets.missed_page import MissedPage


class MissedDesk(QObject):
    """Opens the page; what was told last can be read again."""

    def __init__(self, bridge: Bridge, opener: Opener, window: QWidget) -> None:
        super().__init__(window)
        self._bridge = bridge
        self._opener = opener
        self._window = window
        self._page: MissedPage | None = None
        self._before: tuple[Bell, ...] = ()

    def tell(self) -> None:
        """Tell what passed, where anything did, and whether the clock is to be doubted."""
        timing = self._bridge.session.timing
        if timing.doubt:
            self._bridge.said.emit(timing.doubt)
        bells = timing.missed()
        if bells:
            self._show(bells)

    def show(self) -> None:
        """Tell it on a page: what is new, else what was told last, else that nothing passed."""
        self._show(self._bridge.session.timing.missed() or self._before)

    def close(self) -> None:
        """Close the page."""
        if self._page is not None:
            self._page.close()

    def _show(self, bells: tuple[Bell, ...]) -> None:
        self.close()
        now = self._bridge.clock.now()
        page = MissedPage(bells, now, self._bridge.zone, self._window)
        page.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        page.wanted.connect(self._go_to)
        page.finished.connect(self._note_told)
        self._page, self._before = page, bells
        page.show()

    def _note_told(self, _result: int) -> None:
        """Note that the maker has closed the page: it is not told a second time."""
        self._page = None
        refused = self._bridge.session.timing.told_missed()
        if refused:
            self._bridge.said.emit(refused)

    def _go_to(self, bell: Bell) -> None:
        build = bell.step.partition("/")[0]
        if bell.build_title and build != self._bridge.session.build_id:
            self._opener.open_build(build, bell.step)
        else:
            self._bridge.choose_steps((bell.step,))
        self._window.activateWindow()
