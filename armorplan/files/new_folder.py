"""Writes a new pattern folder, and never over a file that is there."""

from collections.abc import Mapping
from pathlib import Path

from armorplan.files.faults import brief
from armorplan.kernel.errors import ArmorplanError


def write_new(folder: Path, texts: Mapping[str, str]) -> tuple[Path, ...]:
    """Write texts by file name into a folder, which is made if need be; return their paths.

    Raises:
        ArmorplanError: one of them is there already, or the folder cannot be written; then none
            of them is left behind.
    """
    written: list[Path] = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, text in sorted(texts.items()):
            with (folder / name).open("x", encoding="utf-8", newline="") as file:
                written.append(folder / name)
                file.write(text)
    except (OSError, ValueError) as error:
        for path in written:
            path.unlink(missing_ok=True)
        raise ArmorplanError(_why(folder, error)) from error
    return tuple(written)


def _why(folder: Path, error: OSError | ValueError) -> str:
    where = brief(str(folder))
    if isinstance(error, FileExistsError):
        there = brief(Path(str(error.filename)).name) if error.filename else where
        return (
            f"{there} is there already in {where}; nothing was written. "
            "Give a folder that is new or empty."
        )
    reason = getattr(error, "strerror", None) or str(error)
    return f"{where} cannot be written: {reason}. Give a folder you may write in."
