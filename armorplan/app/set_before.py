"""Which joints steps set, by their plain ids, and which the chosen order has set before a place."""

from collections.abc import Iterable

from armorplan.app.derived import Derived
from armorplan.assembly.model import Side
from armorplan.rules.reach_sides import set_on, sides_in
from armorplan.steps.model import Step


def plain_joints(derived: Derived, steps: Iterable[Step]) -> tuple[str, ...]:
    """Return plain ids of the joints that steps set for good, in the order they name them."""
    return tuple(
        derived.assembly.joint(joint).joint.id
        for step in steps
        for joint in derived.work.sets(step)
    )


def set_before(derived: Derived, at: int, side: Side) -> frozenset[str]:
    """Return the plain ids of what the first steps of the order have set for good, as a side meets it."""
    work, sided = derived.work, sides_in(derived.assembly)
    place = {
        joint: n for n, one in enumerate(derived.order[:at]) for joint in work.sets(work.step(one))
    }
    return frozenset(plain for plain in sided if set_on(sided, plain, side, place) is not None)
