"""What a logger's numbers mean where its file does not say: °C or °F, per cent or a share of one.

A unit holds for the whole file: nothing of it is used before it is known.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from statistics import median

from armorplan.files.limits import AIR_C, HUMIDITY
from armorplan.files.log_columns import Columns
from armorplan.files.log_values import number_in, says_celsius, says_fahrenheit, says_per_cent
from armorplan.kernel.findings import Finding, Place, Severity
from armorplan.workshop.fahrenheit import celsius
from armorplan.workshop.humidity import share_in_pct

FREEZING_F = 32
"""In °F all that is above freezing stands above this; no shop is so warm on average in °C."""
HOT_C = 40
"""A tenth of the readings above this is no summer's day."""
_TENTH = 0.1


class Meant(StrEnum):
    """What the numbers of a column are."""

    CELSIUS = "°C"
    FAHRENHEIT = "°F"
    PER_CENT = "%"
    SHARE = "share"


@dataclass(frozen=True, slots=True, kw_only=True)
class LogQuestion:
    """What has to be known before a file is used.

    Attributes:
        perhaps: what its numbers probably are.
        as_written: what they are if not.
        low, high: the least and the most of them, in °C or per cent, if so.
        may_stay: they may be as they are written.
        finding: the same in words, with what to write into the file.
    """

    perhaps: Meant
    as_written: Meant
    low: float
    high: float
    may_stay: bool
    finding: Finding

    @property
    def words(self) -> str:
        """The air that it would then be: ``10 to 16.1 °C``."""
        return between(self.low, self.high, "°C" if self.perhaps is Meant.FAHRENHEIT else "%")


def between(low: float, high: float, unit: str) -> str:
    """Return two ends in words, or one where both are the same."""
    return f"{low:g} {unit}" if low == high else f"{low:g} to {high:g} {unit}"


def as_meant(columns: Columns, meant: frozenset[Meant]) -> Columns:
    """Return the columns with the units that somebody told of them."""
    return replace(
        columns,
        fahrenheit=columns.fahrenheit or Meant.FAHRENHEIT in meant,
        celsius=columns.celsius or Meant.CELSIUS in meant,
        share=columns.share or Meant.SHARE in meant,
        per_cent=Meant.PER_CENT in meant,
    )


def asked_of(
    name: str, columns: Columns, warm: Iterable[str], damp: Iterable[str]
) -> tuple[LogQuestion, ...]:
    """Return what is to be asked of a file.

    Args:
        name: of the file.
        columns: what its header says.
        warm: the cells of its temperatures.
        damp: the cells of its humidities.
    """
    warm_bare = (cell for cell in warm if not (says_celsius(cell) or says_fahrenheit(cell)))
    damp_bare = (cell for cell in damp if not says_per_cent(cell))
    is_warm_told = columns.celsius or columns.fahrenheit
    is_damp_told = columns.share or columns.per_cent
    found = (
        None if is_warm_told else _fahrenheit(name, _numbers(warm_bare)),
        None if is_damp_told else _share(name, _numbers(damp_bare)),
    )
    return tuple(question for question in found if question is not None)


def _numbers(cells: Iterable[str]) -> list[float]:
    return sorted(value for value in map(number_in, cells) if value is not None)


def _fahrenheit(name: str, values: Sequence[float]) -> LogQuestion | None:
    if not values or not AIR_C.hold(celsius(median(values))):
        return None
    hot = sum(value > HOT_C for value in values)
    if median(values) <= FREEZING_F and hot <= _TENTH * len(values):
        return None
    low, high = (round(celsius(values[at]), 1) for at in (0, -1))
    read = "read" if len(values) > 1 else "reads"
    text = (
        f"{name} does not say whether its temperatures are °C or °F. They {read} "
        f"{between(values[0], values[-1], '').strip()}. Is that Fahrenheit? Then it is "
        f"{between(low, high, '°C')}. Nothing of the file is used before that is known."
    )
    remedy = "Name the column temperature °F, or temperature °C if it is so warm."
    return LogQuestion(
        perhaps=Meant.FAHRENHEIT,
        as_written=Meant.CELSIUS,
        low=low,
        high=high,
        may_stay=AIR_C.hold(values[0]) and AIR_C.hold(values[-1]),
        finding=_finding("fahrenheit-perhaps", name, text, remedy),
    )


def _share(name: str, values: Sequence[float]) -> LogQuestion | None:
    if not values or share_in_pct(median(values)) is None:
        return None
    shares = [value for value in values if share_in_pct(value) is not None]
    low, high = (round(100 * shares[at], 1) for at in (0, -1))
    text = (
        f"The humidity in {name} reads {between(shares[0], shares[-1], '').strip()}. Is that a "
        f"share? Then it is {between(low, high, '%')}. Nothing of the file is used before that is known."
    )
    remedy = "Name the column humidity (share), or write it in per cent."
    return LogQuestion(
        perhaps=Meant.SHARE,
        as_written=Meant.PER_CENT,
        low=low,
        high=high,
        may_stay=HUMIDITY.hold(values[-1]),
        finding=_finding("share-perhaps", name, text, remedy),
    )


def _finding(code: str, name: str, text: str, remedy: str) -> Finding:
    return Finding(
        code=code, severity=Severity.ERROR, text=text, remedy=remedy, place=Place(file=name)
    )
