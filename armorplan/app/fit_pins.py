"""The pins of one round: which goes where, in which order, and what is to spare."""

from dataclasses import dataclass, replace

from armorplan.app.derived import Derived
from armorplan.app.fit_order import PinReach, pins_in_order
from armorplan.app.fit_seams import FitSeam, is_wide, pin_size
from armorplan.orders.pinning.matching import Pinned
from armorplan.orders.pinning.model import PinProblem, PinSpot


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


@dataclass(frozen=True, slots=True, kw_only=True)
class ClipRow:
    """A joint that would take a pin and has none: a clip or a tie holds it meanwhile."""

    joint: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundPins:
    """What holds a round together: pins in their order, and clips where there are too few."""

    pins: tuple[PinRow, ...]
    clips: tuple[ClipRow, ...] = ()


def round_pins(
    reach: PinReach,
    problem: PinProblem,
    seams: tuple[FitSeam, ...],
    without: tuple[FitSeam, ...] = (),
) -> RoundPins:
    """Return what holds a round together: what its seams need, and what is to spare.

    Where there are too few pins, what turns gets its own first, and each seam one before any has two.

    Args:
        reach: what tells whether a pin goes in.
        problem: the fit's.
        seams: what is on.
        without: what is on as well, held by clips alone.
    """
    pinned = Pinned(problem.stock)
    clipped = [spot.joint for spot in _most_needed(problem, seams) if not pinned.put(spot)]
    needed = set(pinned.kinds)
    _put_to_spare(reach.derived, problem, seams, pinned)
    kinds = pinned.kinds
    held = {seam.id: tuple(j for j in seam.joints if j in kinds) for seam in seams}
    order = pins_in_order(reach, {seam: joints for seam, joints in held.items() if joints})
    of = {joint: seam for seam in (*seams, *without) for joint in seam.joints}
    clipped += [spot.joint for spot in problem.spots(seam.id for seam in without)]
    rows = (
        _row(reach.derived, of[joint], joint, kinds[joint], number)
        for number, joint in enumerate(order.order, start=1)
    )
    return RoundPins(
        pins=tuple(
            replace(row, is_extra=row.joint not in needed, is_stuck=row.joint in order.stuck)
            for row in rows
        ),
        clips=tuple(
            ClipRow(joint=joint, name=_name(reach.derived, of[joint], joint)) for joint in clipped
        ),
    )


def _most_needed(problem: PinProblem, seams: tuple[FitSeam, ...]) -> list[PinSpot]:
    ranked = [
        ((not seam.turns, 0 if seam.turns else at), spot)
        for seam in seams
        for at, spot in enumerate(problem.seam(seam.id).spots)
    ]
    return [spot for _, spot in sorted(ranked, key=lambda each: each[0])]


def _row(derived: Derived, seam: FitSeam, joint: str, kind: str, number: int) -> PinRow:
    size = next(pin for pin in derived.shelf.pins if pin.id == kind)
    return PinRow(
        number=number,
        joint=joint,
        name=_name(derived, seam, joint),
        pin=kind,
        pin_name=size.name,
        diameter_mm=size.diameter_mm,
        length_mm=size.length_mm,
        hole_mm=pin_size(derived, derived.assembly.joint(joint))[0],
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
    """Name a pin by its hole in the row as the pattern counts it, else by its joint's own id."""
    row = derived.assembly.seam_of(joint)
    if row is not None:
        return f"{seam.name}, hole {row.joints.index(joint) + 1} of {len(row.joints)}"
    if len(seam.joints) == 1:
        return seam.name
    own = derived.assembly.joint(joint).joint.id.replace("_", " ")
    return f"{seam.name} ({own})"
