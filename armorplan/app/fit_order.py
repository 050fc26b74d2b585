"""In which order the pins of a round go in, by what hides a head and by how far a hand reaches."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from armorplan.app.derived import Derived
from armorplan.assembly.model import SidedJoint
from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Standing
from armorplan.orders.pinning.ordering import PinOrder, order_of_pins
from armorplan.relations.model import BeforeAll
from armorplan.rules.reach_sides import View, views_of
from armorplan.steps.model import StepKind
from armorplan.workshop.shelf import Shelf

HIDES = "hidden-before-cover"
"""The rule that tells which joints a part laid on them hides."""
_KEPT = 4


@dataclass(frozen=True, slots=True, eq=False)
class PinReach:
    """What tells of a pin whether it can be put in: nets of the shapes, hands, hidden heads.

    Attributes:
        views: what the shapes say on some sides, each with a bench whose only tools are hands.
        hidden: by joint, the sets of joints that lay a part on its head, once all of them are in.
    """

    derived: Derived
    views: tuple[tuple[View, Bench], ...]
    hidden: dict[str, tuple[frozenset[str], ...]]

    def may_be_last(self, joint: str, others: frozenset[str], *, pinned: frozenset[str]) -> bool:
        """Tell whether a pin goes in once others of a round's pins are in."""
        laid = (over & pinned for over in self.hidden.get(joint, ()))
        if any(over and over <= others for over in laid):
            return False
        sided = self.derived.assembly.joint(joint)
        return self._reaches(sided, others)

    def _reaches(self, joint: SidedJoint, others: frozenset[str]) -> bool:
        for view, bench in self.views:
            if joint.side in view.sides:
                made = frozenset(self.derived.assembly.joint(other).joint.id for other in others)
                found = margin(view.reach.net, joint.joint.id, made, bench)
                return found.standing is not Standing.CANNOT
        return True


def pin_reach(derived: Derived) -> PinReach:
    """Return what tells whether pins can be put in; takes as long as its shapes are new."""
    benches = tuple(
        (view, _hands(_Known(view, derived.shelf))) for view in views_of(derived.facts)
    )
    return PinReach(derived=derived, views=benches, hidden=_hidden(derived))


class _Known:
    """A view with a shelf, known again as the very same, so that its bench is made once."""

    __slots__ = ("shelf", "view")

    def __init__(self, view: View, shelf: Shelf) -> None:
        self.view, self.shelf = view, shelf

    def __hash__(self) -> int:
        return hash((id(self.view.reach), id(self.shelf)))

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, _Known)
            and self.view.reach is other.view.reach
            and self.shelf is other.shelf
        )


@lru_cache(maxsize=_KEPT)
def _hands(known: _Known) -> Bench:
    """Return the bench of a dry fit: every joint is pinned by hand."""
    reach = known.view.reach
    serving = (t for t in known.shelf.tools if StepKind.DRY_FIT.value in t.serves)
    hands = tuple(tool for tool in serving if tool.reach_mm is not None)
    return replace(
        reach.bench,
        tools=dict.fromkeys(reach.net.access, hands),
        outside=frozenset(),
        unsure=frozenset(),
    )


def _hidden(derived: Derived) -> dict[str, tuple[frozenset[str], ...]]:
    found: dict[str, tuple[frozenset[str], ...]] = {}
    for relation in derived.relations:
        if relation.reason.rule != HIDES or not isinstance(relation, BeforeAll):
            continue
        over = frozenset(j for step in relation.of for j in derived.work.step(step).joints)
        for joint in derived.work.step(relation.first).joints:
            found[joint] = (*found.get(joint, ()), over)
    return found


def pins_in_order(reach: PinReach, seams: Mapping[str, tuple[str, ...]]) -> PinOrder:
    """Return the order in which pins go in: as they will be set, as far as a hand gets in.

    A seam's pins go in one after the other; only where no hand gets in so are seams mixed.

    Args:
        reach: what tells whether a pin goes in.
        seams: by seam, the joints of it that are pinned.
    """
    joints = tuple(joint for pinned in seams.values() for joint in pinned)
    pins = _Pins(reach, frozenset(joints))
    place = _places(reach.derived, joints)

    def within(seam: str, before: frozenset[str]) -> PinOrder:
        parts = {joint: pins.parts[joint] for joint in seams[seam]}
        return order_of_pins(parts, lambda pin, own: pins.may_be_last(pin, own | before), place)

    def may_be_last(seam: str, others: frozenset[str]) -> bool:
        return not within(seam, pins.of(others, seams)).stuck

    parts = {
        seam: frozenset[str]().union(*map(pins.parts.__getitem__, own))
        for seam, own in seams.items()
    }
    last = {seam: max(map(place.__getitem__, own)) for seam, own in seams.items()}
    blocks = order_of_pins(parts, may_be_last, last)
    if blocks.stuck:
        return order_of_pins(pins.parts, pins.may_be_last, place)
    before, order = frozenset[str](), list[str]()
    for seam in blocks.order:
        order += within(seam, before).order
        before |= {*seams[seam]}
    return PinOrder(order=tuple(order))


class _Pins:
    """The pins of one round: what each holds together, and whether it goes in once others are."""

    def __init__(self, reach: PinReach, pinned: frozenset[str]) -> None:
        self._reach, self._pinned = reach, pinned
        joint = reach.derived.assembly.joint
        self.parts = {pin: frozenset(joint(pin).parts) for pin in sorted(pinned)}

    def may_be_last(self, pin: str, others: frozenset[str]) -> bool:
        return self._reach.may_be_last(pin, others, pinned=self._pinned)

    def of(self, chosen: frozenset[str], seams: Mapping[str, tuple[str, ...]]) -> frozenset[str]:
        """Return all pins of some seams."""
        return frozenset(pin for seam in chosen for pin in seams[seam])


def _places(derived: Derived, joints: tuple[str, ...]) -> dict[str, float]:
    """Return where each joint stands in the order in which they are set for good."""
    found = {}
    for at, joint in enumerate(joints):
        step = derived.work.setting(joint)
        found[joint] = float(derived.place.get(step.id, at) if step else at)
    return found
