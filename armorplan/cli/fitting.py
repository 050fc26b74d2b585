"""``armorplan fit PATTERN --wearer``: the pattern made to a wearer's measures, in a folder of its own."""

from argparse import Namespace
from collections.abc import Iterator
from dataclasses import dataclass

from armorplan.app.draft import Refused
from armorplan.app.wearer_again import with_learned
from armorplan.app.wearer_fit import Asked, fitted
from armorplan.app.wearer_folder import Place, place_for, write_fitted
from armorplan.app.wearer_model import Fitted, MeasureRow, SizedPlace, SizedRow
from armorplan.app.wearer_shelf import named_wearer
from armorplan.cli.exits import CLEAN
from armorplan.cli.reading import pattern_folder, say, say_json, shelf_for, warn
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PatternFiles, read_folder
from armorplan.kernel.errors import ArmorplanError, FaultyPatternError, UnreadableError
from armorplan.kernel.findings import Finding, Severity, has_errors
from armorplan.store.places import own_wearers_path
from armorplan.workshop.shelf import Shelf


@dataclass(frozen=True, slots=True, kw_only=True)
class PartAnswer:
    """A part before and after: its height along up and its width across, in mm."""

    id: str
    name: str
    before_mm: tuple[float, float]
    after_mm: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingReport:
    """What ``--json`` answers. ``folder`` is empty where nothing was written."""

    pattern: str
    wearer: str
    side: str
    version: int
    folder: str
    measures: tuple[MeasureRow, ...]
    parts: tuple[PartAnswer, ...]
    rows: tuple[SizedRow, ...]
    places: tuple[SizedPlace, ...]
    findings: tuple[Finding, ...]


def fit_to_wearer(chosen: Namespace) -> int:
    """Write the pattern fitted to a wearer; return 0.

    Raises:
        UnreadableError: the pattern, the wearer or the measures cannot be used.
        ArmorplanError: there is no such wearer, or the folder cannot be written.
    """
    if chosen.output is None:
        raise ArmorplanError("Say with -o FOLDER where the fitted pattern goes.")
    shelf = shelf_for(chosen.catalogues)
    files = read_folder(pattern_folder(chosen.pattern))
    asked = Asked(
        wearer=named_wearer(chosen.wearer, own_wearers_path(), shelf), side=chosen.side or ""
    )
    place = _place(chosen, files, asked, shelf)
    found = fitted(
        files, Asked(wearer=asked.wearer, side=asked.side, version=place.version), shelf
    )
    if isinstance(found, Refused):
        raise UnreadableError(found.findings)
    if has_errors(found.findings):
        raise FaultyPatternError(tuple(f for f in found.findings if f.severity is Severity.ERROR))
    found = with_learned(found, dict(place.former), shelf)
    refusal = write_fitted(found, place)
    if refusal is not None:
        raise ArmorplanError(f"{refusal.text} {refusal.remedy}")
    if chosen.json:
        say_json(_report(found, place))
    else:
        _told(found, place)
    return CLEAN


def _place(chosen: Namespace, files: PatternFiles, asked: Asked, shelf: Shelf) -> Place:
    read = read_pattern(files, shelf)
    if read.pattern is None:
        raise FaultyPatternError(read.findings)
    place = place_for(chosen.output, read.pattern.uuid, asked.wearer.id, asked.side)
    if isinstance(place, Finding):
        raise ArmorplanError(f"{place.text} {place.remedy}")
    if place.former and not chosen.again:
        raise ArmorplanError(
            f"{chosen.output} holds this pattern fitted to {asked.wearer.name}, version "
            f"{place.version - 1}. Add --again to fit it anew; its corrections and versions stay, what else was "
            "changed there by hand goes."
        )
    return place


def _report(found: Fitted, place: Place) -> FittingReport:
    return FittingReport(
        pattern=found.name,
        wearer=found.wearer,
        side=found.side,
        version=place.version,
        folder=str(place.folder),
        measures=found.measures,
        parts=tuple(
            PartAnswer(id=p.id, name=p.name, before_mm=p.before_mm, after_mm=p.after_mm)
            for p in found.parts
        ),
        rows=found.rows,
        places=found.places,
        findings=found.findings,
    )


def _told(found: Fitted, place: Place) -> None:
    say(f"{found.name}, version {place.version}")
    say("  Measures:")
    for row in found.measures:
        say(f"    {_measure(row)}")
    say("  Parts, height × width in mm:")
    wide = max((len(part.name) for part in found.parts), default=0)
    for part in found.parts:
        (high, across), (new_high, new_across) = part.before_mm, part.after_mm
        say(
            f"    {part.name:<{wide}}  {high:6.1f} × {across:6.1f}  →  {new_high:6.1f} × {new_across:6.1f}"
        )
    for line in _rows(found):
        say(line)
    say(f"Written: {place.folder} ({len(found.texts)} files)")
    warn(found.findings)


def _measure(row: MeasureRow) -> str:
    if row.over_mm is None:
        return f"{row.name} ({row.id}): not taken, drawn for {row.drawn_mm:g} mm"
    over = " over the padding" if row.is_girth else ""
    why = f" ({row.why})" if row.why else ""
    rare = "" if row.percentile is None else f", percentile {row.percentile:.0f}"
    return f"{row.name}: {row.over_mm:g} mm{over}{why}, drawn for {row.drawn_mm:g} mm{rare}"


def _rows(found: Fitted) -> Iterator[str]:
    if found.rows:
        yield "  Rows, holes and spacing in mm:"
    for row in found.rows:
        count = (
            f"{row.holes_after} holes"
            if row.holes_before == row.holes_after
            else f"{row.holes_before} holes → {row.holes_after}"
        )
        yield f"    {row.name}: {count}, {_span(row.before_mm)} → {_span(row.after_mm)}"
    if found.places:
        yield "  Straps close round, in mm over the padding:"
    for place in found.places:
        (least, most), (now, then) = place.before_mm, place.after_mm
        yield f"    {place.name}: {least:g} to {most:g} → {now:g} to {then:g}"


def _span(spacing: tuple[float, float]) -> str:
    least, most = (f"{mm:.1f}" for mm in spacing)
    return least if least == most else f"{least} to {most}"
