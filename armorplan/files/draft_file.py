"""The texts of a pattern under edit in a file of their own, and who has a pattern open just now."""

import json
import os
import sys
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from tempfile import mkstemp

FORM = 1
"""Number of the form in which it is kept; another one is not read."""
_HALF = ".part"


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptTexts:
    """What is kept of a pattern under edit.

    Attributes:
        slug: the folder's name.
        folder: where its pattern lies; empty where only a build keeps it.
        texts: name and text of each file.
        saved: ``text_hash`` of what stood on the disk, by name of the file.
    """

    slug: str
    folder: str
    texts: tuple[tuple[str, str], ...]
    saved: Mapping[str, str]


def keep_texts(path: Path, kept: KeptTexts) -> str:
    """Put texts into a file in one go; return why that was not possible, or an empty text."""
    held = {
        "form": FORM,
        "slug": kept.slug,
        "folder": kept.folder,
        "texts": dict(kept.texts),
        "saved": dict(kept.saved),
    }
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, half = mkstemp(prefix=f".{path.name}.", suffix=_HALF, dir=path.parent)
        beside = Path(half)
        try:
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                json.dump(held, file, ensure_ascii=False)
                file.flush()
                os.fsync(file.fileno())
            beside.replace(path)
        finally:
            beside.unlink(missing_ok=True)
    except OSError as error:
        return error.strerror or "the system refused"
    return ""


def kept_texts(path: Path) -> KeptTexts | None:
    """Return what a file keeps; ``None`` where it cannot be read."""
    try:
        held = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    if not isinstance(held, dict) or held.get("form") != FORM:
        return None
    texts, saved = _texts(held.get("texts")), _texts(held.get("saved"))
    if not texts or saved is None:
        return None
    return KeptTexts(
        slug=str(held.get("slug", "pattern")),
        folder=str(held.get("folder", "")),
        texts=tuple(sorted(texts.items())),
        saved=saved,
    )


def _texts(held: object) -> dict[str, str] | None:
    """Return a table of texts; ``None`` where it is not one."""
    if not isinstance(held, dict):
        return None
    found = {key: v for key, v in held.items() if isinstance(key, str) and isinstance(v, str)}
    return found if len(found) == len(held) else None


class Presence:
    """Says, as long as this program runs, that it has something open; gone however it ends.

    Where the system knows no locks, nobody is ever seen.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._handle: int | None = None

    def take(self) -> bool:
        """Say that this program has it open; tell whether it can be said."""
        if self._handle is None:
            self._handle = _locked(self._path, make=True)
        return self._handle is not None

    def leave(self) -> None:
        """Say so no more."""
        if self._handle is not None:
            os.close(self._handle)
            self._handle = None
            with suppress(OSError):
                self._path.unlink(missing_ok=True)


def is_present(path: Path) -> bool:
    """Tell whether a running program says that it has something open."""
    if not path.exists():
        return False
    handle = _locked(path, make=False)
    if handle is None:
        return path.exists()
    os.close(handle)
    return False


def _locked(path: Path, *, make: bool) -> int | None:
    """Return the handle of a file that is locked by it; ``None`` where another holds the lock."""
    try:
        if make:
            path.parent.mkdir(parents=True, exist_ok=True)
        handle = os.open(path, os.O_RDWR | (os.O_CREAT if make else 0), 0o600)
    except OSError:
        return None
    try:
        _lock(handle)
    except OSError:
        os.close(handle)
        return None
    return handle


def _lock(handle: int) -> None:
    if sys.platform == "win32":
        import msvcrt

        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
    else:
        from fcntl import LOCK_EX, LOCK_NB, flock

        flock(handle, LOCK_EX | LOCK_NB)
