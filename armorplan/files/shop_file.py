"""Reads a shop file: the text form of a workshop, and the builds it has in hand."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from zoneinfo import ZoneInfo, available_timezones

from armorplan.files.air_rows import read_room
from armorplan.files.faults import Faults, brief
from armorplan.files.file_bytes import read_file
from armorplan.files.local_times import LocalTimes
from armorplan.files.order_rows import order_folder, read_orders
from armorplan.files.people_rows import read_people, read_wearers
from armorplan.files.place_rows import (
    check_names,
    read_baths,
    read_holidays,
    read_racks,
    read_stations,
    read_trays,
)
from armorplan.files.tables import Table, open_toml
from armorplan.files.values import text
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Place, has_errors
from armorplan.workshop.orders import Order
from armorplan.workshop.shop import Shop

SHOP_FILE = "shop.toml"
MAX_SHOP_BYTES = 1_000_000
_TOLD = ("people", "wearers", "baths", "racks", "stations", "builds")


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopFile:
    """A shop with the builds it has in hand.

    Attributes:
        findings: what the file leaves to be asked or known: warnings and notes.
        orders: the builds in hand, as the file has them; those alike one by one.
        folder: where the file lies; patterns are named from here.
        places: where people, baths and builds are written, by ``table`` and ``table.id``.
    """

    shop: Shop
    findings: tuple[Finding, ...]
    orders: tuple[Order, ...] = ()
    folder: Path = Path()
    places: Mapping[str, Place] = field(default_factory=dict)

    def pattern_folder(self, order: Order) -> Path:
        """Return the folder of an order's pattern."""
        return order_folder(self.folder, order.pattern)


def shop_path(given: Path) -> Path:
    """Return the shop file meant: the file itself, or the one in a folder."""
    return given / SHOP_FILE if given.is_dir() else given


def read_shop_file(path: Path) -> ShopFile:
    """Read a shop file, and the logger's file that it names.

    Raises:
        UnreadableError: with every fault, each with its line.
    """
    data = read_file(path.parent, path.name, most=MAX_SHOP_BYTES)
    faults = Faults()
    top = open_toml(path.name, data.decode("utf-8"), faults, strict=True)
    if top is None:
        raise UnreadableError(faults.findings)
    zone = _zone(top)
    times = LocalTimes(zone)
    shop = _shop(top, path.parent, zone, times)
    orders = read_orders(top, path.parent, times, shop.wearers)
    top.finish()
    if has_errors(faults.findings):
        raise UnreadableError(faults.findings)
    return ShopFile(
        shop=shop,
        findings=faults.findings,
        orders=orders,
        folder=path.parent,
        places=_places(top),
    )


def _shop(top: Table, base: Path, zone: str, times: LocalTimes) -> Shop:
    room = read_room(top, base, zone=zone or "UTC")
    people, trays = read_people(top, times), read_trays(top)
    check_names(top)
    return Shop(
        zone=zone,
        people=people,
        room=room,
        trays=trays,
        wearers=read_wearers(top, times, people),
        baths=read_baths(top, trays),
        racks=read_racks(top),
        stations=read_stations(top),
        closed=times.stretches(top, "closed", whole_days=True),
        holidays=read_holidays(top),
    )


def _places(top: Table) -> dict[str, Place]:
    found: dict[str, Place] = {}
    for name in _TOLD:
        if top.has(name):
            found[name] = top.place(name)
            rows = top.table(name).rows()
            found |= {f"{name}.{key}": row.place() for key, row in rows}
    return found


def _zone(top: Table) -> str:
    name = text(top, "zone")
    if not name:
        return ""
    try:
        ZoneInfo(name)
    except (ValueError, OSError, KeyError):
        # KeyError: not found; ValueError: not a name; OSError: a folder of zones, like "Europe".
        near = top.faults.nearest(name, available_timezones())
        top.fault(
            "zone",
            "unknown-zone",
            f'There is no time zone "{brief(name)}".',
            mend=f'Perhaps "{near}" is meant.' if near else "Write it like Europe/Lisbon.",
        )
        return ""
    return name
