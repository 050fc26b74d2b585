"""Keeps the shop's air, and lays the build out anew in it: read, kept and made ready in a thread."""

from collections.abc import Callable
from typing import NamedTuple, Protocol

from PySide6.QtCore import QObject, Signal

from armorplan.app.session_protocol import BenchSession
from armorplan.app.shop_air import ShopAir
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.desktop.opening import Ready, chosen_again
from armorplan.kernel.errors import ArmorplanError
from armorplan.workshop.air import Room


class AirBench(Protocol):
    """Each returns at once what may then take its time, in any thread."""

    def air(self) -> Callable[[], ShopAir]:
        """Return what reads the shop's air; ArmorplanError where it cannot be read."""
        ...

    def keep(self, room: Room, before: Room | None = None) -> Callable[[], str]:
        """Return what keeps the air and says so; ArmorplanError where it cannot be kept.

        ``before`` is the air up to now where none was kept yet; ``None``: it is the same.
        """
        ...

    def go_on(self, session: BenchSession) -> Callable[[], Ready]:
        """Return what makes the same build ready in the air, and with the pace, of now."""
        ...


class _Kept(NamedTuple):
    session: BenchSession
    said: str
    ready: Ready


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
        self._keeper.answered.connect(self._lay_out)
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

    def keep(self, room: Room, before: Room | None = None) -> None:
        """Keep this as the air of the shop, and go on with the build in it; see ``AirBench.keep``."""
        session = self._bridge.session
        write, make_ready = self._bench.keep(room, before), self._bench.go_on(session)

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            return _Kept(session, write(), make_ready())

        self._keeper.ask(work)

    def _lay_out(self, kept: _Kept) -> None:
        """Lay the build out as it goes on, with the same chosen."""
        if self._bridge.session is not kept.session:
            self._say(kept.said)
            return
        try:
            session = kept.ready()
        except ArmorplanError as error:
            self._refuse(error)
            return
        chosen = self._bridge.selection.steps
        self._bridge.open(session)
        self._bridge.choose_steps(chosen_again(session, chosen))
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
