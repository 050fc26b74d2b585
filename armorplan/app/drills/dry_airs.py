"""The air of an exercise: a usual day of this shop, or days unlike it."""

from dataclasses import dataclass, replace

from armorplan.drying.days import usual_days
from armorplan.drying.room import DryingRoom, drying_room
from armorplan.kernel.units import DAY_MIN, HOUR_MIN
from armorplan.workshop.air import STILL_AIR_M_S, Climate, Room, mean_air

COLDEST_C, WARMEST_C = 11, 35
"""An exercise's own air is no colder, so that finishes form their film, and no warmer."""
DRIEST_PCT, DAMPEST_PCT = 20, 88


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillAir:
    """Air that an exercise is set in, on no date.

    Attributes:
        said: a sentence.
        room: reckons in it; its hours are those of UTC.
        is_own: it is the shop's.
        climate: where it is the same at all times; ``None``: it goes through the hours of a day.
    """

    said: str
    room: DryingRoom
    is_own: bool = False
    climate: Climate | None = None


@dataclass(frozen=True, slots=True)
class _Turn:
    """How an air differs from the shop's: by so many °C and per cent, and how fast it moves."""

    said: str
    warmer_c: float
    damper_pct: float
    air_m_s: float


_TURNS = (
    _Turn("Damp days", -5, 32, STILL_AIR_M_S),
    _Turn("Cold days", -11, 15, STILL_AIR_M_S),
    _Turn("Cold and damp days", -11, 36, STILL_AIR_M_S),
    _Turn("Warm, dry days, and a fan blows", 5, -22, 1.5),
    _Turn("Hot, dry days, and a strong fan blows", 12, -28, 3.0),
)


def airs_of(room: Room) -> tuple[DrillAir, ...]:
    """Return the shop's own air on a usual day, and the others that may be."""
    usual = mean_air(usual_days(room))
    return (_own(room, usual), *(_turned(room, usual, turn) for turn in _TURNS))


def _own(room: Room, usual: Climate) -> DrillAir:
    hours = usual_days(room)
    is_steady = len(set(hours)) == 1
    words = f"{usual.temperature_c:g} °C and {usual.humidity_pct:g} % humidity"
    if is_steady:
        said = f"The air is that of a usual day in this shop: {words}{_moving(usual)}."
    else:
        warm = [climate.temperature_c for climate in hours]
        said = (
            f"The air is that of a usual day in this shop: on average {words}, {min(warm):g} to "
            f"{max(warm):g} °C{_moving(usual)}."
        )
    steady = replace(room, usual=usual, by_hour=(), readings=(), zone="UTC")
    return DrillAir(
        said=said,
        room=drying_room(steady) if is_steady else drying_room(room).usual_day,
        is_own=True,
        climate=usual if is_steady else None,
    )


def _turned(room: Room, usual: Climate, turn: _Turn) -> DrillAir:
    climate = Climate(
        temperature_c=_between(usual.temperature_c + turn.warmer_c, COLDEST_C, WARMEST_C),
        humidity_pct=_between(usual.humidity_pct + turn.damper_pct, DRIEST_PCT, DAMPEST_PCT),
        air_m_s=turn.air_m_s,
    )
    said = (
        f"{turn.said}: {climate.temperature_c:g} °C and {climate.humidity_pct:g} % "
        f"humidity{_moving(climate)}, day and night."
    )
    return DrillAir(
        said=said,
        room=drying_room(replace(room, usual=climate, by_hour=(), readings=(), zone="UTC")),
        climate=climate,
    )


def _between(value: float, low: float, high: float) -> float:
    return float(round(min(max(value, low), high)))


def _moving(climate: Climate) -> str:
    return "" if climate.air_m_s == STILL_AIR_M_S else f", air moving at {climate.air_m_s:g} m/s"


def clock_words(minute: int, now_min: int) -> str:
    """Return a minute as a maker says it at another; both count from the same midnight."""
    time = f"{minute % DAY_MIN // HOUR_MIN:02}:{minute % HOUR_MIN:02}"
    days = now_min // DAY_MIN - minute // DAY_MIN
    told = {0: "", 1: " the day before", -1: " the next day"}
    if days in told:
        return f"{time}{told[days]}"
    return f"{time}, {abs(days)} days {'before' if days > 0 else 'later'}"
