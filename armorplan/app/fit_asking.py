"""Asks for the dry fits of a build, off the window's thread: at once, or proved by the solver."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from armorplan.app.derived import Derived
from armorplan.app.dry_fit_rows import DryFitPlan, dry_fit_plan, stock_of
from armorplan.orders.effort_solver import Solve
from armorplan.orders.pinning.model import PinStock
from armorplan.workshop.pins import PinEntry


@dataclass(frozen=True, slots=True, kw_only=True)
class FitAsking:
    """The dry fits of a build as it stood when this was made.

    Attributes:
        most: how many pins there are in all, of whatever size; ``None``: as its shelf says.
        pins: the sizes as they are owned by now; ``None``: as its shelf says.
    """

    derived: Derived
    most: int | None = None
    pins: tuple[PinEntry, ...] | None = None

    def with_pins(self, pins: Iterable[PinEntry]) -> "FitAsking":
        """Return the same with the pins that are owned by now."""
        return replace(self, pins=tuple(pins))

    @property
    def held(self) -> tuple[PinEntry, ...]:
        """The sizes of the build's shelf, with how many of each are owned by now."""
        sizes = self.derived.shelf.pins
        if self.pins is None:
            return sizes
        owned = {pin.id: pin.owned for pin in self.pins}
        return tuple(replace(pin, owned=owned.get(pin.id)) for pin in sizes)

    @property
    def stock(self) -> PinStock:
        """The pins there are."""
        return stock_of(self.held, self.most)

    def at_once(self) -> DryFitPlan:
        """Return the dry fits as they are found without a solver, in some hundredths of a second."""
        return replace(dry_fit_plan(self.derived, self.stock), pins=self.held)

    def proved(self, solve: Solve) -> DryFitPlan:
        """Return the dry fits with as few rounds as the solver finds; takes up to some seconds a fit."""
        return replace(dry_fit_plan(self.derived, self.stock, solve), pins=self.held)
