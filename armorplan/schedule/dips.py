"""Coats as dips: which bath they go into, what it has to hold, and how much of it they fill."""

from dataclasses import dataclass
from math import floor

from armorplan.schedule.activity import Dip, Mode
from armorplan.schedule.hands import Hands, at_pace, way_name
from armorplan.schedule.problem import Bath
from armorplan.schedule.room_taken import RoomTaken
from armorplan.steps.model import Step, StepKind
from armorplan.steps.surface_work import is_dipped
from armorplan.workshop.places import DIP, WIPE, DipBath, family_of
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop

COATS = frozenset((StepKind.DYE, StepKind.OIL, StepKind.FINISH))


@dataclass(frozen=True, slots=True, kw_only=True)
class Dips:
    """Makes dips of coats, where the shop has a bath or a bench for them."""

    hands: Hands
    shelf: Shelf
    room: RoomTaken

    def dip(self, step: Step) -> tuple[Dip, tuple[Mode, ...]] | None:
        """Return a coat's dip and the ways to do it; ``None``: it is work like any other.

        A coat with more parts than any bath holds goes in alone, in several goes.
        """
        teams, told = self.hands.teams_at(step), baths_for(self.hands.shop, step)
        if not told or not teams:
            return None
        largest = max(floor_dm2(bath) for bath in told)
        amount = min(self.room.bath_dm2(step.parts), largest)
        baths = [bath for bath in told if floor_dm2(bath) >= amount]
        set_up_min = self._set_up_min(step)
        share_min = step.minutes - set_up_min
        modes = tuple(
            Mode(
                who=person.id,
                minutes=at_pace(person, step.kind, share_min),
                name=way_name(bath.id, beside),
                bath=bath.id,
                also=tuple(other.id for other in beside),
            )
            for bath in baths
            for person, beside in teams
        )
        return Dip(family=coat_family(step), amount=amount, set_up_min=set_up_min), modes

    def _set_up_min(self, step: Step) -> int:
        entry = self.shelf.treatment(step.treatment or "")
        return min(floor(entry.set_up_min), step.minutes - 1) if entry else 0


def baths_for(shop: Shop, step: Step) -> tuple[DipBath, ...]:
    """Return the baths or benches that a coat may be done in; none for any other work."""
    if step.kind not in COATS or step.treatment is None:
        return ()
    how = DIP if is_dipped(step) else WIPE
    return tuple(b for b in shop.baths if b.serves(step.treatment, how))


def coat_family(step: Step) -> str:
    """Return what a bath has to hold for a coat, from its batch key."""
    treatment, _, rest = (step.batch_key or "").partition("|")
    return family_of(treatment, rest.partition("|")[0])


def floor_dm2(bath: DipBath) -> int:
    """Return the whole dm² of a bath; never none."""
    return max(1, floor(bath.area_dm2))


def baths_of(shop: Shop) -> tuple[Bath, ...]:
    """Return the baths of a shop as the planner takes them."""
    return tuple(
        Bath(id=b.id, capacity=floor_dm2(b), change_min=b.change_min, holds=b.holds)
        for b in shop.baths
    )
