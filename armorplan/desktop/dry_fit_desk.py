"""Reckons the dry fits of the build at the bench off the window's thread, and keeps what was ticked."""

from collections import defaultdict
from contextlib import suppress

from PySide6.QtCore import QObject, Signal

from armorplan.desktop.bridge import Bridge, solve_with
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.kernel.errors import SolverLostError


class DryFitDesk(QObject):
    """``planned`` carries a ``DryFitPlan``, at once and again once it is proved, ``refused`` says why there is none.

    What is ticked holds as long as the window is open; a fit that is signed off is recorded.
    """

    planned = Signal(object)
    refused = Signal(str)

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._has_asked = False
        self._ticked: defaultdict[str, set[str]] = defaultdict(set)
        self._asker = Runner(self)
        self._asker.better.connect(self.planned)
        self._asker.answered.connect(self.planned)
        self._asker.failed.connect(self._refuse)
        bridge.opened.connect(self._asker.drop)
        bridge.pins_kept.connect(self._ask_anew)

    @property
    def is_busy(self) -> bool:
        """Whether it reckons."""
        return self._asker.is_busy

    def ask(self) -> None:
        """Reckon the dry fits of the build at the bench, with the pins that are owned by now."""
        self._has_asked = True
        asked = self._bridge.session.asking_fit()
        solver, pins = self._bridge.solver, self._bridge.pins

        def work(report: Report, should_stop: ShouldStop) -> object:
            asking = asked.with_pins(pins.held()) if pins else asked
            found = asking.at_once()
            solve = solve_with(solver, should_stop)
            if found.proved or solve is None:
                return found
            report(found)
            # Without a solver the fits stand as they were found, and say that they are not proved.
            with suppress(SolverLostError):
                found = asking.proved(solve)
            return found

        self._asker.ask(work)

    def _ask_anew(self) -> None:
        if self._has_asked:
            self.ask()

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
