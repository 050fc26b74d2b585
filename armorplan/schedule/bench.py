"""What a serial plan in the making stands on."""

from dataclasses import dataclass, field

from armorplan.schedule.allowed import Allowed, Floors
from armorplan.schedule.held import HeldPlaces
from armorplan.schedule.occupancy import Occupancy
from armorplan.schedule.problem import Placed, Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What is free, what is held, what is laid, and what that allows."""

    room: Occupancy
    held: HeldPlaces
    allowed: Allowed
    placed: dict[str, Placed]
    floors: Floors = field(default_factory=Floors)


def bench_of(problem: Problem) -> Bench:
    """Return a bench on which nothing is laid but what is fixed."""
    room = Occupancy(problem)
    placed = {p.id: p for p in room.take_history(problem)}
    held = HeldPlaces(problem, room.levels, placed)
    for name in placed:
        held.settle(name)
    return Bench(room=room, held=held, allowed=Allowed(problem, room, placed), placed=placed)
