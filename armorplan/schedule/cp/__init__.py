"""The planning problem as a model for the solver, and the solver's values as a plan."""

from armorplan.schedule.cp.layout import Layout

__all__ = ["Layout"]
