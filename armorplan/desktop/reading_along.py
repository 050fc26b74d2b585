"""Whether this window writes in the workshop or reads along, and how it takes over writing."""

from typing import Protocol

from PySide6.QtCore import QObject, Signal

from armorplan.desktop.bridge import Bridge

PATIENCE_LOOKS = 10
"""Looks, one a second, after which a window that does not give way is taken to hang."""


class WritingTurn(Protocol):
    """The right of one window at a time to write in a workshop."""

    @property
    def writes(self) -> bool:
        """Whether this window writes."""
        ...

    @property
    def wants(self) -> bool:
        """Whether this window has asked for its turn."""
        ...

    @property
    def knows_locks(self) -> bool:
        """Whether the disk knows locks; without them every window writes."""
        ...

    def ask(self) -> None:
        """Ask the window that writes to give way."""
        ...

    def look(self) -> object:
        """Give way to a window that asks, or take a turn that is free."""
        ...

    def other(self) -> str:
        """Say who writes."""
        ...


class ReadingAlong(QObject):
    """Looks at the turn once a second; ``turned`` says that its words changed."""

    turned = Signal()

    def __init__(self, bridge: Bridge, turn: WritingTurn, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._turn = turn
        self._looks = 0

    @property
    def writes(self) -> bool:
        """Whether this window writes."""
        return self._turn.writes

    def words(self) -> str:
        """Say why this window reads along; empty where it writes."""
        if self._turn.writes:
            return ""
        other = self._turn.other()
        if not self._turn.wants:
            return self.tr(
                "This window reads along: {0} writes in this workshop. What is done there is seen "
                "here; nothing is recorded from here."
            ).format(other)
        if self._looks < PATIENCE_LOOKS:
            return self.tr("This window reads along, and has asked {0} to give way …").format(
                other
            )
        return self.tr(
            "This window reads along: {0} does not give way. If it hangs, end it: this one writes "
            "from then on."
        ).format(other)

    def write_here(self) -> None:
        """Take over writing: the other window gives way within some seconds."""
        if self._turn.writes:
            self._bridge.said.emit(self.tr("This window writes in the workshop already."))
            return
        self._looks = 0
        self._turn.ask()
        self.look()

    def look(self) -> None:
        """See whose turn it is now."""
        wrote = self._turn.writes
        self._turn.look()
        self._looks += self._turn.wants
        if self._turn.writes == wrote:
            if self._turn.wants and self._looks in (1, PATIENCE_LOOKS):
                self.turned.emit()
            return
        if self._turn.writes:
            # What the other window did last is seen before anything is done on top of it.
            self._bridge.read_along()
            said = self.tr("From now on this window writes in the workshop.")
        else:
            said = self.tr("Another window has taken over writing; this one reads along.")
        self.turned.emit()
        self._bridge.said.emit(said)

    def tell_at_start(self) -> None:
        """Say what a maker should know when the window opens."""
        if not self._turn.knows_locks:
            self._bridge.said.emit(
                self.tr(
                    "This disk knows no locks, so two windows may write in this workshop at once. "
                    "Nothing is lost by that; better open it in one window only."
                )
            )
        elif not self._turn.writes:
            self._bridge.said.emit(self.words())
