"""A wearer's measures against those a pattern was drawn for: rows, ratios, and what to ask."""

from collections.abc import Iterator

from armorplan.app.wearer_model import MeasureRow
from armorplan.geometry.sizing.model import Wanted
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.sizing import DrawnFor
from armorplan.workshop.measures import BodyMeasure, MeasureKind, Sex
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.wearers import Wearer

_MOST_NAMED = 4
TOO_FAR = (0.5, 2.0)
"""Nobody is fitted beyond these: another unit is meant."""


def measure_rows(pattern: Pattern, wearer: Wearer, shelf: Shelf) -> tuple[MeasureRow, ...]:
    """Return a row for each measure that parts of a pattern follow, in the pattern's order."""
    return tuple(_rows(pattern, wearer, shelf))


def _rows(pattern: Pattern, wearer: Wearer, shelf: Shelf) -> Iterator[MeasureRow]:
    for drawn in pattern.drawn_for:
        measure, parts = shelf.measure(drawn.id), _followers(pattern, drawn.id)
        if measure is not None and parts:
            yield _row(drawn, measure, wearer, parts)


def _followers(pattern: Pattern, measure: str) -> tuple[str, ...]:
    return tuple(
        pattern.part(part).name
        for scaling in pattern.scalings
        if measure in (scaling.along, scaling.around)
        for part in scaling.parts
    )


def _row(
    drawn: DrawnFor, measure: BodyMeasure, wearer: Wearer, parts: tuple[str, ...]
) -> MeasureRow:
    found = wearer.over_padding(measure)
    bare_mm = found.bare_mm if found else None
    percentile = None if bare_mm is None else measure.percentile(bare_mm, wearer.sex)
    return MeasureRow(
        id=drawn.id,
        name=measure.name,
        taken=measure.taken,
        is_girth=measure.kind is MeasureKind.GIRTH,
        parts=parts,
        drawn_mm=drawn.mm,
        bare_mm=bare_mm,
        over_mm=round(found.over_mm, 1) if found else None,
        why=found.why if found else "",
        percentile=percentile,
        question=_question(measure, wearer),
    )


def _question(measure: BodyMeasure, wearer: Wearer) -> str:
    """Return what to ask of the value that counts: over the padding where it was taken so."""
    if measure.id in wearer.padded:
        value_mm, over_mm = wearer.padded[measure.id], measure.usual_over_mm
        return unit_question(measure, value_mm, wearer.sex, over_mm=over_mm)
    bare_mm = wearer.measures.get(measure.id)
    return "" if bare_mm is None else unit_question(measure, bare_mm, wearer.sex)


def unit_question(
    measure: BodyMeasure, value_mm: float, sex: Sex | None, *, over_mm: float = 0.0
) -> str:
    """Return what to ask of a rare value; empty where it is plausible or nothing is known.

    ``over_mm``: what of the value is padding.
    """
    bounds = measure.plausible_mm(sex, over_mm=over_mm)
    if bounds is None or bounds[0] <= value_mm <= bounds[1]:
        return ""
    few = "Few adults measure" if measure.usual(sex) else "Hardly anybody measures"
    low, high = bounds
    words = f"{few} {value_mm:g} mm here; {low:.0f} to {high:.0f} mm is usual. Is this in cm or inches?"
    meant = measure.meant(value_mm, sex, over_mm=over_mm)
    if not meant:
        return f"{words} Look whether it was taken at the right place."
    other_mm, why = meant[0]
    return f"{words} If {why}, it is {other_mm:g} mm."


def wanted_of(rows: tuple[MeasureRow, ...]) -> dict[str, Wanted]:
    """Return the measures that the wearer was measured for, to size by."""
    return {
        row.id: Wanted(drawn_mm=row.drawn_mm, wanted_mm=row.over_mm)
        for row in rows
        if row.over_mm is not None
    }


def measure_findings(rows: tuple[MeasureRow, ...], wearer: Wearer) -> Iterator[Finding]:
    """Yield what of a wearer's measures is missing, rare, guessed, or cannot be meant."""
    for row in rows:
        if row.over_mm is None:
            yield _missing(row, wearer)
        elif not TOO_FAR[0] <= row.over_mm / row.drawn_mm <= TOO_FAR[1]:
            yield _too_far(row, row.over_mm)
        elif row.question:
            yield Finding(
                code="rare-measure",
                severity=Severity.WARNING,
                text=f"{row.name}: {row.question}",
                remedy=f"Take it again. {row.taken}",
                about=(row.id,),
            )
    guessed = [row for row in rows if row.is_girth and row.over_mm and _is_guessed(row, wearer)]
    if guessed:
        names = ", ".join(f"{row.name}: {row.why}" for row in guessed)
        yield Finding(
            code="padding-guessed",
            severity=Severity.NOTE,
            text=f"How thick the padding is was not said. {names}.",
            remedy="Say how many mm of padding are worn, or measure over it.",
            about=tuple(row.id for row in guessed),
        )


def _is_guessed(row: MeasureRow, wearer: Wearer) -> bool:
    return row.id not in wearer.padded and wearer.padding_mm is None


def _missing(row: MeasureRow, wearer: Wearer) -> Finding:
    return Finding(
        code="not-measured",
        severity=Severity.WARNING,
        text=f"{row.name} of {wearer.name} was not taken: {_some(row.parts)} keep that size.",
        remedy=f"{row.taken} Add it to the measures.",
        about=(row.id,),
    )


def _some(names: tuple[str, ...]) -> str:
    if len(names) <= _MOST_NAMED:
        return ", ".join(names)
    return f"{', '.join(names[: _MOST_NAMED - 1])} and {len(names) - _MOST_NAMED + 1} more"


def _too_far(row: MeasureRow, over_mm: float) -> Finding:
    question = f" {row.question}" if row.question else ""
    why = f" ({row.why})" if row.why else ""
    return Finding(
        code="wrong-unit",
        severity=Severity.ERROR,
        text=f"{row.name} comes to {over_mm:g} mm{why}, and the pattern was drawn for {row.drawn_mm:g} mm. "
        f"Nobody is fitted that far.{question}",
        remedy="Look in which unit it was taken, and whether it is that measure; if so, the pattern was "
        "drawn for another body.",
        about=(row.id,),
    )
