"""Reads and writes wearers: ``[wearers.ID]`` in a file of their own."""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from armorplan.files.faults import Faults, brief
from armorplan.files.file_bytes import read_file
from armorplan.files.limits import LENGTH, THICKNESS_OR_NONE
from armorplan.files.references import Names, check_ref
from armorplan.files.tables import Table, open_toml
from armorplan.files.toml_patch import UnpatchableError, patched, removed, with_table
from armorplan.files.toml_values import TomlValue
from armorplan.files.values import maybe_choice, maybe_number, maybe_text, number, text
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Place, has_errors
from armorplan.workshop.measures import BodyMeasure, MeasureKind, Sex
from armorplan.workshop.wearers import SIDES, Measured, Wearer

WEARERS_FILE = "wearers.toml"
MAX_WEARERS_BYTES = 2_000_000
WEARERS = "wearers"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadWearers:
    """The wearers of a file, its text as it stands, and findings that stop nothing."""

    wearers: tuple[Wearer, ...]
    text: str
    findings: tuple[Finding, ...] = ()


def read_wearers(file: Path, measures: Iterable[BodyMeasure]) -> ReadWearers:
    """Read a file of wearers.

    Raises:
        UnreadableError: with every fault of the file, each with its line.
    """
    data = read_file(file.parent, file.name, most=MAX_WEARERS_BYTES)
    try:
        words = data.decode("utf-8")
    except UnicodeDecodeError as error:
        faults = Faults()
        faults.error(
            "not-text",
            f"{brief(file.name)} is not text in UTF-8.",
            mend="Save it as plain text in UTF-8.",
            place=Place(file=file.name),
        )
        raise UnreadableError(faults.findings) from error
    return wearers_of(file.name, words, measures)


def wearers_of(name: str, words: str, measures: Iterable[BodyMeasure]) -> ReadWearers:
    """Read the text of a file of wearers.

    Raises:
        UnreadableError: with every fault of the text, each with its line.
    """
    faults = Faults()
    top = open_toml(name, words, faults)
    wearers: list[Wearer] = []
    if top is not None:
        known = {measure.id: measure for measure in measures}
        rows = top.table(WEARERS).rows()
        wearers = [_wearer(key, row, known) for key, row in rows]
        if not rows:
            top.fault(
                WEARERS,
                "nothing-there",
                f"{brief(name)} names no wearer.",
                mend="Write a table [wearers.ID] for each, with a name and measures.",
            )
        top.finish()
    if has_errors(faults.findings):
        raise UnreadableError(faults.findings)
    return ReadWearers(wearers=tuple(wearers), text=words, findings=faults.findings)


def _wearer(key: str, row: Table, known: Mapping[str, BodyMeasure]) -> Wearer:
    wearer = Wearer(
        id=key,
        name=text(row, "name"),
        sex=maybe_choice(row, "sex", Sex),
        measures=_measured(row, "measures", known),
        padded=_measured(row, "padded", known, girths=True),
        padding_mm=maybe_number(row, "padding_mm", THICKNESS_OR_NONE),
        left=_measured(row, SIDES[0], known),
        right=_measured(row, SIDES[1], known),
        notes=maybe_text(row, "notes") or "",
    )
    if not (wearer.measures or wearer.padded or wearer.left or wearer.right):
        row.missing("measures", wanted="{ biceps_girth = 310 }")
    row.finish()
    return wearer


def _measured(
    row: Table, key: str, known: Mapping[str, BodyMeasure], *, girths: bool = False
) -> Measured:
    told = row.table(key)
    names = Names(what="measure", ids=known, where="in the catalogue")
    found: dict[str, float] = {}
    for one in told.written():
        value = number(told, one, LENGTH)
        check_ref(told, one, value=one, names=names)
        if girths and one in known and known[one].kind is MeasureKind.LENGTH:
            told.fault(
                one,
                "padded-length",
                f"{told.name_of(one)} is a length, which padding does not change.",
                mend="Write it under measures.",
            )
        found[one] = value
    return found


def wearer_values(wearer: Wearer) -> dict[str, TomlValue]:
    """Return what is written of a wearer, without what says nothing."""
    found: dict[str, TomlValue | None] = {
        "name": wearer.name,
        "sex": wearer.sex.value if wearer.sex else None,
        "measures": dict(wearer.measures) or None,
        "padded": dict(wearer.padded) or None,
        "padding_mm": wearer.padding_mm,
        SIDES[0]: dict(wearer.left) or None,
        SIDES[1]: dict(wearer.right) or None,
        "notes": wearer.notes or None,
    }
    return {key: value for key, value in found.items() if value is not None}


def with_wearer(words: str, wearer: Wearer) -> str:
    """Return the text of a file of wearers with one more, or with this one in its place.

    Of one that stands there only the keys that differ are written, so that comments stay.

    Raises:
        UnpatchableError: the text is not valid TOML.
    """
    values, path = wearer_values(wearer), (WEARERS, wearer.id)
    former = tomllib.loads(words.removeprefix("\ufeff")).get(WEARERS, {}).get(wearer.id)
    if former is None:
        return with_table(words, path, values)
    try:
        made = words
        for key in dict.fromkeys((*former, *values)):
            if former.get(key) != values.get(key):
                made = patched(made, (*path, key), values.get(key))
    except UnpatchableError:
        return with_table(removed(words, path), path, values)
    return made
