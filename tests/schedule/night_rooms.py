"""Builds planned in rooms with nights, for the tests of tables and of what is shown of them."""

from dataclasses import replace
from datetime import UTC, datetime, time
from functools import lru_cache

from armorplan.app.derived import Derived
from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.schedule.building import problem_from
from armorplan.schedule.workplace import Workplace
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.shop import Opening, Person, Shop, one_maker

MONDAY_AT = datetime(2026, 11, 30, 8, tzinfo=UTC)
ZONE = "Europe/Lisbon"
WARM = Climate(temperature_c=20, humidity_pct=50)
COLD = Climate(temperature_c=10, humidity_pct=80)
STEADY = Room(usual=WARM, zone=ZONE)
NIGHTS = Room(
    usual=WARM,
    zone=ZONE,
    by_hour=tuple(WARM if 8 <= hour < 20 else COLD for hour in range(24)),
)
_DRY_HEAT = Climate(temperature_c=34, humidity_pct=20, air_m_s=1.0)
HOT_NOONS = Room(
    usual=WARM,
    zone=ZONE,
    by_hour=tuple(_DRY_HEAT if 11 <= hour < 15 else COLD for hour in range(24)),
)
"""At noon a casing is too dry within minutes; in the morning it stays mushy for long."""
SHELF = read_shelf()


def open_every_day() -> tuple[Opening, ...]:
    """Return hours with a noon's pause on all seven days."""
    parts = ((time(9), time(12, 30)), (time(13, 30), time(17, 30)))
    return tuple(Opening(weekday=d, start=a, end=b) for d in range(7) for a, b in parts)


def shop_in(room: Room, *, every_day: bool = False) -> Shop:
    """Return one maker's shop in a room."""
    shop = replace(one_maker(ZONE), room=room)
    if not every_day:
        return shop
    return replace(shop, people=(Person(id="maker", name="Maker", hours=open_every_day()),))


@lru_cache(maxsize=8)
def derived_in(room: Room, sample: str = "elbow_cop", *, every_day: bool = False) -> Derived:
    """Return a sample derived for a room."""
    return derive_folder(samples_folder() / sample, SHELF, shop_in(room, every_day=every_day))


def problem_in(derived: Derived, *, origin_at: datetime = MONDAY_AT, **more):
    """Return the problem of planning it."""
    return problem_from(
        derived.work,
        derived.relations,
        Workplace(shop=derived.shop, shelf=derived.shelf),
        origin_at=origin_at,
        order=derived.order,
        **more,
    )
