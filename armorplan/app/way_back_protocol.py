"""What a view may ask and tell of mistakes and ways back. ``way_back_desk.WayBackDesk`` fulfils it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Protocol

from armorplan.app.way_back_rows import Stuck, WayBack, WaysBack
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.solving.model import Answer, Model

Solve = Callable[[Model], Answer]
"""Asks the solver, in its own process."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenWay:
    """A way back that is followed.

    Attributes:
        why: why this one.
        steps: what of it is still to be done, in order.
        total: of how many steps.
        given_up: nobody follows it any more; what was done of it stands.
    """

    id: str
    title: str
    why: str
    steps: tuple[str, ...]
    total: int
    given_up: bool = False


class Dates(Protocol):
    """Says of ways back what each does to the date."""

    def told(self, should_stop: Callable[[], bool]) -> Iterator[WaysBack]:
        """Yield the ways with one more of them dated each time; each takes a while."""
        ...


class BenchWayBack(Protocol):
    """Mistakes told, ways back looked for, chosen, given up.

    Actions return a sentence for the status line and are undone as any key press.
    """

    def stuck(self) -> tuple[Stuck, ...]:
        """Steps that cannot be done any more in a valid way, with the reason; cheap."""
        ...

    def mistake_kinds(
        self, steps: tuple[str, ...] = (), parts: tuple[str, ...] = ()
    ) -> tuple[MistakeKind, ...]:
        """What can have gone wrong with these; with nothing named, all that can be told."""
        ...

    def mistakes(self) -> tuple[Mistake, ...]:
        """What was told and no way back chosen since answers."""
        ...

    def tell(self, mistake: Mistake) -> str:
        """Record what went wrong; steps that turn out to stand are ticked with it."""
        ...

    def asking(self, solver: Solve | None = None) -> Callable[[], WaysBack]:
        """What looks for the ways back, which takes a while; call it in another thread."""
        ...

    def dating(self, found: WaysBack) -> Dates:
        """What says of each way what it does to the date; ask it in another thread."""
        ...

    def choose(self, way: WayBack) -> str:
        """Follow a way back: its moves become steps of the build."""
        ...

    def chosen(self) -> tuple[ChosenWay, ...]:
        """The ways back that were chosen and are not done yet."""
        ...

    def forget(self, way: str) -> str:
        """Give a way back up by its id; what was done of it stands."""
        ...

    def found(self, step: str, text: str) -> str:
        """Keep what a fit showed, as text that whoever tells it reads again."""
        ...
