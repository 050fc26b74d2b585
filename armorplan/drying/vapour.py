"""Solvent in the air of a closed room: grams that evaporate, against what may burn and be breathed.

All that a coat holds is taken to evaporate at once, into still air, evenly mixed: no room without
an open window has less in its air. Open trays and cans add to it and are not counted.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import ceil, floor, log10

from armorplan.drying.body import BOTH_FACES
from armorplan.workshop.shelf import TreatmentEntry

KEEP_BELOW_PCT = 10.0
"""Of the lower explosive limit (common practice of ventilation, no source)."""
_HAIR = 1e-9
_RULES = "The label, local codes and licensed practice rule over these numbers."


@dataclass(frozen=True, slots=True, kw_only=True)
class Vapour:
    """What evaporates from one coat.

    Attributes:
        solvent: its name.
        solvent_g: all of it.
        lel_g_per_m3: the lower explosive limit, with ``lel_source``.
        limit_g_per_m3: of a workplace over a day, with ``limit_source``; ``None`` where not known.
        volume_m3: of the room; ``None`` where nobody measured it.
        dipped: it lay in an open tray.
    """

    solvent: str
    solvent_g: float
    lel_g_per_m3: float
    lel_source: str
    limit_g_per_m3: float | None
    limit_source: str
    volume_m3: float | None
    dipped: bool

    @property
    def in_air_g_per_m3(self) -> float | None:
        """Return how much of it a m³ of the room holds then."""
        return None if self.volume_m3 is None else self.solvent_g / self.volume_m3

    @property
    def lel_pct(self) -> float | None:
        """Return that as a share of the lower explosive limit."""
        held = self.in_air_g_per_m3
        return None if held is None else 100.0 * held / self.lel_g_per_m3

    @property
    def stays_below(self) -> bool | None:
        """Tell whether it stays below a tenth of the limit; ``None`` where the room is not known."""
        return None if self.lel_pct is None else self.lel_pct < KEEP_BELOW_PCT

    @property
    def least_m3(self) -> float:
        """Return the room it takes to reach no more than a tenth of the lower explosive limit."""
        return self.solvent_g / (self.lel_g_per_m3 * KEEP_BELOW_PCT / 100.0)

    @property
    def over_limit(self) -> bool | None:
        """Tell whether a workplace may have less over a day; ``None`` where that is not known."""
        if self.in_air_g_per_m3 is None or self.limit_g_per_m3 is None:
            return None
        return self.in_air_g_per_m3 > self.limit_g_per_m3


def vapour_of(
    entry: TreatmentEntry,
    *,
    area_dm2: float,
    dipped: bool = False,
    faces: int = BOTH_FACES,
    volume_m3: float | None = None,
) -> Vapour | None:
    """Return what evaporates from a coat; ``None``: nothing that burns, or not known how much.

    Args:
        entry: the treatment.
        area_dm2: leather coated, one face of it counted.
        dipped: in a bath, not wiped on.
        faces: how many of them are wiped; a bath wets all.
        volume_m3: of the room; ``None`` where nobody measured it.

    Raises:
        ValueError: a room or an area below nothing, a room of nothing.
    """
    if area_dm2 < 0 or (volume_m3 is not None and volume_m3 <= 0):
        message = f"no leather has {area_dm2:g} dm², or no room {volume_m3} m³"
        raise ValueError(message)
    taken_up_ml = area_dm2 * (entry.dip_ml_per_dm2 if dipped else faces * entry.wipe_ml_per_dm2)
    solvent_g = taken_up_ml * entry.solvent_g_per_ml
    if not entry.solvent or not entry.lel_g_per_m3 or not solvent_g:
        return None
    return Vapour(
        solvent=entry.solvent,
        solvent_g=solvent_g,
        lel_g_per_m3=entry.lel_g_per_m3,
        lel_source=entry.lel_source,
        limit_g_per_m3=entry.limit_g_per_m3,
        limit_source=entry.limit_source,
        volume_m3=volume_m3,
        dipped=dipped,
    )


def vapour_caution(vapour: Vapour) -> str:
    """Return the sentences to show where it is coated, each number with its source."""
    return " ".join(_sentences(vapour))


def _sentences(vapour: Vapour) -> Iterator[str]:
    yield _against_burning(vapour)
    if vapour.limit_g_per_m3 is not None:
        yield from _against_breathing(vapour, vapour.limit_g_per_m3)
    yield "Coats put on within the same hours add up; an open tray or can gives off more."
    if vapour.dipped:
        yield "Keep the bath covered between the dips."
    yield f"Near the wet leather and along the floor there is more. {_RULES}"


def _against_burning(vapour: Vapour) -> str:
    head = f"{_figure(vapour.solvent_g)} g of {vapour.solvent} evaporate"
    limit = f"the lower explosive limit ({vapour.lel_g_per_m3:g} g/m³: {vapour.lel_source})"
    least = f"at least {_at_least(vapour.least_m3)} m³"
    if vapour.volume_m3 is None or vapour.in_air_g_per_m3 is None or vapour.lel_pct is None:
        return f"{head}: it takes {least} of air to stay below {KEEP_BELOW_PCT:g} % of {limit}."
    there = (
        f"{head}: in {vapour.volume_m3:g} m³ of still air "
        f"{_figure(vapour.in_air_g_per_m3)} g/m³, {_share(vapour.lel_pct)} % of {limit}"
    )
    if vapour.stays_below:
        return f"{there}; keep below {KEEP_BELOW_PCT:g} %."
    return (
        f"{there}: too much. To stay below {KEEP_BELOW_PCT:g} % it takes {least}: coat fewer parts "
        "at a time, or do it outdoors."
    )


def _against_breathing(vapour: Vapour, limit_g_per_m3: float) -> Iterator[str]:
    limit = f"a workplace may have over a day ({limit_g_per_m3:g} g/m³: {vapour.limit_source})"
    if vapour.volume_m3 is None:
        needed = _at_least(vapour.solvent_g / limit_g_per_m3)
        yield f"In less than {needed} m³ it is more than {limit}: open windows or extract the air."
    elif vapour.over_limit:
        yield f"That is more than {limit}: open windows or extract the air."
    else:
        yield f"That is no more than {limit}; let fresh air in all the same."


def _share(pct: float) -> str:
    """Write per cent of the limit; what is below the tenth is not rounded up to it."""
    return _figure(min(pct, KEEP_BELOW_PCT - 0.1) if pct < KEEP_BELOW_PCT else pct)


def _figure(value: float) -> str:
    """Write a number with the two digits that count."""
    return _with_two_digits(value, round)


def _at_least(value: float) -> str:
    """Write a number with two digits, the next higher one where it has more."""
    return _with_two_digits(value, lambda scaled: ceil(scaled - _HAIR))


def _with_two_digits(value: float, whole: Callable[[float], int]) -> str:
    digits = 1 - floor(log10(value))
    return f"{whole(value * 10**digits) / 10**digits:.{max(0, digits)}f}"
