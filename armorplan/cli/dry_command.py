"""``armorplan dry``: when a treatment is dry in this air, on this leather, from an instant on."""

from argparse import Namespace
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from textwrap import wrap
from zoneinfo import ZoneInfo

from armorplan.app.drying_report import DryReport, EdgeReport, dry_report, page_of
from armorplan.app.picture_file import check_picture
from armorplan.app.rough_instants import rough, rough_span
from armorplan.cli.air_spec import room_as_typed
from armorplan.cli.exits import CLEAN, FAULTY
from armorplan.cli.in_shop import shop_of, tell_air
from armorplan.cli.instants import start_of
from armorplan.cli.reading import say, say_json, shelf_for
from armorplan.drying.body import Body
from armorplan.drying.spans import Verdict
from armorplan.files.faults import Faults, listed
from armorplan.kernel.errors import ArmorplanError
from armorplan.workshop.shelf import Shelf, TreatmentEntry

_WIDE = 100
_INDENT = "  "


def dry(chosen: Namespace) -> int:
    """Print when it is dry; return 0, or 1 where it will not dry or would spoil.

    Raises:
        ArmorplanError: no such treatment or leather, one without times, or no such air.
    """
    if chosen.png is not None:
        check_picture(chosen.png)
    shelf = shelf_for(chosen.catalogues)
    entry = _treatment(shelf, chosen.treatment)
    body = _body(shelf, entry, chosen)
    shop, air = shop_of(chosen, shelf)
    room = shop.room
    if chosen.climate is not None:
        room = room_as_typed(chosen.climate, room)
    else:
        tell_air(air)
    if chosen.room is not None:
        room = replace(room, volume_m3=chosen.room)
    page = page_of(entry, body, room, start_of(chosen.start, room.zone))
    report = dry_report(page, area_dm2=chosen.area)
    if chosen.png is not None:
        from armorplan.app.drying_picture import paper_of, save_drying_picture

        paper = paper_of(page, report, people=shop.people)
        save_drying_picture(chosen.png, paper, dark=chosen.dark)
    if chosen.json:
        say_json(report)
    else:
        for line in dry_lines(report, reference_mm=entry.reference_mm):
            say(line)
    return CLEAN if page.verdict is Verdict.DRIES else FAULTY


def _treatment(shelf: Shelf, given: str) -> TreatmentEntry:
    """Return the treatment of this id or name."""
    meant = given.strip().casefold()
    entry = next((e for e in shelf.treatments if meant in (e.id, e.name.casefold())), None)
    if entry is None:
        near = Faults().nearest(meant, [e.id for e in shelf.treatments])
        ids = ", ".join(sorted(e.id for e in shelf.treatments))
        perhaps = f" Perhaps '{near}' is meant." if near else ""
        message = f"There is no treatment '{given}'.{perhaps} There are: {ids}."
        raise ArmorplanError(message)
    if not entry.touch_min or not entry.handle_min:
        message = (
            f"{entry.name} has no times: touch_min is {entry.touch_min} min and handle_min is "
            f"{entry.handle_min} min in treatments.toml. Write there how long it takes at 23 °C "
            "and 50 %."
        )
        raise ArmorplanError(message)
    return entry


def _body(shelf: Shelf, entry: TreatmentEntry, chosen: Namespace) -> Body:
    if chosen.dipped and not entry.dip_ml_per_dm2:
        message = (
            f"{entry.name} is not dipped: the catalogue tells no uptake of a bath. Leave --dipped "
            f"out, or write dip_ml_per_dm2 under [{entry.id}] in your own treatments.toml."
        )
        raise ArmorplanError(message)
    thickness_mm = chosen.thickness
    if chosen.material is not None:
        leather = shelf.leather(chosen.material)
        if leather is None:
            known = Faults().nearest_first(chosen.material, [e.id for e in shelf.leathers])
            message = (
                f"There is no leather '{chosen.material}'. There are: {listed(known, most=20)}."
            )
            raise ArmorplanError(message)
        thickness_mm = round(sum(leather.usual_mm) / 2, 2)
    return Body(thickness_mm=thickness_mm, faces=chosen.faces, dipped=chosen.dipped)


def dry_lines(report: DryReport, *, reference_mm: float | None) -> Iterator[str]:
    """Yield what the terminal says of a drying."""
    local = report.start.astimezone(ZoneInfo(report.zone))
    yield f"{report.name}, wet from {local:%A} {local.day} {local:%B %Y} {local:%H:%M}"
    yield f"{_INDENT}leather  {_leather_words(report, reference_mm)}"
    yield from _beside("air", report.air.words)
    yield f"{_INDENT}         {_air_words(report)}"
    yield ""
    if report.trouble:
        yield from _wrapped(f"{report.trouble} {report.remedy}")
        yield ""
    if report.windows:
        yield from _window_lines(report)
        yield ""
        yield from _wrapped(_share_words(report))
    else:
        yield f"{_INDENT}No windows: it would be spoilt."
    if report.bath:
        yield from _wrapped(report.bath)
    yield ""
    yield "Cautions"
    for caution in (*report.cautions, *([report.vapour.words] if report.vapour else ())):
        yield from _wrapped(caution, bullet="- ")
    yield ""
    yield "Sources"
    for source in report.sources:
        yield from _wrapped(source, bullet="- ")


def _leather_words(report: DryReport, reference_mm: float | None) -> str:
    faces = "both faces" if report.faces > 1 else "one face"
    how = "dipped" if report.dipped else "wiped on"
    if reference_mm is None:
        return f"{how}; it dries on the surface, however thick the leather is"
    if report.thickness_mm is None:
        return f"{reference_mm:g} mm as the catalogue has it, {faces} open to the air, {how}"
    return f"{report.thickness_mm:g} mm, {faces} open to the air, {how}"


def _air_words(report: DryReport) -> str:
    warm, damp = report.air.temperature_c, report.air.humidity_pct
    return f"while it dries {_ends(*warm)} °C, {_ends(*damp)} %"


def _ends(least: float, most: float) -> str:
    return f"{least:g}" if least == most else f"{least:g} to {most:g}"


def _window_lines(report: DryReport) -> Iterator[str]:
    start_at, zone = report.start, ZoneInfo(report.zone)
    wide = max(len(window.name) for window in report.windows)
    for window in report.windows:
        yield f"{_INDENT}{window.name:{wide}}  {_edge_words(window.opens, start_at, zone)}"
        if window.closes is not None:
            until = _edge_words(window.closes, start_at, zone)
            yield f"{_INDENT}{'':{wide}}  until {until}"
        below = f"{_INDENT}{'':{wide}}  "
        for words in (window.meaning, window.missed):
            yield from wrap(words, _WIDE, initial_indent=below, subsequent_indent=below)


def _edge_words(edge: EdgeReport, start_at: datetime, zone: ZoneInfo) -> str:
    if edge.likely is None or edge.likely_min is None:
        return "never in this air"
    likely = f"{_clock(edge.likely, start_at, zone)} (in {rough_span(edge.likely_min)})"
    soonest = _clock(edge.soonest, start_at, zone)
    latest = _clock(edge.latest, start_at, zone)
    return f"{likely}, from {soonest} to {latest}"


def _clock(at: datetime | None, start_at: datetime, zone: ZoneInfo) -> str:
    if at is None:
        return "never"
    known, begun = rough(at, start_at, zone), start_at.astimezone(zone)
    local, time = known.at, known.part or f"{known.at:%H:%M}"
    days = (local.date() - begun.date()).days
    if not days:
        return time
    return f"{local:%a} {time}" if days < 7 else f"{local:%a} {local.day} {local:%b} {time}"  # noqa: PLR2004


def _share_words(report: DryReport) -> str:
    usual = rough_span(report.usual_handle_min)
    if not report.pct_of_usual:
        return f"The catalogue says {usual} until it can be handled. {report.why}".rstrip()
    share = f"{report.pct_of_usual} % of the catalogue's {usual} until it can be handled"
    return f"{share}. {report.why}".rstrip()


def _beside(name: str, text: str) -> Iterator[str]:
    head = f"{_INDENT}{name:7}  "
    yield from wrap(text, _WIDE, initial_indent=head, subsequent_indent=" " * len(head))


def _wrapped(text: str, bullet: str = "") -> Iterator[str]:
    yield from wrap(text, _WIDE, initial_indent=bullet, subsequent_indent=" " * len(bullet))
