"""Where wearers are kept: the maker's own file, or one that is named."""

from pathlib import Path

from armorplan.files.faults import brief
from armorplan.files.saving import saved, text_hash
from armorplan.files.wearer_rows import ReadWearers, read_wearers, wearers_of, with_wearer
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.findings import Finding
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.wearers import Wearer

_ENDING = ".toml"
_BY = ":"


def kept_wearers(file: Path, shelf: Shelf) -> ReadWearers:
    """Return the wearers of the maker's own file; none where there is no such file yet.

    Raises:
        UnreadableError: with every fault of the file.
    """
    if not file.exists():
        return ReadWearers(wearers=(), text="")
    return read_wearers(file, shelf.measures)


def named_wearer(given: str, own: Path, shelf: Shelf) -> Wearer:
    """Return the wearer that is meant: an id of the own file, a file of one, or ``FILE:ID``.

    Raises:
        UnreadableError: the file has faults, each told with its line.
        ArmorplanError: there is no such wearer, or it does not say which of several.
    """
    file, wearer = _parted(given)
    if file is None:
        read = kept_wearers(own, shelf)
        return _of(read, wearer, str(own))
    if not file.is_file():
        raise ArmorplanError(
            f"There is no file {brief(str(file))}. Give a file of wearers, or the id of one in {own}."
        )
    read = read_wearers(file, shelf.measures)
    if wearer:
        return _of(read, wearer, file.name)
    if len(read.wearers) > 1:
        ids = ", ".join(one.id for one in read.wearers)
        raise ArmorplanError(
            f"{file.name} has {len(read.wearers)} wearers: {ids}. Say which: "
            f"{file.name}{_BY}{read.wearers[0].id}."
        )
    return read.wearers[0]


def _parted(given: str) -> tuple[Path | None, str]:
    """Return the file and the id that are named; no file where only an id is."""
    if given.endswith(_ENDING) or Path(given).is_file():
        return Path(given), ""
    name, mark, wearer = given.rpartition(_BY)
    if mark and name.endswith(_ENDING):
        return Path(name), wearer
    return None, given


def _of(read: ReadWearers, wearer: str, where: str) -> Wearer:
    found = next((one for one in read.wearers if one.id == wearer), None)
    if found is not None:
        return found
    ids = ", ".join(one.id for one in read.wearers)
    there = (
        f"There are: {ids}." if ids else "There is none yet: write a table [wearers.ID] for each."
    )
    raise ArmorplanError(f"There is no wearer '{brief(wearer)}' in {where}. {there}")


def keep_wearer(
    file: Path, read: ReadWearers, wearer: Wearer, shelf: Shelf
) -> ReadWearers | Finding:
    """Write a wearer into the maker's own file, beside or in place of who stands there.

    Returns:
        The wearers as they are now, or why it was not done.

    Raises:
        UnreadableError: what would be written could not be read again.
    """
    text = with_wearer(read.text, wearer)
    made = wearers_of(file.name, text, shelf.measures)
    file.parent.mkdir(parents=True, exist_ok=True)
    former = text_hash(read.text) if file.exists() else None
    refusal = saved(
        file.parent,
        file.name,
        text,
        expected_hash=former,
        closing="The measures are still in the window.",
    )
    return refusal or made
