"""What is known of one drying, as plain rows for the command line and for JSON."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from armorplan.app.drying_choices import Began, DryingChoice
from armorplan.app.drying_rows import DryingPage, drying_page
from armorplan.app.shop_air import room_words
from armorplan.drying.body import Body
from armorplan.drying.instants import Instants
from armorplan.drying.room import drying_room
from armorplan.drying.track import GRID_MIN
from armorplan.drying.vapour import vapour_caution, vapour_of
from armorplan.workshop.air import Room
from armorplan.workshop.heat import heat_caution
from armorplan.workshop.shelf import TreatmentEntry


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeReport:
    """Minutes from the start to where a window begins or ends, and the instants; ``None``: never."""

    soonest_min: int | None
    likely_min: int | None
    latest_min: int | None
    soonest: datetime | None
    likely: datetime | None
    latest: datetime | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WindowReport:
    """One window: from when on, until when (``None``: it stays), what to do in it, and if missed."""

    key: str
    name: str
    meaning: str
    opens: EdgeReport
    closes: EdgeReport | None
    missed: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AirReport:
    """The air it dries in: in words, and its least and most until it is dry to handle."""

    words: str
    temperature_c: tuple[float, float]
    humidity_pct: tuple[float, float]
    air_m_s: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class VapourReport:
    """What evaporates of a coat and burns, against the room; ``None``: the room is not known.

    Attributes:
        area_dm2: leather coated at a time, one face of it.
        in_air_g_per_m3: of it in a m³ of the room, all of it evaporated; ``lel_pct``: as a share of
            the lower explosive limit.
        least_m3: the room it takes to stay below a tenth of that.
        limit_g_per_m3: of a workplace over a day.
        words: all of that in sentences, each number with its source.
    """

    solvent: str
    solvent_g: float
    area_dm2: float
    volume_m3: float | None
    in_air_g_per_m3: float | None
    lel_g_per_m3: float
    lel_pct: float | None
    lel_source: str
    least_m3: float
    limit_g_per_m3: float | None
    limit_source: str
    over_limit: bool | None
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DryReport:
    """What ``armorplan dry --json`` answers.

    Attributes:
        windows: none where it would spoil.
        thickness_mm: that was asked for; ``None``: as the catalogue has it.
        trouble, remedy: why it does not do and what helps; empty where it dries.
        why: why it takes longer or shorter than the catalogue says; empty where it does not.
        pct_of_usual: likely minutes to handle in per cent of ``usual_handle_min``; 0 for never, and
            where it would spoil.
        bath: what to do between the bath and the drying; empty where it is wiped on.
        vapour: what evaporates that burns; ``None`` where nothing does.
    """

    treatment: str
    name: str
    thickness_mm: float | None
    faces: int
    dipped: bool
    start: datetime
    zone: str
    air: AirReport
    verdict: str
    trouble: str
    remedy: str
    why: str
    usual_handle_min: int
    pct_of_usual: int
    windows: tuple[WindowReport, ...]
    bath: str
    cautions: tuple[str, ...]
    vapour: VapourReport | None
    sources: tuple[str, ...]


def page_of(entry: TreatmentEntry, body: Body, room: Room, start_at: datetime) -> DryingPage:
    """Return everything that is shown of a treatment that begins to dry at an instant."""
    choice = DryingChoice(
        id=f"treatment:{entry.id}",
        step="",
        title=entry.name,
        entry=entry,
        body=body,
        start_at=start_at,
        began=Began.NOW,
    )
    return drying_page(choice, room)


def dry_report(page: DryingPage, *, area_dm2: float) -> DryReport:
    """Return the report of a drying; ``area_dm2`` of leather, one face, are coated at a time."""
    entry, body, start_at = page.choice.entry, page.choice.body, page.choice.start_at
    times = drying_room(page.room).times(entry, body, start_at)
    air = _air(page)
    return DryReport(
        treatment=entry.id,
        name=entry.name,
        thickness_mm=body.thickness_mm,
        faces=body.faces or entry.faces,
        dipped=body.dipped,
        start=start_at,
        zone=page.room.zone,
        air=air,
        verdict=page.verdict.value,
        trouble=page.trouble,
        remedy=page.remedy,
        why=page.why,
        usual_handle_min=entry.handle_min,
        pct_of_usual=times.pct_of_usual if page.bars else 0,
        windows=tuple(_windows(page)),
        bath=_bath(entry) if body.dipped else "",
        cautions=(*filter(None, (heat_caution(air.temperature_c[1]),)), *entry.cautions),
        vapour=_vapour(page, area_dm2),
        sources=page.sources,
    )


def _windows(page: DryingPage) -> Iterator[WindowReport]:
    start_at = page.choice.start_at
    for bar in page.bars:
        closes = None if bar.closes is None else _edge(start_at, bar.closes)
        opens = _edge(start_at, bar.opens)
        yield WindowReport(
            key=bar.key,
            name=bar.name,
            meaning=bar.meaning,
            opens=opens,
            closes=closes,
            missed=bar.missed,
        )


def _edge(start_at: datetime, at: Instants) -> EdgeReport:
    def minutes(instant: datetime | None) -> int | None:
        return None if instant is None else round((instant - start_at).total_seconds() / 60)

    return EdgeReport(
        soonest_min=minutes(at.soonest_at),
        likely_min=minutes(at.likely_at),
        latest_min=minutes(at.latest_at),
        soonest=at.soonest_at,
        likely=at.likely_at,
        latest=at.latest_at,
    )


def _air(page: DryingPage) -> AirReport:
    along = drying_room(page.room).air_along(page.choice.start_at, max(1, _cells(page)))
    return AirReport(
        words=room_words(page.room),
        temperature_c=_ends([c.temperature_c for c in along]),
        humidity_pct=_ends([c.humidity_pct for c in along]),
        air_m_s=_ends([c.air_m_s for c in along]),
    )


def _cells(page: DryingPage) -> int:
    seconds = (page.until_at - page.choice.start_at).total_seconds()
    minutes = page.handle_min or seconds / 60
    return -int(-minutes // GRID_MIN)


def _ends(values: list[float]) -> tuple[float, float]:
    return min(values), max(values)


def _bath(entry: TreatmentEntry) -> str:
    """Say what a dipped part asks for before it is left to dry."""
    drips = f"Let it drip for {entry.drip_min} min" if entry.drip_min else ""
    watched = (
        f"turn it and wipe off what runs every {entry.watch_every_min} min for "
        f"{entry.watch_for_min} min, or it streaks"
        if entry.watch_for_min
        else ""
    )
    both = ", then ".join(each for each in (drips, watched) if each)
    return f"{both[0].upper()}{both[1:]}." if both else ""


def _vapour(page: DryingPage, area_dm2: float) -> VapourReport | None:
    found = vapour_of(
        page.choice.entry,
        area_dm2=area_dm2,
        dipped=page.choice.body.dipped,
        volume_m3=page.room.volume_m3,
    )
    if found is None:
        return None
    return VapourReport(
        solvent=found.solvent,
        solvent_g=round(found.solvent_g, 2),
        area_dm2=area_dm2,
        volume_m3=found.volume_m3,
        in_air_g_per_m3=_rounded(found.in_air_g_per_m3),
        lel_g_per_m3=found.lel_g_per_m3,
        lel_pct=_rounded(found.lel_pct),
        lel_source=found.lel_source,
        least_m3=round(found.least_m3, 3),
        limit_g_per_m3=found.limit_g_per_m3,
        limit_source=found.limit_source,
        over_limit=found.over_limit,
        words=f"For {area_dm2:g} dm² of leather: {vapour_caution(found)}",
    )


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 3)
