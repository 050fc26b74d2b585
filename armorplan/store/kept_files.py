"""Files that are kept with a build: copied beside the workshop file, whole or not, for ever."""

import os
import re
from contextlib import suppress
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from tempfile import mkstemp
from typing import BinaryIO

from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.keepsakes import KeptFile
from armorplan.store.on_disk import settle_folder

MOST_BYTES = 100_000_000
"""A photo of a telephone has some ten million; more is a film or no photo at all."""

_CHUNK = 1 << 20
_HEADS = (b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"GIF8", b"BM", b"II*\x00", b"MM\x00*")
_FORMS = "JPEG, PNG, WebP, HEIC, AVIF, TIFF, GIF or BMP"
_SUFFIX_MOST, _STEM_MOST = 8, 60
_HALF = ".partial"
_LEFT_OVER_S = 3600.0

Photo = Path | tuple[str, bytes]
"""A file, or a name and what it holds: of a picture that was pasted."""


class KeptFiles:
    """The folder of kept files. No file that was kept is ever written over or deleted."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def path(self, place: str) -> Path:
        """Return where the file of this place lies."""
        return self._folder / place

    def keep(self, build: str, photo: Photo) -> KeptFile:
        """Copy a photo, in any thread; what is there already is not copied again.

        Raises:
            WorkshopError: it cannot be read, is no picture, is too large, or cannot be written.
        """
        name = photo.name if isinstance(photo, Path) else photo[0]
        folder = self._folder / _plain(build)
        try:
            with _opened(photo) as source:
                return self._copied(source, name, folder)
        except OSError as error:
            raise WorkshopError(
                f"The photo {name} could not be kept: {error.strerror or error} "
                f"({error.filename or folder}). Nothing was kept of it. Mend that, then try again."
            ) from error

    def _copied(self, source: BinaryIO, name: str, folder: Path) -> KeptFile:
        folder.mkdir(parents=True, exist_ok=True)
        handle, half = mkstemp(prefix=".", suffix=_HALF, dir=folder)
        partial = Path(half)
        _sweep(partial)
        try:
            with os.fdopen(handle, "wb") as copy:
                digest, size = _pour(source, copy, name)
                copy.flush()
                os.fsync(copy.fileno())
            partial.chmod(0o644)
            target = _settled(partial, folder, name, digest)
        finally:
            partial.unlink(missing_ok=True)
        settle_folder(folder)
        place = target.relative_to(self._folder).as_posix()
        return KeptFile(place=place, sha256=digest, size=size)

    def amiss(self, kept: KeptFile, *, thorough: bool = False) -> str:
        """Say that a kept file is gone or another one; empty where all is well.

        ``thorough`` reads all of it; otherwise its size tells.
        """
        path = self.path(kept.place)
        try:
            size = path.stat().st_size
            same = size == kept.size and not (thorough and _digest(path) != kept.sha256)
        except OSError:
            return (
                f"The photo {path} is gone or cannot be read. What was written to it is kept. "
                "Bring the file back to that place and it is shown again."
            )
        if same:
            return ""
        return f"The photo {path} is another file than the one that was kept."


def _sweep(partial: Path) -> None:
    """Take away copies beside this one that a kill cut off an hour ago or more."""
    for left in partial.parent.glob(f".*{_HALF}"):
        with suppress(OSError):
            if partial.stat().st_mtime - left.stat().st_mtime > _LEFT_OVER_S:
                left.unlink()


def _opened(photo: Photo) -> BinaryIO:
    if isinstance(photo, Path):
        # A pipe or a device would never come to its end.
        if photo.exists() and not photo.is_file():
            raise WorkshopError(f"{photo} is no file. Choose a photo.")
        return photo.open("rb")
    return BytesIO(photo[1])


def _pour(source: BinaryIO, copy: BinaryIO, name: str) -> tuple[str, int]:
    """Copy all of it; return its SHA-256 in hex and its size in bytes."""
    digest, size = sha256(), 0
    while chunk := source.read(_CHUNK):
        if not size and not _is_picture(chunk):
            raise WorkshopError(f"{name} is no picture that is known here. Choose {_FORMS}.")
        size += len(chunk)
        if size > MOST_BYTES:
            raise WorkshopError(
                f"{name} is larger than {MOST_BYTES // 1_000_000} MB. Keep a smaller photo."
            )
        digest.update(chunk)
        copy.write(chunk)
    if not size:
        raise WorkshopError(f"{name} is empty. Choose {_FORMS}.")
    return digest.hexdigest(), size


def _is_picture(head: bytes) -> bool:
    boxed = (head[:4] == b"RIFF" and head[8:12] == b"WEBP") or head[4:8] == b"ftyp"
    return boxed or head.startswith(_HEADS)


def _settled(partial: Path, folder: Path, name: str, digest: str) -> Path:
    """Give the whole copy its name, which holds what it is; return where it lies."""
    stem, suffix = _plain(Path(name).stem), _plain(Path(name).suffix)[:_SUFFIX_MOST]
    tail = f".{suffix.lower()}" if suffix else ""
    number = 1
    while True:
        again = "" if number == 1 else f"-{number}"
        target = folder / f"{stem}-{digest[:12]}{again}{tail}"
        if _placed(partial, target):
            return target
        with suppress(OSError):
            if _digest(target) == digest:
                return target
        number += 1


def _placed(partial: Path, target: Path) -> bool:
    """Put a file where nothing is yet; tell whether nothing was."""
    try:
        os.link(partial, target)
    except FileExistsError:
        return False
    except OSError:
        # Not every disk knows links. Then an empty file of our own holds the place.
        try:
            target.touch(exist_ok=False)
        except FileExistsError:
            return False
        partial.replace(target)
    return True


def _digest(path: Path) -> str:
    digest = sha256()
    with path.open("rb") as file:
        while chunk := file.read(_CHUNK):
            digest.update(chunk)
    return digest.hexdigest()


def _plain(name: str) -> str:
    """Return a name that every disk takes: letters, digits, hyphens and underscores."""
    return re.sub(r"[^\w-]+", "_", name).strip("_")[:_STEM_MOST]
