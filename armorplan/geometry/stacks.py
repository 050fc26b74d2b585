"""The stack that a fastener goes through, and the post that holds it.

The step, the needs and the checks all ask ``joint_post``, so that what is bought is what is set.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from armorplan.pattern.joining import Joint, JointKind
from armorplan.pattern.parts import Part
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.fastening import choose_length, pinched_mm, post_window_mm
from armorplan.workshop.shelf import Fastener, Shelf

POSTED = frozenset({JointKind.RIVET, JointKind.SCREW})
"""Joints with a post through holes; glue, stitches and laces have none."""
MEASURED_MM = 0.05
"""Calipers on leather tell a tenth of a millimetre (common practice, no source): half of it."""
LONG_MM = 0.2
"""A post too long by no more than this still holds: leather is pinched by rule of thumb (common
practice, no source). One too short pops off the wearer, and gets no such grace."""
_DIGITS = 3


class Stack(NamedTuple):
    """What a fastener goes through, in mm unpinched: at the lower and at the upper end.

    The two differ where leather is sold as a range. ``washer_mm`` is in both.
    """

    least_mm: float
    most_mm: float
    washer_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Post:
    """A fastener through a stack, and the post it takes.

    Attributes:
        pinch_pct: by how much leather gives under it.
        own_mm: the post the maker names for it, in mm; ``None``: the shortest on sale that fits.
    """

    fastener: Fastener
    stack: Stack
    pinch_pct: float
    own_mm: float | None = None

    @property
    def pinched_mm(self) -> float:
        """The upper end of the stack in mm once it is drawn together; washers do not give."""
        return self._pinched_mm(self.stack.most_mm)

    @property
    def window_mm(self) -> tuple[float, float]:
        """The shortest and longest post that would hold the upper end, in mm."""
        return self._window_mm(self.stack.most_mm)

    @property
    def thin_window_mm(self) -> tuple[float, float]:
        """The shortest and longest post that would hold the lower end, in mm."""
        return self._window_mm(self.stack.least_mm)

    @property
    def off_mm(self) -> float:
        """By how many mm the post it takes is too long; below nought too short; 0 where it fits."""
        least_mm, most_mm = self.window_mm
        length_mm = self.length_mm
        if length_mm is None:
            return 0.0
        return max(length_mm - most_mm, 0.0) + min(length_mm - least_mm, 0.0)

    @property
    def fits(self) -> bool:
        """Whether the post it takes holds the upper end, as near as a stack is known."""
        return self.length_mm is not None and -MEASURED_MM <= self.off_mm <= LONG_MM

    @property
    def length_mm(self) -> float | None:
        """The post it takes, in mm: the maker's own, else as ``sold_mm``."""
        return self.sold_mm if self.own_mm is None else self.own_mm

    @property
    def sold_mm(self) -> float | None:
        """The post on sale for the upper end, in mm, or ``None`` where none fits.

        One that misses by less than a stack is known to still fits.
        """
        for off_mm in (0.0, -MEASURED_MM, LONG_MM):
            length_mm = self._choice_mm(self.stack.most_mm + off_mm)
            if length_mm is not None:
                return length_mm
        return None

    @property
    def thin_sold_mm(self) -> float | None:
        """The post on sale for the lower end of the leather, in mm."""
        return self._choice_mm(self.stack.least_mm)

    def _pinched_mm(self, stack_mm: float) -> float:
        washer_mm = self.stack.washer_mm
        return pinched_mm(stack_mm, washer_mm=washer_mm, pinch_pct=self.pinch_pct)

    def _window_mm(self, stack_mm: float) -> tuple[float, float]:
        washer_mm, pinch_pct = self.stack.washer_mm, self.pinch_pct
        return post_window_mm(stack_mm, self.fastener, washer_mm=washer_mm, pinch_pct=pinch_pct)

    def _choice_mm(self, stack_mm: float) -> float | None:
        washer_mm, pinch_pct = self.stack.washer_mm, self.pinch_pct
        return choose_length(stack_mm, self.fastener, washer_mm=washer_mm, pinch_pct=pinch_pct)


def foot_of(fastener: Fastener) -> str:
    """Return what a fastener has on the inside: ``cap``, ``burr``, ``screw`` or ``bent``."""
    return fastener.foot or ("screw" if fastener.kind == JointKind.SCREW else "cap")


def stack_of(layers: Iterable[Part], washer_mm: float = 0.0) -> Stack:
    """Return the stack of layers, repeats kept, with washers or spacers of a thickness in mm."""
    most = least = washer_mm
    for part in layers:
        most += part.thickness_mm
        least += part.thickness_mm if part.least_mm is None else part.least_mm
    return Stack(round(least, _DIGITS), round(most, _DIGITS), washer_mm)


def joint_stack(pattern: Pattern, joint: Joint) -> Stack:
    """Return the stack of one joint of a pattern, its washers included."""
    return stack_of(map(pattern.part, pattern.stack_parts(joint.id)), joint.washer_mm)


def joint_post(pattern: Pattern, shelf: Shelf, joint: Joint) -> Post | None:
    """Return the post of a joint; ``None`` where it has none or the shelf lacks its fastener."""
    fastener = shelf.fastener(joint.fastener)
    if fastener is None or joint.kind not in POSTED:
        return None
    return Post(
        fastener=fastener,
        stack=joint_stack(pattern, joint),
        pinch_pct=shelf.constants.pinch.value,
        own_mm=joint.post_mm,
    )
