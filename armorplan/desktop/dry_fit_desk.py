"""Reckons the dry fits of the build at the bench off the window's thread, and keeps what was ticked."""

from collections import defaultdict

from PySide6.QtCore import QObject, Signal

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Runner


class DryFitDesk(QObject):
    """``planned`` carries a ``DryFitPlan``, ``refused`` says why there is none.

    What is ticked holds as long as the window is open; a fit that is signed off is recorded.
    """

    planned = Signal(object)
    refused = Signal(str)

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._ticked: defaultdict[str, set[str]] = defaultdict(set)
        self._asker = Runner(self)
        self._asker.answered.connect(self.planned)
        self._asker.failed.connect(self._refuse)
        bridge.opened.connect(self._asker.drop)

    @property
    def is_busy(self) -> bool:
        """Whether it reckons."""
        return self._asker.is_busy

    def ask(self) -> None:
        """Reckon the dry fits of the build at the bench."""
        asking = self._bridge.session.asking_fit()
        self._asker.ask(lambda _report, _should_stop: asking())

    def _refuse(self, error: Exception) -> None:
        self.refused.emit(str(error) or type(error).__name__)

    def ticked(self, fit: str) -> frozenset[str]:
        """Return what of a fit is ticked."""
        return frozenset(self._ticked[self._key(fit)])

    def tick(self, fit: str, line: str) -> None:
        """Tick a line of a fit, or take its tick back."""
        self._ticked[self._key(fit)] ^= {line}

    def _key(self, fit: str) -> str:
        return f"{self._bridge.session.build_id}/{fit}"

    def close(self) -> None:
        """Wait for what is still reckoned."""
        self._asker.close()


def fit_desk(bridge: Bridge) -> DryFitDesk:
    """Return the desk of a bridge: page and bench view tick the same fits."""
    return bridge.findChild(DryFitDesk) or DryFitDesk(bridge, bridge)
