"""What a shop's people, places and baths are called in sentences about a plan, and where they stand."""

from collections.abc import Iterator

from armorplan.app.shop_told import places_in
from armorplan.kernel.findings import Place
from armorplan.schedule.hanging import rack_rooms
from armorplan.schedule.naming import Naming
from armorplan.schedule.problem import Problem
from armorplan.schedule.shop_checks import place_of
from armorplan.workshop.shop import Shop


def naming_of(shop: Shop, problem: Problem | None = None, *, source: str = "") -> Naming:
    """Return the names of a shop, and of the builds of a problem, in its local time.

    Args:
        shop: its people and places.
        problem: what is planned there.
        source: the shop file, for the lines where all this is written; empty: there is none.
    """
    names = {one.id: one.name for one in shop.people}
    names |= {one.id: one.name for one in shop.wearers}
    names |= {one.id: one.name for one in shop.baths}
    names |= {one.id: one.name for one in shop.racks}
    names |= {one.id: one.name for one in shop.stations}
    for room in rack_rooms(shop):
        rack = next((r.name for r in shop.racks if r.id == room.id.partition(".")[0]), "the racks")
        names[room.id] = f"the {room.what} of {rack}"
    builds = {job.id: job.title or job.id for job in problem.jobs} if problem else {}
    written = dict(_written(shop, problem, source))
    return Naming(
        names=names,
        builds=builds,
        zone=shop.zone,
        written=written,
        beside=frozenset((one.id, kind) for one in shop.people for kind in one.beside),
        signed=frozenset((one.id, kind) for one in shop.people for kind, _ in one.signed_off),
    )


def _written(shop: Shop, problem: Problem | None, source: str) -> Iterator[tuple[str, str]]:
    """Yield tables of the shop file, each with its line where that is known."""
    places = places_in(source)
    tables = {one.id: f"people.{one.id}" for one in shop.people}
    tables |= {one.id: f"wearers.{one.id}" for one in shop.wearers}
    tables |= {one.id: f"baths.{one.id}" for one in shop.baths}
    tables |= {one.id: f"stations.{one.id}" for one in shop.stations}
    for room in rack_rooms(shop):
        rack = room.id.partition(".")[0]
        tables[room.id] = f"racks.{rack}" if rack != "racks" else "racks"
    for name, table in tables.items():
        place = places.get(table)
        yield name, f"[{table}]{_line(place)}" if place else f"[{table}] of the shop file"
    for job in problem.jobs if problem else ():
        place = place_of(places, job.id)
        if place is not None:
            yield f"builds.{job.id}", f"[{place.key or 'builds'}]{_line(place)}"


def _line(place: Place) -> str:
    line = f", line {place.line}" if place.line else ""
    return f" in {place.file}{line}"
