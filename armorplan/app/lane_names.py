"""What the lanes of the week are called: people, wearers, baths, racks and stations of the shop."""

from armorplan.schedule.hanging import LINE, rack_rooms
from armorplan.workshop.shop import Shop


def bath_lane(bath: str) -> str:
    """Return the id of the lane of a bath."""
    return f"bath:{bath}"


def place_lane(place: str) -> str:
    """Return the id of the lane of a place."""
    return f"place:{place}"


def lane_names(shop: Shop) -> tuple[tuple[str, str], ...]:
    """Return the name of every person by the id, and of every bath and place by its lane's."""
    people = [(person.id, person.name) for person in shop.people]
    people += [(wearer.id, wearer.name) for wearer in shop.wearers]
    baths = [(bath_lane(bath.id), bath.name) for bath in shop.baths]
    stations = [(place_lane(station.id), station.name) for station in shop.stations]
    return (*people, *baths, *stations, *_racks(shop))


def _racks(shop: Shop) -> tuple[tuple[str, str], ...]:
    """Return the names of racks: what lies and what hangs are apart where a rack has both."""
    names = {rack.id: rack.name for rack in shop.racks}
    found = []
    for room in rack_rooms(shop):
        rack, _, part = room.id.partition(".")
        name = names.get(rack, "Racks")
        what = "line" if room.what == LINE else "shelf"
        found.append((place_lane(room.id), f"{name}, {what}" if part else name))
    return tuple(found)
