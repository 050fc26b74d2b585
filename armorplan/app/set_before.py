"""Which joints steps set, by their plain ids, and which the chosen order has set before a place."""

from collections.abc import Iterable

from armorplan.app.derived import Derived
from armorplan.assembly.model import Side
from armorplan.steps.model import Step


def plain_joints(derived: Derived, steps: Iterable[Step]) -> tuple[str, ...]:
    """Return plain ids of the joints that steps set for good, in the order they name them."""
    return tuple(
        derived.assembly.joint(joint).joint.id
        for step in steps
        for joint in derived.work.sets(step)
    )


def set_before(derived: Derived, at: int, side: Side) -> frozenset[str]:
    """Return the plain ids of what the first steps of the order set on a side, or once for both."""
    earlier = map(derived.work.step, derived.order[:at])
    here = (step for step in earlier if step.side in (side, Side.SINGLE))
    return frozenset(plain_joints(derived, here))
