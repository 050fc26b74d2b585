"""Which dry fits go on the wearer, and what has to be on pins for that."""

from armorplan.app.derived import Derived
from armorplan.app.fit_seams import FitSeam
from armorplan.assembly.model import SidedJoint
from armorplan.orders.pinning.model import Group
from armorplan.steps.model import Step

_TWO = 2


def placed_joints(derived: Derived, fit: Step) -> tuple[SidedJoint, ...]:
    """Return the joints whose places are marked on the wearer at a fit."""
    joints = map(derived.assembly.joint, fit.joints)
    return tuple(joint for joint in joints if joint.joint.placed_on_wearer)


def is_worn(derived: Derived, fit: Step, seams: tuple[FitSeam, ...]) -> bool:
    """Tell whether a fit goes on the wearer: what they can move, and straps to be marked on them."""
    return any(seam.turns for seam in seams) or bool(placed_joints(derived, fit))


def wholes(derived: Derived, fit: Step, seams: tuple[FitSeam, ...]) -> tuple[Group, ...]:
    """Return what is on pins at once to be worn: with all that closes it, and as the least.

    The least is what holds plates to each other and what it hangs by. Empty where nobody wears it.
    """
    if not is_worn(derived, fit, seams):
        return ()
    hung, closing = hanging_parts(derived, fit), closing_parts(derived, fit)
    least = [seam for seam in seams if seam.is_frame or seam.turns or hung & {*seam.parts}]
    full = [seam for seam in seams if seam in least or closing & {*seam.parts}]
    groups = (tuple(seam.id for seam in group) for group in (full, least))
    return tuple(dict.fromkeys(group for group in groups if len(group) >= _TWO))


def hanging_parts(derived: Derived, fit: Step) -> frozenset[str]:
    """Return the sided parts of a fit that it hangs by."""
    plain = {hung.part for hung in derived.pattern.suspensions}
    return _sided(derived, fit, plain)


def closing_parts(derived: Derived, fit: Step) -> frozenset[str]:
    """Return the sided parts of a fit that close it round the wearer: straps, and what has buckles."""
    places = derived.pattern.strap_places
    plain = {part for place in places for part in (place.strap, place.meets)}
    buckled = frozenset(h.part for h in derived.assembly.hardware if h.part in fit.parts)
    placed = {
        part
        for joint in placed_joints(derived, fit)
        for part in joint.parts
        if part in fit.parts and derived.assembly.part(part).part.kind.value == "strap"
    }
    return _sided(derived, fit, plain) | buckled | placed


def _sided(derived: Derived, fit: Step, plain: set[str]) -> frozenset[str]:
    part = derived.assembly.part
    return frozenset(sided for sided in fit.parts if part(sided).part.id in plain)
