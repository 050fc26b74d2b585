"""What a view may ask of the dry fits of a build. ``fit_asking.FitAsking`` fulfils it."""

from collections.abc import Iterable
from typing import Protocol

from armorplan.app.dry_fit_rows import DryFitPlan
from armorplan.orders.effort_solver import Solve
from armorplan.workshop.pins import PinEntry


class DryFits(Protocol):
    """The dry fits of a build as it stood when this was made; both take a while."""

    def with_pins(self, pins: Iterable[PinEntry]) -> "DryFits":
        """Return the same, reckoned with the pins that are owned by now."""
        ...

    def at_once(self) -> DryFitPlan:
        """Return them as they are found without a solver."""
        ...

    def proved(self, solve: Solve) -> DryFitPlan:
        """Return them with as few rounds as the solver finds, and whether fewer will not do."""
        ...
