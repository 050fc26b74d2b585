"""What a view may ask and tell of looks at dryings. ``drying_desk.DryingDesk`` fulfils it."""

from typing import Protocol

from armorplan.app.learned_rows import DryingRow


class BenchDrying(Protocol):
    """Looks at dryings, weighings, and what they taught.

    Actions return a sentence for the status line, and show everything anew: timers, states and the
    plan go by the new estimate at once. An estimate raises WorkshopError where the workshop file
    cannot be read.
    """

    def may_look(self, step_id: str) -> bool:
        """Tell whether a step is a drying, or makes one, that has begun: it can be looked at."""
        ...

    def look(self, step_id: str, *, dry: bool) -> str:
        """Record that a drying was found dry, which ticks it, or still damp: then it dries on."""
        ...

    def weigh(self, step_id: str, *, before_g: float, wet_g: float, now_g: float) -> str:
        """Record a weighing: before the bath, out of it, and now, in grams."""
        ...

    def estimate(self, treatment: str) -> DryingRow:
        """Return what was learned of a treatment, before and after."""
        ...

    def estimates(self) -> tuple[DryingRow, ...]:
        """Return what was learned of all treatments that were looked at."""
        ...

    def forget(self, treatment: str = "all") -> str:
        """Learn a treatment, or everything, anew from now on."""
        ...

    def remember(self, treatment: str = "all") -> str:
        """Let all that was seen before count again."""
        ...
