"""The pins of one round: which goes where, in which order, and what is to spare."""

from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.fit_order import PinReach, pins_in_order
from armorplan.app.fit_seams import FitSeam, is_wide, pin_size
from armorplan.orders.pinning.matching import Pinned
from armorplan.orders.pinning.model import PinProblem


@dataclass(frozen=True, slots=True, kw_only=True)
class PinRow:
    """A pin of a round, in the order in which they go in.

    Attributes:
        number: place in the order, from 1.
        joint: sided id; ``name``: in words.
        pin: id of its size; ``pin_name``: in words; its diameter and length in mm.
        hole_mm: the narrowest hole it goes through.
        is_extra: one to spare: the seam holds without it.
        is_stuck: a hand does not reach it once those before it are in.
    """

    number: int
    joint: str
    name: str
    pin: str
    pin_name: str
    diameter_mm: float
    length_mm: float
    hole_mm: float
    is_extra: bool = False
    is_stuck: bool = False


def round_pins(
    reach: PinReach, problem: PinProblem, seams: tuple[FitSeam, ...]
) -> tuple[PinRow, ...]:
    """Return the pins of a round in their order: those its seams need, and what is to spare."""
    pinned = Pinned(problem.stock)
    pinned.put_all(problem.spots(seam.id for seam in seams))
    needed = set(pinned.kinds)
    _put_to_spare(reach.derived, problem, seams, pinned)
    kinds = pinned.kinds
    joints = tuple(joint for seam in seams for joint in seam.joints if joint in kinds)
    order = pins_in_order(reach, joints)
    sizes = {pin.id: pin for pin in reach.derived.shelf.pins}
    of = {joint: seam for seam in seams for joint in seam.joints}
    return tuple(
        PinRow(
            number=number,
            joint=joint,
            name=_name(reach.derived, of[joint], joint),
            pin=kinds[joint],
            pin_name=sizes[kinds[joint]].name,
            diameter_mm=sizes[kinds[joint]].diameter_mm,
            length_mm=sizes[kinds[joint]].length_mm,
            hole_mm=pin_size(reach.derived, reach.derived.assembly.joint(joint))[0],
            is_extra=joint not in needed,
            is_stuck=joint in order.stuck,
        )
        for number, joint in enumerate(order.order, start=1)
    )


def _put_to_spare(
    derived: Derived, problem: PinProblem, seams: tuple[FitSeam, ...], pinned: Pinned
) -> None:
    """Put pins to spare into long rows in turn, what holds plates to each other first."""
    frames_first = sorted(seams, key=lambda seam: not seam.is_frame)
    waiting = [list(problem.seam(seam.id).more) for seam in frames_first]
    while any(waiting):
        for more in filter(None, waiting):
            spot = more.pop(0)
            if is_wide(derived.assembly, spot.joint, pinned.kinds):
                pinned.put(spot)


def _name(derived: Derived, seam: FitSeam, joint: str) -> str:
    """Name a pin by its hole in the row, as the pattern counts it."""
    row = derived.assembly.seam_of(joint)
    if row is not None:
        return f"{seam.name}, hole {row.joints.index(joint) + 1} of {len(row.joints)}"
    if len(seam.joints) == 1:
        return seam.name
    return f"{seam.name}, {seam.joints.index(joint) + 1} of {len(seam.joints)}"
