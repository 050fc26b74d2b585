"""Treatments and rooms for the laws of drying."""

from datetime import UTC, datetime, timedelta

from armorplan.workshop.air import AirReading, Climate, Room
from armorplan.workshop.shelf import Carrier, TreatmentEntry, TreatmentKind

MORNING = datetime(2026, 3, 2, 9, tzinfo=UTC)


def entry(carrier: Carrier = Carrier.WATER, **told: object) -> TreatmentEntry:
    """Return a treatment with a window, a cure and a thickness, so that all its stages are there."""
    facts: dict[str, object] = {
        "id": "coat",
        "name": "coat",
        "kind": TreatmentKind.FINISH,
        "touch_min": 30,
        "handle_min": 720,
        "window_min": (20, 90),
        "per_part_min": 1.0,
        "set_up_min": 1.0,
        "cautions": (),
        "source": "made up",
        "recoat_by_min": 240,
        "cure_min": 2880,
        "reference_mm": 3.0,
        "wipe_ml_per_dm2": 1.0,
        "dip_ml_per_dm2": 6.0,
    }
    return TreatmentEntry(carrier=carrier, **(facts | told))  # type: ignore[arg-type]


def air(temperature_c: float = 23.0, humidity_pct: float = 50.0, air_m_s: float = 0.1) -> Climate:
    return Climate(temperature_c=temperature_c, humidity_pct=humidity_pct, air_m_s=air_m_s)


def nights(night_c: float, day_c: float = 20.0, humidity_pct: float = 55.0) -> tuple[Climate, ...]:
    """Return the air of a day's hours: cold from eight in the evening to eight in the morning."""
    return tuple(air(day_c if 8 <= hour < 20 else night_c, humidity_pct) for hour in range(24))


def cold_nights(night_c: float = 8.0, zone: str = "UTC") -> Room:
    return Room(by_hour=nights(night_c), zone=zone)


def read_hourly(start_at: datetime, climates: list[Climate]) -> tuple[AirReading, ...]:
    return tuple(
        AirReading(at=start_at + timedelta(hours=at), climate=climate)
        for at, climate in enumerate(climates)
    )
