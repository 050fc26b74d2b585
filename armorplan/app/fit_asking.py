"""Asks for the dry fits of a build, off the window's thread: at once, or proved by the solver."""

from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.dry_fit_rows import DryFitPlan, dry_fit_plan, stock_of
from armorplan.orders.effort_solver import Solve
from armorplan.orders.pinning.model import PinStock


@dataclass(frozen=True, slots=True, kw_only=True)
class FitAsking:
    """The dry fits of a build as it stood when this was made.

    Attributes:
        most: how many pins there are in all, of whatever size; ``None``: as its shelf says.
    """

    derived: Derived
    most: int | None = None

    @property
    def stock(self) -> PinStock:
        """The pins there are."""
        return stock_of(self.derived.shelf.pins, self.most)

    def at_once(self) -> DryFitPlan:
        """Return the dry fits as they are found without a solver, in some hundredths of a second."""
        return dry_fit_plan(self.derived, self.stock)

    def proved(self, solve: Solve) -> DryFitPlan:
        """Return the dry fits with as few rounds as the solver finds; takes up to some seconds a fit."""
        return dry_fit_plan(self.derived, self.stock, solve)
