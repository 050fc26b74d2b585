"""Reads the catalogues: what leathers, fasteners and treatments there are, and step durations."""

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from armorplan.files.faults import Faults
from armorplan.files.file_bytes import read_file
from armorplan.files.tables import Table, open_toml
from armorplan.files.values import Bounds, choice, maybe_text, number, numbers, text, texts, whole
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.shipped import resources_folder
from armorplan.workshop.shelf import (
    Carrier,
    Duration,
    Fastener,
    Leather,
    Shelf,
    TreatmentEntry,
    TreatmentKind,
)

MAX_CATALOGUE_BYTES = 2_000_000
_NOT_NEGATIVE = Bounds(least=0)
_T = TypeVar("_T")


def read_shelf(folder: Path | None = None) -> Shelf:
    """Read the four catalogues of a folder; the shipped ones by default.

    Raises:
        UnreadableError: with every fault of all four, each with its line.
    """
    home = folder or resources_folder() / "catalogues"
    faults = Faults()
    shelf = Shelf(
        leathers=_entries(home, "leathers.toml", _leather, faults),
        fasteners=_entries(home, "fasteners.toml", _fastener, faults),
        treatments=_entries(home, "treatments.toml", _treatment, faults),
        durations=_entries(home, "durations.toml", _duration, faults),
    )
    if faults.findings:
        raise UnreadableError(faults.findings)
    return shelf


def _entries(
    folder: Path, name: str, read: Callable[[str, Table], _T], faults: Faults
) -> tuple[_T, ...]:
    try:
        data = read_file(folder, name, most=MAX_CATALOGUE_BYTES)
    except UnreadableError as error:
        faults.put(*error.findings)
        return ()
    top = open_toml(name, data.decode("utf-8"), faults, strict=True)
    entries: list[_T] = []
    for key, row in top.rows() if top else ():
        entries.append(read(key, row))
        row.finish()
    return tuple(entries)


def _pair(row: Table, key: str) -> tuple[float, float]:
    values = numbers(row, key, count=2) or (0.0, 0.0)
    return values[0], values[1]


def _leather(key: str, row: Table) -> Leather:
    return Leather(
        id=key,
        name=text(row, "name"),
        usual_mm=_pair(row, "usual_mm"),
        source=text(row, "source"),
    )


def _fastener(key: str, row: Table) -> Fastener:
    return Fastener(
        id=key,
        name=text(row, "name"),
        kind=text(row, "kind"),
        head_mm=number(row, "head_mm", _NOT_NEGATIVE),
        hole_mm=number(row, "hole_mm", _NOT_NEGATIVE),
        lengths_mm=numbers(row, "lengths_mm"),
        over_stack_mm=_pair(row, "over_stack_mm"),
        source=text(row, "source"),
    )


def _treatment(key: str, row: Table) -> TreatmentEntry:
    return TreatmentEntry(
        id=key,
        name=text(row, "name"),
        kind=choice(row, "kind", TreatmentKind) or TreatmentKind.DYE,
        carrier=choice(row, "carrier", Carrier) or Carrier.WATER,
        touch_min=whole(row, "touch_min", least=0),
        handle_min=whole(row, "handle_min", least=0),
        window_min=_window(row),
        per_part_min=number(row, "per_part_min", _NOT_NEGATIVE),
        set_up_min=number(row, "set_up_min", _NOT_NEGATIVE),
        cautions=texts(row, "cautions"),
        source=text(row, "source"),
    )


def _window(row: Table) -> tuple[int, int] | None:
    if not row.has("window_min"):
        return None
    first, last = _pair(row, "window_min")
    if not (first.is_integer() and last.is_integer() and first >= 0):
        row.wrong("window_min", row.raw("window_min"), wanted="two whole numbers of minutes")
    return int(first), int(last)


def _duration(_key: str, row: Table) -> Duration:
    """Read a duration; its table's id is only a slug, ``kind`` names the step kind."""
    return Duration(
        kind=text(row, "kind"),
        fixed_min=number(row, "fixed_min", _NOT_NEGATIVE, default=0.0),
        per_part_min=number(row, "per_part_min", _NOT_NEGATIVE, default=0.0),
        per_hole_min=number(row, "per_hole_min", _NOT_NEGATIVE, default=0.0),
        per_cm_min=number(row, "per_cm_min", _NOT_NEGATIVE, default=0.0),
        tool=maybe_text(row, "tool") or "",
        cautions=texts(row, "cautions"),
        source=text(row, "source"),
    )
