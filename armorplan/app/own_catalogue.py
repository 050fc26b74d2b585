"""Writes a maker's own values into one of the maker's own catalogues; all else in it stays."""

from collections.abc import Callable, Mapping
from pathlib import Path

from armorplan.files.catalogue import MAX_CATALOGUE_BYTES
from armorplan.files.file_bytes import read_file
from armorplan.files.saving import CHANGED_MEANWHILE, saved, text_hash
from armorplan.files.toml_patch import patched
from armorplan.kernel.errors import ArmorplanError, UnreadableError

_TRIES = 50
_CLOSING = "Nothing was kept: ask again when that is done."


def keep_values(folder: Path, file: str, entry: str, values: Mapping[str, float | str]) -> Path:
    """Write values of one entry, in one go, and return the path of the file.

    Folder and file are made where they are not there yet. What others write meanwhile stays.

    Raises:
        UnreadableError: the file cannot be read; nothing is written.
        ArmorplanError: it cannot be written.
    """
    return keep_decided(folder, file, entry, lambda: values)


def keep_decided(
    folder: Path, file: str, entry: str, decide: Callable[[], Mapping[str, float | str | None]]
) -> Path:
    """Do the same with values that follow from what the catalogue holds; ``None`` takes one out.

    Args:
        folder: of the maker's own catalogues.
        file: its name in it.
        entry: the entry's id.
        decide: reads what it needs and returns the values, or raises; asked anew where another
            program has written the file since.

    Raises:
        UnreadableError: as for ``keep_values``.
        ArmorplanError: as for ``keep_values``.
    """
    for tries_left in reversed(range(_TRIES)):
        former = _own_text(folder, file) if folder.is_dir() else None
        values = decide()
        _make(folder)
        text = former or ""
        for key, value in values.items():
            text = patched(text, (entry, key), value)
        expected = None if former is None else text_hash(former)
        refusal = saved(folder, file, text, expected_hash=expected, closing=_CLOSING)
        if refusal is None:
            break
        if refusal.code != CHANGED_MEANWHILE or not tries_left:
            raise ArmorplanError(str(refusal))
    return folder / file


def _make(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        message = (
            f"The folder {folder} cannot be made: {error.strerror or 'refused'}. Nothing was kept."
        )
        raise ArmorplanError(message) from error


def _own_text(folder: Path, file: str) -> str | None:
    """Return the maker's own catalogue as it is written; ``None`` where there is no file."""
    try:
        data = read_file(folder, file, most=MAX_CATALOGUE_BYTES)
    except UnreadableError as error:
        if all(finding.code == "no-such-file" for finding in error.findings):
            return None
        raise
    return data.decode("utf-8")
