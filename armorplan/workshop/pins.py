"""Pins for the dry fit: screw posts, small bolts and split pins that hold a joint for a trial."""

from collections.abc import Iterable
from dataclasses import dataclass

LEATHER_GIVES_MM = 0.05
"""A pin that fills its hole enters it: so near calipers tell no difference on leather."""
MOST_PLAY_MM = 1.0
"""A pin thinner than its hole by more lets the layers shift, and hides a misfit (common practice,
no source)."""
_DIGITS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class PinEntry:
    """Pins of one size.

    Attributes:
        diameter_mm: of the shank that has to enter the hole.
        length_mm: of the shank, under the head.
        over_stack_mm: least and most of it that may stand beyond the pinched stack.
        owned: how many the maker has; ``None``: nobody said.
    """

    id: str
    name: str
    diameter_mm: float
    length_mm: float
    over_stack_mm: tuple[float, float]
    source: str
    owned: int | None = None

    def enters(self, hole_mm: float) -> bool:
        """Tell whether it enters a hole of this diameter in mm, and does not rattle in it."""
        play_mm = round(hole_mm - self.diameter_mm, _DIGITS)
        return -LEATHER_GIVES_MM <= play_mm <= MOST_PLAY_MM

    def holds(self, stack_mm: float) -> bool:
        """Tell whether it holds a stack of this pinched thickness in mm."""
        least_mm, most_mm = self.over_stack_mm
        return least_mm <= round(self.length_mm - stack_mm, _DIGITS) <= most_mm


def pins_for(pins: Iterable[PinEntry], *, hole_mm: float, stack_mm: float) -> tuple[PinEntry, ...]:
    """Return the pins that enter a hole and hold a stack: the snuggest first, then the shortest.

    Args:
        pins: to choose from.
        hole_mm: diameter of the narrowest hole.
        stack_mm: all layers, pinched, washers included.
    """
    fitting = (pin for pin in pins if pin.enters(hole_mm) and pin.holds(stack_mm))
    return tuple(sorted(fitting, key=lambda pin: (-pin.diameter_mm, pin.length_mm, pin.id)))


def are_counted(pins: Iterable[PinEntry]) -> bool:
    """Tell whether anybody said how many pins there are."""
    return any(pin.owned is not None for pin in pins)
