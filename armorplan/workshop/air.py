"""The air that leather dries in: °C, relative humidity, air speed, hour by hour or as read.

And what the shop has learned of its own drying: how much longer or shorter a treatment takes
there than its catalogue says.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

STILL_AIR_M_S = 0.1
"""Air speed in a closed room without a fan (common practice, no source)."""
HOURS_A_DAY = 24
DAY_FROM_H, NIGHT_FROM_H = 8, 20
"""When day and night begin where nobody says (common practice, no source)."""
COLDEST_C, HOTTEST_C = -20, 60
"""Air that this reckons with, in °C; these limits are stated ones, chosen generously."""
ASK_ABOVE_C = 45
"""Air warmer than this over leather is more likely told in °F than meant."""
FASTEST_M_S = 30
LARGEST_M3 = 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Climate:
    """Air at one time: °C, relative humidity in per cent, and how fast it moves in m/s."""

    temperature_c: float = 23.0
    humidity_pct: float = 50.0
    air_m_s: float = STILL_AIR_M_S


def by_night(day: Climate, night: Climate, *, begins: int, ends: int) -> tuple[Climate, ...]:
    """Return the air of 24 hours, with that of the night from one full hour to another."""
    long = (ends - begins) % HOURS_A_DAY
    return tuple(
        night if (hour - begins) % HOURS_A_DAY < long else day for hour in range(HOURS_A_DAY)
    )


def mean_air(climates: Iterable[Climate]) -> Climate:
    """Return the mean of some air, each counted alike, rounded to what an instrument tells."""
    found = list(climates)
    count = len(found)
    return Climate(
        temperature_c=round(sum(c.temperature_c for c in found) / count, 1),
        humidity_pct=round(sum(c.humidity_pct for c in found) / count, 1),
        air_m_s=round(sum(c.air_m_s for c in found) / count, 2),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class AirReading:
    """The air at an instant (aware, UTC), typed in or from a logger."""

    at: datetime
    climate: Climate


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """How long a treatment takes to dry in this shop, as a multiple of what is reckoned.

    The multiple is log-normal: half of all dryings take less than ``factor``, and eight of ten lie
    between ``factor * exp(-1.2816 * spread)`` and ``factor * exp(1.2816 * spread)``.

    Attributes:
        treatment: the catalogue's id.
        factor: the median multiple; 1 where nothing was learned.
        spread: standard deviation of the multiple's logarithm.
        observations: how many dryings taught it.
    """

    treatment: str
    factor: float
    spread: float
    observations: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """The room where things dry.

    Attributes:
        usual: its air where nothing else is known.
        by_hour: its air for each hour of the shop's local day, from midnight; 24 of them or none.
        readings: its air as read, ascending; they count where they are, and up to some hours beside.
        zone: IANA name of the time zone that ``by_hour`` is told in.
        volume_m3: its volume, for what evaporates into it; ``None`` where nobody measured it.
        paces: what was learned of drying in it.
    """

    usual: Climate = Climate()
    by_hour: tuple[Climate, ...] = ()
    readings: tuple[AirReading, ...] = ()
    zone: str = "UTC"
    volume_m3: float | None = None
    paces: tuple[Pace, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a day that has not 24 hours."""
        if len(self.by_hour) not in (0, HOURS_A_DAY):
            message = f"a day has {HOURS_A_DAY} hours, not {len(self.by_hour)}"
            raise ValueError(message)

    @property
    def is_steady(self) -> bool:
        """Tell whether the air is the same at all times."""
        return not self.by_hour and not self.readings

    def pace(self, treatment: str) -> Pace | None:
        """Return what was learned of a treatment, or ``None``."""
        return next((p for p in self.paces if p.treatment == treatment), None)
