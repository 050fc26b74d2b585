"""How many pins the maker has: what is asked of it, and keeping it off the window's thread."""

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QObject, Signal

from armorplan.app.dry_fit_rows import PieceFit
from armorplan.desktop.bridge import Bridge, PinBench
from armorplan.desktop.jobs import Runner
from armorplan.desktop.way_back_talk import Choice, Screen
from armorplan.workshop.pins import PinEntry, are_counted

PLENTY = "plenty"
"""Stands for as many of each size as are wanted."""


class PinDesk(QObject):
    """``told`` carries what was kept, ``refused`` why nothing was; the bridge tells those who reckon."""

    told = Signal(str)
    refused = Signal(str)

    def __init__(self, bridge: Bridge, parent: QObject) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._writer = Runner(self)
        self._writer.answered.connect(self._tell)
        self._writer.failed.connect(lambda error: self.refused.emit(str(error)))

    def keep(self, pin: str, owned: int) -> None:
        """Keep how many pins of a size there are."""
        self._write(lambda bench: bench.keep(pin, owned))

    def forget(self) -> None:
        """Keep that there are as many of each size as are wanted."""
        self._write(lambda bench: bench.forget())

    def _write(self, work: Callable[[PinBench], str]) -> None:
        bench = self._bridge.pins
        if bench is None:
            self.refused.emit(self.tr("There are no catalogues here to keep pins in."))
        elif self._writer.is_busy:
            self.refused.emit(self.tr("Something is being written yet. Press again in a moment."))
        else:
            self._writer.ask(lambda _report, _should_stop: work(bench))

    def _tell(self, said: str) -> None:
        self.told.emit(said)
        self._bridge.pins_kept.emit()

    def close(self) -> None:
        """Wait for what is still being written."""
        self._writer.close()


def sizes_screen(fit: PieceFit, pins: tuple[PinEntry, ...]) -> Screen:
    """Ask of which size it is to be said: those first that the fit takes, then those there are."""
    wanted = dict(fit.pins_wanted)
    counted = are_counted(pins)
    ordered = sorted(pins, key=lambda pin: (-wanted.get(pin.id, 0), not pin.owned))
    choices = [
        Choice(key=pin.id, text=pin.name, more=_more(pin, wanted.get(pin.id, 0), counted=counted))
        for pin in ordered
    ]
    if counted:
        choices.append(Choice(key=PLENTY, text=_say("As many of each as it takes")))
    heading = _say("Of which pins do you say how many you have?")
    return Screen(heading=heading, choices=tuple(choices))


def _more(pin: PinEntry, wanted: int, *, counted: bool) -> str:
    owned = (
        _say("not said") if not counted else _say("{0} there").format(pin.owned or _say("none"))
    )
    return f"{owned}, {_say('{0} wanted here').format(wanted)}" if wanted else owned


def count_of(fit: PieceFit, pins: tuple[PinEntry, ...], size: str) -> int:
    """Return the count that is asked about first: what is owned, else what the fit takes."""
    owned = next((pin.owned for pin in pins if pin.id == size), None)
    return dict(fit.pins_wanted).get(size, 0) if owned is None else owned


def _say(text: str) -> str:
    return QCoreApplication.translate("dry_fit", text)
