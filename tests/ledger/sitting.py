"""One maker at one build, pressing keys: what tests of the ledger and of its file share."""

from collections.abc import Callable
from dataclasses import replace

from clocks import FakeClock

from armorplan.ledger import acting
from armorplan.ledger.acting import Press, press_now
from armorplan.ledger.events import Event
from armorplan.ledger.state import LedgerState, derive

BUILD = "elbow_cop-1"


class Sitting:
    """Presses make entries, which go through ``append`` and come back numbered."""

    def __init__(
        self,
        clock: FakeClock | None = None,
        append: Callable[[tuple[Event, ...]], tuple[Event, ...]] | None = None,
        *,
        name: str = "press",
    ) -> None:
        self.clock = clock or FakeClock()
        self.events: tuple[Event, ...] = ()
        self._append = append or self._number
        self._name = name
        self._presses = 0

    @property
    def state(self) -> LedgerState:
        return derive(self.events)

    def start(self, *steps: str) -> str:
        return self._press(lambda press: acting.start(self.state, steps, press))

    def pause(self, *steps: str) -> str:
        return self._press(lambda press: acting.pause(self.state, steps, press))

    def done(self, *steps: str) -> str:
        return self._press(lambda press: acting.done(self.state, steps, press))

    def done_then_drying(self, step: str, drying: str) -> str:
        """Tick a dye step, whose drying starts by itself, in one press."""
        return self._press(
            lambda press: (
                acting.done(self.state, (step,), press)
                + acting.start(self.state, (drying,), press)
            )
        )

    def sign_off(self, *steps: str) -> str:
        return self._press(lambda press: acting.sign_off(self.state, steps, press))

    def note(self, step: str, text: str) -> str:
        return self._press(lambda press: acting.note((step,), text, press))

    def undo(self, reason: str = "") -> str:
        return self._press(lambda press: acting.undo(self.state, press, reason=reason))

    def redo(self) -> str:
        return self._press(lambda press: acting.redo(self.state, press))

    def press(self) -> Press:
        self._presses += 1
        return press_now(BUILD, f"{self._name}-{self._presses}", self.clock, who="Maud")

    def _press(self, entries_of: Callable[[Press], tuple[Event, ...]]) -> str:
        press = self.press()
        self.events += self._append(entries_of(press))
        return press.batch

    def _number(self, events: tuple[Event, ...]) -> tuple[Event, ...]:
        first = len(self.events) + 1
        return tuple(replace(e, seq=seq) for seq, e in enumerate(events, start=first))
