"""What a machine was set to for a leather, and how the cut came out: a log that is only added to."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

NEAR_MM = 0.3
"""Leather is sold by the ounce of 0.4 mm: what is nearer than this in thickness is cut alike."""


class CutResult(StrEnum):
    """How a cut came out."""

    THROUGH = "cut through"
    SPOTS = "uncut spots"
    CHARRED = "charred"
    NOT_THROUGH = "not through"


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSetting:
    """One trial of a machine on a leather.

    Attributes:
        at: when it was kept.
        machine: what the maker calls it.
        leather: its id in the catalogue.
        thickness_mm: of the leather.
        words: power, speed, focus, blade: as the machine has them, in the maker's words.
        passes: how often it went over the line.
        kerf_mm: how much it took away, measured; ``None``: not measured.
        note: anything else, in the maker's words.
        who: by whom; may be empty.
    """

    at: datetime
    machine: str
    leather: str
    thickness_mm: float
    words: str
    passes: int
    result: CutResult
    kerf_mm: float | None = None
    note: str = ""
    who: str = ""

    @property
    def is_good(self) -> bool:
        """Tell whether it cut through, with nothing to mend."""
        return self.result is CutResult.THROUGH


def last_good(
    settings: Iterable[CutSetting], leather: str, thickness_mm: float
) -> tuple[CutSetting, ...]:
    """Return for each machine what cut such a leather last, the latest first.

    What was found later not to cut so any more does not count: a lens gets dirty, a blade dull.

    Args:
        settings: oldest first.
        leather: its id in the catalogue.
        thickness_mm: of the leather.
    """
    found: dict[str, CutSetting] = {}
    for one in settings:
        if one.leather != leather or abs(one.thickness_mm - thickness_mm) > NEAR_MM:
            continue
        if one.is_good:
            found[one.machine] = one
        elif (former := found.get(one.machine)) and _alike(former, one):
            del found[one.machine]
    return tuple(sorted(found.values(), key=lambda one: one.at, reverse=True))


def _alike(one: CutSetting, other: CutSetting) -> bool:
    return (one.words.casefold(), one.passes) == (other.words.casefold(), other.passes)
