"""Keeps the shop's air, and lets the build go on in it: read, kept and reckoned in a thread."""

from collections.abc import Callable
from typing import NamedTuple, Protocol

from PySide6.QtCore import QObject, Signal

from armorplan.app.other_air import Settle
from armorplan.app.session_protocol import BenchSession
from armorplan.app.shop_air import ShopAir
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.workshop.air import Room


class AirBench(Protocol):
    """Each returns at once what may then take its time, in any thread."""

    def air(self) -> Callable[[], ShopAir]:
        """Return what reads the shop's air; ArmorplanError where it cannot be read."""
        ...

    def keep(
        self, room: Room, before: Room | None = None, *, instead: bool = False
    ) -> Callable[[], str]:
        """Return what keeps the air and says so; ArmorplanError where it cannot be kept.

        ``before`` is the air up to now where none was kept yet; ``None``: it is the same.
        ``instead``: it was so all along, what was kept last was mistyped.
        """
        ...

    def is_behind(self, session: BenchSession) -> bool:
        """Tell, in no time, whether another window kept air that the build is not reckoned in."""
        ...

    def go_on(self, session: BenchSession) -> Callable[[], Settle]:
        """Return what reckons the same build in the air, and with the pace, of now.

        What that returns shows it, quickly and in the window's thread.
        """
        ...


class _Kept(NamedTuple):
    session: BenchSession
    said: str
    settle: Settle


class AirDesk(QObject):
    """Holds the shop's air.

    ``shown`` carries a ``ShopAir``, ``kept`` what was kept in words, ``refused`` why it cannot be
    read or was not kept, and ``busy`` whether something is being kept.
    """

    shown = Signal(object)
    kept = Signal(str)
    refused = Signal(str)
    busy = Signal(bool)

    def __init__(self, bridge: Bridge, bench: AirBench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._bench = bench
        self._reader = Runner(self)
        self._keeper = Runner(self)
        self._reader.answered.connect(self.shown)
        self._keeper.answered.connect(self._show)
        for runner in (self._reader, self._keeper):
            runner.failed.connect(self._refuse)
        self._keeper.begun.connect(lambda: self.busy.emit(True))
        self._keeper.ended.connect(lambda: self.busy.emit(False))

    @property
    def is_keeping(self) -> bool:
        """Whether something is being kept."""
        return self._keeper.is_busy

    def read(self) -> None:
        """Read the shop's air; ``shown`` carries it."""
        work = self._bench.air()
        self._reader.ask(lambda _report, _should_stop: work())

    def keep(self, room: Room, before: Room | None = None, *, instead: bool = False) -> None:
        """Keep this as the air of the shop, and go on with the build in it; see ``AirBench.keep``."""
        self._go_on(self._bench.keep(room, before, instead=instead))

    def read_along(self) -> None:
        """Go on in air that another window kept."""
        if not self.is_keeping and self._bench.is_behind(self._bridge.session):
            self._go_on(lambda: self.tr("The air of the shop was kept anew in another window."))

    def _go_on(self, write: Callable[[], str]) -> None:
        session = self._bridge.session
        reckon = self._bench.go_on(session)

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            return _Kept(session, write(), reckon())

        self._keeper.ask(work)

    def _show(self, kept: _Kept) -> None:
        """Show the build as it goes on; where another one was opened meanwhile, that was read so."""
        if self._bridge.session is kept.session:
            kept.settle()
            self._bridge.aired.emit()
        self._say(kept.said)

    def _say(self, said: str) -> None:
        self._bridge.said.emit(said)
        self.kept.emit(said)
        self.read()

    def _refuse(self, error: Exception) -> None:
        self.refused.emit(str(error) or type(error).__name__)

    def close(self) -> None:
        """Wait for what is under way."""
        for runner in (self._reader, self._keeper):
            runner.close()
