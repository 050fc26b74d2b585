"""The air that leather dries in: °C, relative humidity, air speed, hour by hour or as read.

And what the shop has learned of its own drying: how much longer or shorter a treatment takes
there than its catalogue says.
"""

from dataclasses import dataclass
from datetime import datetime

STILL_AIR_M_S = 0.1
"""Air speed in a closed room without a fan (common practice, no source)."""
HOURS_A_DAY = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Climate:
    """Air at one time: °C, relative humidity in per cent, and how fast it moves in m/s."""

    temperature_c: float = 23.0
    humidity_pct: float = 50.0
    air_m_s: float = STILL_AIR_M_S


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
