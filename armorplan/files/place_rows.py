"""The places of a shop file: trays, baths, racks, presses and cutting places, closing days."""

from collections.abc import Sequence
from importlib.util import find_spec

from armorplan.files.limits import COUNT, LENGTH, WORK_MIN
from armorplan.files.people_rows import KINDS, read_hours
from armorplan.files.references import Names, ref, refs
from armorplan.files.tables import Table
from armorplan.files.values import Bounds, maybe_number, maybe_text, number, text, texts, whole
from armorplan.kernel.units import MM2_PER_DM2
from armorplan.workshop.calendar import Holidays
from armorplan.workshop.places import DIP, WIPE, DipBath, Rack, Station, family_of
from armorplan.workshop.shop import USUAL_TRAY, Tray

_AREA = Bounds(above=0, most=10_000, unit="dm²")
_LINE = Bounds(above=0, most=1_000_000, unit="mm")


def read_trays(top: Table) -> tuple[Tray, ...]:
    """Return the trays to dip in, by their inner sides in mm; the usual one where none is told."""
    trays: list[Tray] = []
    for key, row in top.table("trays").rows():
        trays.append(
            Tray(
                id=key,
                name=text(row, "name"),
                length_mm=number(row, "length_mm", LENGTH),
                width_mm=number(row, "width_mm", LENGTH),
                depth_mm=number(row, "depth_mm", LENGTH),
            )
        )
        row.finish()
    return tuple(trays) or (USUAL_TRAY,)


def read_baths(top: Table, trays: Sequence[Tray]) -> tuple[DipBath, ...]:
    """Return the baths, and the benches where coats are wiped on."""
    baths: list[DipBath] = []
    for key, row in top.table("baths").rows():
        sides_mm = _sides_mm(row, trays)
        baths.append(
            DipBath(
                id=key,
                name=text(row, "name"),
                area_dm2=_area_dm2(row, sides_mm),
                sides_mm=sides_mm,
                change_min=whole(row, "change_min", least=0, most=WORK_MIN, default=0),
                holds=_holds(row),
                takes=texts(row, "takes"),
                applying=_applying(row),
            )
        )
        row.finish()
    return tuple(baths)


def _sides_mm(row: Table, trays: Sequence[Tray]) -> tuple[float, float] | None:
    """Return the inner sides of the tray a bath stands in, the longer first."""
    if not row.has("tray"):
        return None
    row.idle("area_dm2", because="the tray says how much it holds")
    name = ref(row, "tray", Names(what="tray", ids=[tray.id for tray in trays]))
    found = next((tray for tray in trays if tray.id == name), USUAL_TRAY)
    short, long = sorted((found.length_mm, found.width_mm))
    return long, short


def _area_dm2(row: Table, sides_mm: tuple[float, float] | None) -> float:
    if sides_mm is None:
        return number(row, "area_dm2", _AREA)
    return sides_mm[0] * sides_mm[1] / MM2_PER_DM2


def _holds(row: Table) -> str:
    if not row.has("holds"):
        return ""
    inner = row.table("holds")
    treatment, colour = text(inner, "treatment"), maybe_text(inner, "colour") or ""
    inner.finish()
    return family_of(treatment, colour)


def _applying(row: Table) -> str:
    said = maybe_text(row, "applying") or DIP
    if said not in (DIP, WIPE):
        row.wrong("applying", said, wanted=f'"{DIP}" or "{WIPE}"')
    return said


def read_racks(top: Table) -> tuple[Rack, ...]:
    """Return the racks: each a length of line, an area of shelf, or both."""
    racks: list[Rack] = []
    for key, row in top.table("racks").rows():
        line_mm, shelf_dm2 = (
            maybe_number(row, "line_mm", _LINE),
            maybe_number(row, "shelf_dm2", _AREA),
        )
        if not row.has("line_mm") and not row.has("shelf_dm2"):
            row.missing("line_mm", wanted="3000, the length of its line, or shelf_dm2 = 40")
        name = text(row, "name")
        racks.append(Rack(id=key, name=name, line_mm=line_mm or 0.0, shelf_dm2=shelf_dm2 or 0.0))
        row.finish()
    return tuple(racks)


def read_stations(top: Table) -> tuple[Station, ...]:
    """Return presses, cutting tables and other places where alone some work is done."""
    stations: list[Station] = []
    for key, row in top.table("stations").rows():
        stations.append(
            Station(
                id=key,
                name=text(row, "name"),
                kinds=refs(row, "kinds", KINDS, required=True),
                count=whole(row, "count", least=1, most=COUNT, default=1),
                hours=read_hours(row) if row.has("hours") else None,
            )
        )
        row.finish()
    return tuple(stations)


def read_holidays(top: Table) -> Holidays | None:
    """Return whose public holidays close the shop; ``None`` where nobody asks for any."""
    if not top.has("holidays"):
        return None
    row = top.table("holidays")
    country, region = text(row, "country").upper(), maybe_text(row, "region") or ""
    row.finish()
    if not country:
        return None
    if find_spec("holidays") is None:
        top.fault(
            "holidays",
            "no-holidays",
            "The library of public holidays is not installed.",
            mend='Install it with: pip install "armorplan[holidays]", or name the days in closed.',
        )
        return None
    return _known_country(row, Holidays(country=country, region=region))


def _known_country(row: Table, found: Holidays) -> Holidays | None:
    from holidays import list_supported_countries

    known = list_supported_countries()
    if found.country not in known:
        row.wrong(
            "country", found.country, wanted='a country\'s code of two letters, such as "PT"'
        )
        return None
    if found.region and found.region not in known[found.country]:
        near = row.faults.nearest(found.region, known[found.country])
        row.wrong(
            "region",
            found.region,
            wanted=f'a region it knows, such as "{near}"' if near else "none",
        )
        return None
    return found


def check_names(top: Table) -> None:
    """Tell a bath, rack or station that has the id of another: a plan names them by it."""
    seen: dict[str, str] = {}
    for table in ("baths", "racks", "stations"):
        for key, row in top.table(table).rows() if top.has(table) else ():
            if key in seen:
                row.fault(
                    None,
                    "named-twice",
                    f'"{key}" is one of the {seen[key]} and of the {table}.',
                    mend="Give one of the two another id.",
                )
            seen[key] = table
