"""Folders of patterns fitted to wearers: written anew, found again, told when they are behind."""

import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from uuid import UUID

from armorplan.app.draft import refused
from armorplan.app.wearer_model import Fitted
from armorplan.files.saving import ToSave, all_saved
from armorplan.files.source import PATTERN_FILE, read_folder
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding

_CLOSING = "Nothing of the fitted pattern was written."
_LARGEST_TOML = 2_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedFolder:
    """A folder that holds a pattern fitted to a wearer.

    Attributes:
        from_version: the version of the pattern it was fitted from.
        version: its own.
    """

    folder: Path
    name: str
    wearer: str
    wearer_name: str
    side: str
    from_version: int
    version: int

    def is_behind(self, version: int) -> bool:
        """Tell whether the pattern it was fitted from has a newer version than it was fitted from."""
        return self.from_version < version


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a fitted pattern goes.

    Attributes:
        version: the one it gets.
        former: the files that stand there, of the same pattern fitted to the same wearer.
    """

    folder: Path
    version: int = 1
    former: tuple[tuple[str, str], ...] = field(default=())


def place_for(folder: Path, uuid: str, wearer: str, side: str = "") -> Place | Finding:
    """Return where a fitted pattern goes: a new or empty folder, or the one it was fitted into before.

    Args:
        folder: what was asked for.
        uuid: of the pattern it is fitted from.
        wearer: id of the wearer.
        side: ``left``, ``right`` or neither.
    """
    try:
        there = folder.exists()
        names = sorted(path.name for path in folder.iterdir()) if there else []
    except OSError as error:
        why = error.strerror or "the system refused"
        return _refusal(f"{folder} cannot be used: {why}.", "Choose another folder.")
    if not names:
        return Place(folder=folder)
    held = fitted_folder(folder, uuid)
    if held is None or (held.wearer, held.side) != (wearer, side):
        return _refusal(
            f"{folder} is not empty: it holds {names[0]}.",
            "Choose a new or an empty folder, or the one that this pattern was fitted into before.",
        )
    try:
        texts = read_folder(folder).as_texts()
    except UnreadableError as error:
        return error.findings[0]
    return Place(folder=folder, version=held.version + 1, former=tuple(texts.items()))


def _refusal(text: str, mend: str) -> Finding:
    return refused(text, mend, code="folder-not-empty").findings[0]


def write_fitted(fitted: Fitted, place: Place) -> Finding | None:
    """Write a fitted pattern, all of it or nothing; return ``None``, or why it was not done."""
    try:
        place.folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        why = error.strerror or "the system refused"
        return refused(
            f"{place.folder} cannot be written: {why}.", _CLOSING, code="cannot-write"
        ).findings[0]
    former = dict(place.former)
    last_first = sorted(fitted.texts, key=lambda file: file[0] == PATTERN_FILE)
    files = [ToSave(name=name, text=text, former=former.get(name)) for name, text in last_first]
    return all_saved(place.folder, files, closing=_CLOSING)


def fitted_folder(folder: Path, uuid: str) -> FittedFolder | None:
    """Return what a folder holds, where it is this pattern fitted to somebody."""
    values = _head(folder)
    told, head = values.get("fitted"), values.get("pattern")
    if not isinstance(told, dict) or not isinstance(head, dict):
        return None
    try:
        if UUID(str(told.get("uuid"))) != UUID(uuid):
            return None
        return FittedFolder(
            folder=folder,
            name=str(head.get("name", folder.name)),
            wearer=str(told["wearer"]),
            wearer_name=str(told.get("name", told["wearer"])),
            side=str(told.get("side", "")),
            from_version=int(told["version"]),
            version=int(head["version"]),
        )
    except (KeyError, TypeError, ValueError):
        return None


def fitted_in(folder: Path, uuid: str) -> tuple[FittedFolder, ...]:
    """Return what in a folder's folders is this pattern fitted to somebody, by wearer and side."""
    try:
        inside = sorted(path for path in folder.iterdir() if path.is_dir())
    except OSError:
        return ()
    found = (fitted_folder(path, uuid) for path in inside)
    return tuple(
        sorted((f for f in found if f), key=lambda f: (f.wearer_name, f.side, f.folder.name))
    )


def _head(folder: Path) -> dict[str, Any]:
    file = folder / PATTERN_FILE
    try:
        if file.stat().st_size > _LARGEST_TOML:
            return {}
        return tomllib.loads(file.read_text(encoding="utf-8").removeprefix("\ufeff"))
    except (OSError, ValueError, RecursionError):
        return {}
