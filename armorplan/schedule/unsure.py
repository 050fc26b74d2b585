"""How unsure a step's duration is, and what its being late is shared with."""

from dataclasses import dataclass

from armorplan.drying.stages import USUAL_SPREAD
from armorplan.steps.model import Step
from armorplan.workshop.shop import Shop

HANDS_SPREAD = 0.2
"""Pieces of like work by one hand differ by some 20 % (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unsure:
    """Tells spread and cause of steps in a shop: as it learned them, else the usual ones."""

    shop: Shop

    def of(self, step: Step) -> tuple[float, str]:
        """Return the spread of the logarithm of a step's duration, and its cause.

        A drip and a wait of the maker's own are sure: somebody looks at the clock.
        """
        if step.attended:
            hand = next((h for h in self.shop.hands if h.kind == step.kind), None)
            return (hand.spread if hand else HANDS_SPREAD), f"hands: {step.kind}"
        if step.drying is None:
            return 0.0, ""
        pace = self.shop.room.pace(step.drying.treatment)
        return (pace.spread if pace else USUAL_SPREAD), f"drying: {step.drying.treatment}"
