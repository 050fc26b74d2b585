"""What a shop's people, places and baths are called in sentences about a plan."""

from armorplan.schedule.hanging import rack_rooms
from armorplan.schedule.naming import Naming
from armorplan.schedule.problem import Problem
from armorplan.workshop.shop import Shop


def naming_of(shop: Shop, problem: Problem | None = None) -> Naming:
    """Return the names of a shop, and of the builds of a problem, in its local time."""
    names = {one.id: one.name for one in shop.people}
    names |= {one.id: one.name for one in shop.wearers}
    names |= {one.id: one.name for one in shop.baths}
    names |= {one.id: one.name for one in shop.racks}
    names |= {one.id: one.name for one in shop.stations}
    for room in rack_rooms(shop):
        rack = next((r.name for r in shop.racks if r.id == room.id.partition(".")[0]), "the racks")
        names[room.id] = f"the {room.what} of {rack}"
    if problem is not None:
        names |= {job.id: job.title or job.id for job in problem.jobs}
    return Naming(names=names, zone=shop.zone)
