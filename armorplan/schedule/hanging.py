"""Wet parts on racks: from the bath until somebody takes them down for what comes next."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from armorplan.schedule.dips import COATS
from armorplan.schedule.problem import Hold, Resource
from armorplan.schedule.room_taken import RoomTaken
from armorplan.schedule.sittings import step_of
from armorplan.steps.model import Step, StepKind, Work
from armorplan.workshop.places import Rack
from armorplan.workshop.shop import Shop

_LIES = frozenset((StepKind.TOOL, StepKind.FORM, StepKind.HARDEN))
"""What keeps its new shape only lying."""
_HANGS = frozenset((*COATS, StepKind.CLEAN))
LINE, SHELF = "line", "shelf"
_BOTH = "racks"


@dataclass(frozen=True, slots=True, kw_only=True)
class RackRoom:
    """The line or the shelf of a shop's racks together: parts spread over them.

    Attributes:
        id: the rack's id, with what of it is meant where it has both; of several ``racks``.
        total: mm of line, dm² of shelf.
    """

    id: str
    what: str
    total: int


def rack_rooms(shop: Shop) -> tuple[RackRoom, ...]:
    """Return what a shop's racks have: at most one line and one shelf."""
    rooms = []
    for what, sizes in (
        (LINE, [(rack, rack.line_mm) for rack in shop.racks if rack.line_mm]),
        (SHELF, [(rack, rack.shelf_dm2) for rack in shop.racks if rack.shelf_dm2]),
    ):
        if sizes:
            name = _name([rack for rack, _ in sizes], what)
            rooms.append(RackRoom(id=name, what=what, total=int(sum(s for _, s in sizes))))
    return tuple(rooms)


def _name(racks: list[Rack], what: str) -> str:
    head = racks[0].id if len(racks) == 1 else _BOTH
    has_both = any(r.line_mm for r in racks) and any(r.shelf_dm2 for r in racks)
    return f"{head}.{what}" if has_both else head


def rack_resources(shop: Shop) -> tuple[Resource, ...]:
    """Return a shop's racks as the planner takes them."""
    return tuple(Resource(id=room.id, capacity=room.total) for room in rack_rooms(shop))


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    """Tells which rack room the wet parts of a step take, and until when."""

    shop: Shop
    room: RoomTaken

    def taken(self, step: Step, parts: tuple[str, ...] = ()) -> tuple[RackRoom, int] | None:
        """Return the rack room and how much of it parts of a wet step want, beyond its total too.

        What hangs goes on a line, or on a shelf where there is none; what lies only on a shelf.

        Args:
            step: what wets them.
            parts: those meant; all of the step's where none are named.
        """
        if step.kind not in _HANGS | _LIES:
            return None
        rooms = {room.what: room for room in rack_rooms(self.shop)}
        wanted = (SHELF,) if step.kind in _LIES else (LINE, SHELF)
        room = next((rooms[what] for what in wanted if what in rooms), None)
        if room is None:
            return None
        amount = self.room.line_mm if room.what == LINE else self.room.bath_dm2
        return room, amount(parts or step.parts)

    def holds(
        self, work: Work, place: Mapping[str, int], activities: tuple[str, ...]
    ) -> Iterator[Hold]:
        """Yield what hangs from each wet step until the next hands on its parts, as ordered.

        Each part is taken down for what comes next for it: one may go into another bath while the
        rest hangs on.

        Args:
            work: the steps.
            place: where each step stands in the chosen order.
            activities: ids as planned, in their order; of a step in sittings the last one wets.
        """
        last = {step_of(name): name for name in activities}
        for step in work.steps:
            whole = self.taken(step) if step.id in last and work.drying_of(step.id) else None
            if whole:
                room, _ = whole
                groups = tuple(_taken_down(step, work, place))
                amounts = [taken[1] for _, p in groups if (taken := self.taken(step, p))]
                for (until, _), amount in zip(groups, _within(amounts, room.total), strict=True):
                    yield Hold(
                        resource=room.id, amount=amount, first=last[step.id], until=(until,)
                    )

    def pressed(self, holds: Iterable[Hold], work: Work) -> tuple[Hold, ...]:
        """Return holds hung so close that all parts of a build find room while all are wet."""
        totals = {room.id: room.total for room in rack_rooms(self.shop)}
        wet: dict[str, dict[str, int]] = {}
        for step in work.steps:
            for part in step.parts if work.drying_of(step.id) else ():
                taken = self.taken(step, (part,))
                if taken:
                    wet.setdefault(taken[0].id, {})[part] = taken[1]
        wanted = {name: sum(parts.values()) for name, parts in wet.items()}
        return tuple(
            replace(h, amount=max(1, h.amount * totals[h.resource] // wanted[h.resource]))
            if wanted[h.resource] > totals[h.resource]
            else h
            for h in holds
        )


def _within(amounts: list[int], total: int) -> list[int]:
    """Return amounts, pressed together where they are more than there is."""
    wanted = sum(amounts)
    return amounts if wanted <= total else [max(1, a * total // wanted) for a in amounts]


def _taken_down(
    step: Step, work: Work, place: Mapping[str, int]
) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield the next steps of hands on the parts of a wet step, as ordered, each with its parts."""
    at = place.get(step.id)
    found: dict[str, list[str]] = {}
    for part in step.parts if at is not None else ():
        later = [
            other
            for other in work.touching(part)
            if other.attended
            and other.kind is not StepKind.WATCH
            and place.get(other.id, -1) > (at or 0)
        ]
        if later:
            found.setdefault(min(later, key=lambda other: place[other.id]).id, []).append(part)
    for until, parts in sorted(found.items()):
        yield until, tuple(parts)
