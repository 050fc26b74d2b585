"""Reads the catalogues on the shelf, and a maker's own values that go over them by id."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from armorplan.files.catalogue_rows import (
    duration_reader,
    read_fastener,
    read_hardware,
    read_leather,
    read_supply,
    read_tool,
)
from armorplan.files.constant_rows import read_constants
from armorplan.files.faults import Faults
from armorplan.files.file_bytes import read_file, unreadable
from armorplan.files.measure_rows import read_measure
from armorplan.files.pin_rows import read_pin
from armorplan.files.salvage_rows import read_salvage
from armorplan.files.tables import Table, open_toml
from armorplan.files.treatment_rows import read_treatment
from armorplan.files.values import text
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Place
from armorplan.kernel.shipped import resources_folder
from armorplan.workshop.constants import Constants
from armorplan.workshop.measures import BodyMeasure
from armorplan.workshop.pins import PinEntry
from armorplan.workshop.salvages import Salvage
from armorplan.workshop.shelf import (
    Duration,
    Fastener,
    HardwareEntry,
    Leather,
    Shelf,
    SupplyEntry,
    ToolEntry,
    TreatmentEntry,
)

MAX_CATALOGUE_BYTES = 2_000_000
CURRENCY_FILE = "currency.toml"
LEATHERS_FILE = "leathers.toml"
CONSTANTS_FILE = "constants.toml"
TOOLS_FILE = "tools.toml"
PINS_FILE = "pins.toml"
MEASURES_FILE = "measures.toml"
OWN_FILES = (
    LEATHERS_FILE,
    "fasteners.toml",
    "hardware.toml",
    "supplies.toml",
    "treatments.toml",
    TOOLS_FILE,
    PINS_FILE,
    MEASURES_FILE,
    "durations.toml",
    "salvages.toml",
    CONSTANTS_FILE,
    CURRENCY_FILE,
)
"""What a maker's own folder may hold; any of them may be left out."""
OWN_ENTRY = "own entry"
"""The source of a maker's own entry that names none."""
_T = TypeVar(
    "_T",
    Leather,
    Fastener,
    HardwareEntry,
    SupplyEntry,
    TreatmentEntry,
    ToolEntry,
    PinEntry,
    BodyMeasure,
    Duration,
    Salvage,
)


def read_shelf(folder: Path | None = None, own: Path | None = None) -> Shelf:
    """Read the catalogues of a folder, the shipped ones by default, with a maker's own over them.

    Args:
        folder: holds the catalogues, all of them.
        own: holds any of ``OWN_FILES``. An entry there replaces, field by field, the one with its
            id and keeps that one's source beside a word on what is the maker's own; a new id needs
            every required field.

    Raises:
        UnreadableError: with every fault of all files, each with its line.
    """
    reading = _Reading(folder or resources_folder() / "catalogues", own)
    shelf = Shelf(
        leathers=reading.entries(LEATHERS_FILE, read_leather),
        fasteners=reading.entries("fasteners.toml", read_fastener),
        hardware=reading.entries("hardware.toml", read_hardware),
        supplies=reading.entries("supplies.toml", read_supply),
        treatments=reading.entries("treatments.toml", read_treatment),
        tools=reading.entries(TOOLS_FILE, read_tool),
        pins=reading.entries(PINS_FILE, read_pin),
        measures=reading.entries(MEASURES_FILE, read_measure),
        durations=reading.entries("durations.toml", duration_reader()),
        salvages=reading.entries("salvages.toml", read_salvage),
        currency=reading.currency(),
        constants=reading.constants(),
    )
    reading.stop_on_faults()
    return shelf


class _Reading:
    """The two folders under reading, and the faults met in them."""

    def __init__(self, home: Path, own: Path | None) -> None:
        self._faults = Faults()
        self._home = home
        self._own_name = own.resolve().name if own else ""
        if own is not None:
            self._faults.put(*_own_folder_faults(own, self._own_name, self._faults))
        self._own = own if own is not None and own.is_dir() else None

    def entries(self, name: str, read: Callable[[str, Table], _T]) -> tuple[_T, ...]:
        shipped = self._shipped_table(name)
        over = self._own_table(name)
        own_rows = dict(over.rows()) if over else {}
        entries: list[_T] = []
        for key, row in shipped.rows() if shipped else ():
            own_row = own_rows.pop(key, None)
            entries.append(
                _finished(key, row, read) if own_row is None else _changed(key, own_row, row, read)
            )
        for key, row in own_rows.items():
            entries.append(_finished(key, row.filled({"source": OWN_ENTRY}), read))
        return tuple(entries)

    def currency(self) -> str:
        top = self._own_table(CURRENCY_FILE)
        if top is None:
            return ""
        name = text(top, "currency")
        top.finish()
        return name

    def constants(self) -> Constants:
        shipped = self._shipped_table(CONSTANTS_FILE)
        return read_constants(shipped, self._own_table(CONSTANTS_FILE))

    def stop_on_faults(self) -> None:
        if self._faults.findings:
            raise UnreadableError(self._faults.findings)

    def _shipped_table(self, name: str) -> Table | None:
        try:
            data = read_file(self._home, name, most=MAX_CATALOGUE_BYTES)
        except UnreadableError as error:
            self._faults.put(*error.findings)
            return None
        return open_toml(name, data.decode("utf-8"), self._faults, strict=True)

    def _own_table(self, name: str) -> Table | None:
        if self._own is None:
            return None
        label = f"{self._own_name}/{name}"
        try:
            data = read_file(self._own, name, most=MAX_CATALOGUE_BYTES)
        except UnreadableError as error:
            found = (f for f in error.findings if f.code != "no-such-file")
            self._faults.put(*(replace(f, place=Place(file=label)) for f in found))
            return None
        return open_toml(label, data.decode("utf-8"), self._faults, strict=True)


def _finished(key: str, row: Table, read: Callable[[str, Table], _T]) -> _T:
    entry = read(key, row)
    row.finish()
    return entry


def _changed(key: str, own: Table, shipped: Table, read: Callable[[str, Table], _T]) -> _T:
    """Return a shipped entry with a maker's own fields; faults carry the places of these."""
    entry = _finished(key, own.filled(shipped.values), read)
    if own.has("source") or not own.written():
        return entry
    fields = ", ".join(own.written())
    return replace(entry, source=f"own value for {fields}; otherwise: {entry.source}")


def _own_folder_faults(own: Path, label: str, faults: Faults) -> Iterator[Finding]:
    """Yield a folder that is not there, and files in it that nothing reads."""
    try:
        names = sorted(path.name for path in own.iterdir() if path.suffix == ".toml")
    except OSError as error:
        yield from unreadable(
            "no-such-folder",
            f"The catalogues folder {own} cannot be read: {error.strerror or 'refused'}.",
            mend="Name the folder that holds your own catalogues, or make it.",
            place=Place(file=label),
        ).findings
        return
    for name in names:
        if name in OWN_FILES:
            continue
        near = faults.nearest(name, OWN_FILES)
        yield from unreadable(
            "unknown-catalogue",
            f"Nothing reads {name} among the catalogues.",
            mend=f"Perhaps {near} is meant." if near else f"It may be {', '.join(OWN_FILES)}.",
            place=Place(file=f"{label}/{name}"),
        ).findings
