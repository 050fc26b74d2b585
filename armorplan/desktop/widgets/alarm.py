"""Tells that a timer is due: by words, by the window's mark in the task bar, and by sound."""

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QApplication, QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.settings import SOUND, Settings
from armorplan.desktop.timers_model import Due, Ticker


class Alarm(QObject):
    """Never sound alone: the timer's card fills and the notice says so as well."""

    def __init__(
        self, bridge: Bridge, ticker: Ticker, settings: Settings, window: QWidget
    ) -> None:
        super().__init__(window)
        self._bridge = bridge
        self._settings = settings
        self._window = window
        ticker.due.connect(self._ring)

    def _ring(self, due: Due) -> None:
        self._bridge.said.emit(self.tr("Time is up: {0}").format(due.title))
        QApplication.alert(self._window)
        if self._settings.value(SOUND):
            QApplication.beep()
