"""A test strip: what it tells of a leather, and keeping that among the maker's own leathers."""

from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from armorplan.files.catalogue import LEATHERS_FILE, MAX_CATALOGUE_BYTES, read_shelf
from armorplan.files.file_bytes import read_file
from armorplan.files.saving import saved, text_hash
from armorplan.files.toml_patch import patched
from armorplan.geometry.bends.strip import Strip, StripResult, read_strip
from armorplan.kernel.errors import ArmorplanError, UnreadableError


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A leather's own number, written into a maker's catalogue.

    Attributes:
        path: of the file that holds it now.
        leather: name of the leather.
        former: what stood there before; ``None``: nothing.
    """

    path: Path
    leather: str
    value: float
    former: float | None


def strip_result(
    *,
    flat_mm: float,
    legs_mm: tuple[float, float],
    radius_mm: float,
    angle_deg: float,
    thickness_mm: float,
    outside: bool = False,
) -> StripResult:
    """Return what a strip tells of where its leather keeps its length; see ``geometry.bends.strip``."""
    return read_strip(
        Strip(
            flat_mm=flat_mm,
            legs_mm=legs_mm,
            radius_mm=radius_mm,
            angle_deg=angle_deg,
            thickness_mm=thickness_mm,
            outside=outside,
        )
    )


def leather_lines(leather_id: str, value: float) -> str:
    """Return the lines that say it in a maker's own leathers.toml."""
    return f"[{leather_id}]\nneutral = {value:g}\n"


def keep_neutral(own_catalogues_dir: Path, leather_id: str, value: float) -> Kept:
    """Write a leather's K into the maker's own leathers.toml; all else in it stays as it is.

    Folder and file are made where they are not there yet.

    Raises:
        UnreadableError: the own catalogues have faults; nothing is written.
        ArmorplanError: there is no such leather, K lies outside 0 to 1, or the file cannot be written.
    """
    if not 0 <= value <= 1:
        message = f"K is {value:g}: it lies between 0 and 1, within the leather. Nothing was kept."
        raise ArmorplanError(message)
    there = own_catalogues_dir.is_dir()
    shelf = read_shelf(own=own_catalogues_dir if there else None)
    leather = shelf.leather(leather_id)
    if leather is None:
        near = get_close_matches(leather_id, [each.id for each in shelf.leathers], n=1)
        mend = f"Perhaps '{near[0]}' is meant." if near else "Name one of the shelf's leathers."
        message = f"There is no leather '{leather_id}'. {mend}"
        raise ArmorplanError(message)
    _make(own_catalogues_dir)
    former = _own_text(own_catalogues_dir)
    text = patched(former or "", (leather_id, "neutral"), float(value))
    expected = None if former is None else text_hash(former)
    refusal = saved(own_catalogues_dir, LEATHERS_FILE, text, expected_hash=expected)
    if refusal is not None:
        raise ArmorplanError(str(refusal))
    return Kept(
        path=own_catalogues_dir / LEATHERS_FILE,
        leather=leather.name,
        value=value,
        former=leather.neutral,
    )


def _make(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        message = (
            f"The folder {folder} cannot be made: {error.strerror or 'refused'}. Nothing was kept."
        )
        raise ArmorplanError(message) from error


def _own_text(folder: Path) -> str | None:
    """Return the maker's own leathers as they are written; ``None`` where there is no file."""
    try:
        data = read_file(folder, LEATHERS_FILE, most=MAX_CATALOGUE_BYTES)
    except UnreadableError as error:
        if all(finding.code == "no-such-file" for finding in error.findings):
            return None
        raise
    return data.decode("utf-8")
