"""A test strip: what it tells of a leather, and keeping that among the maker's own leathers."""

from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from armorplan.app.own_catalogue import keep_values
from armorplan.files.catalogue import LEATHERS_FILE, read_shelf
from armorplan.geometry.bends.strip import Strip, StripResult, read_strip
from armorplan.kernel.errors import ArmorplanError


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
    values = {"neutral": float(value)}
    path = keep_values(own_catalogues_dir, LEATHERS_FILE, leather_id, values)
    return Kept(
        path=path,
        leather=leather.name,
        value=value,
        former=leather.neutral,
    )
