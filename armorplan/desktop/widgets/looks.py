"""Changes colours and text size of the whole application, and remembers them."""

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QApplication

from armorplan.desktop.settings import TEXT_PCT, THEME, Settings
from armorplan.desktop.theme import Mode, apply_font, apply_theme

STEP_PCT = 10


def dress(app: QApplication, settings: Settings) -> None:
    """Put colours and text size on the application as the settings say."""
    apply_font(app, settings.value(TEXT_PCT))
    apply_theme(app, Mode(settings.value(THEME)))


class Looks:
    """What the person asks of colours and text size."""

    def __init__(self, settings: Settings) -> None:
        self._settings = settings

    def next_mode(self) -> Mode:
        """Go on from system to light to dark and round again; return what holds now."""
        modes = list(Mode)
        mode = modes[(modes.index(Mode(self._settings.value(THEME))) + 1) % len(modes)]
        self._settings.put(THEME, mode.value)
        self._dress()
        return mode

    def next_words(self) -> str:
        """Go on as ``next_mode`` does, and say what holds now."""
        told = QCoreApplication.translate("Looks", "Colours: {0}")
        return told.format(self.next_mode().value)

    def grow(self, steps: int) -> int:
        """Make text larger or smaller by steps; return the size in per cent."""
        return self._size(self._settings.value(TEXT_PCT) + steps * STEP_PCT)

    def usual_size(self) -> int:
        """Set text to its usual size; return it in per cent."""
        return self._size(TEXT_PCT.default)

    def _size(self, pct: int) -> int:
        if TEXT_PCT.allows(pct):
            self._settings.put(TEXT_PCT, pct)
            self._dress()
        return self._settings.value(TEXT_PCT)

    def _dress(self) -> None:
        app = QApplication.instance()
        if isinstance(app, QApplication):
            dress(app, self._settings)
