"""Air that is too hot for leather that dries."""

from armorplan.workshop.air import Room

TOO_HOT_C = 45
"""Leather that dries is kept below this (common practice, no source)."""
_SHRINKS_C = 64


def heat_caution(hottest_c: float) -> str:
    """Return the caution for air of so many °C; empty where there is none."""
    if hottest_c < TOO_HOT_C:
        return ""
    return (
        f"Air of {hottest_c:g} °C is too hot for wet leather: keep it below about {TOO_HOT_C} °C "
        f"(common practice, no source). Wet, it begins to shrink at about {_SHRINKS_C} °C (Heritage "
        "Science 2019, art. 292, table 3)."
    )


def hottest_c(room: Room) -> float:
    """Return the hottest air that was told of a room, in °C."""
    told = room.by_hour or (room.usual,)
    airs = (*told, *(reading.climate for reading in room.readings))
    return max(air.temperature_c for air in airs)
