"""Reads one measure of the body: where it is taken, and what is usual."""

from armorplan.files.limits import LENGTH, LENGTH_OR_NONE
from armorplan.files.tables import Table
from armorplan.files.values import choice, number, numbers, text
from armorplan.files.words import pair
from armorplan.workshop.measures import QUANTILES, BodyMeasure, MeasureKind, Usual


def read_measure(key: str, row: Table) -> BodyMeasure:
    """Read a measure of the catalogue."""
    return BodyMeasure(
        id=key,
        name=text(row, "name"),
        # The stand-in after a fault is the kind to which nothing is added.
        kind=choice(row, "kind", MeasureKind) or MeasureKind.LENGTH,
        taken=text(row, "taken"),
        source=text(row, "source"),
        over_bare_mm=_pair(row, "over_bare_mm"),
        female=_usual(row, "female"),
        male=_usual(row, "male"),
        between_mm=_pair(row, "between_mm"),
    )


def _pair(row: Table, key: str) -> tuple[float, float] | None:
    return pair(row, key, LENGTH_OR_NONE) if row.has(key) else None


def _usual(row: Table, key: str) -> Usual | None:
    if not row.has(key):
        return None
    told = row.table(key)
    usual = Usual(
        mean_mm=number(told, "mean_mm", LENGTH),
        sd_mm=number(told, "sd_mm", LENGTH),
        quantiles_mm=numbers(told, "quantiles_mm", LENGTH, count=len(QUANTILES), rising=True),
    )
    told.finish()
    return usual if len(usual.quantiles_mm) == len(QUANTILES) else None
