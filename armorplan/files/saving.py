"""Saves texts of a folder, whole or not at all, and never over what somebody else wrote."""

import os
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import Path
from stat import S_IMODE, S_IWUSR
from tempfile import mkstemp

from armorplan.files.faults import brief
from armorplan.files.file_bytes import leaves
from armorplan.files.locking import BusyError, alone
from armorplan.kernel.findings import Finding, Place, Severity

CHANGED_MEANWHILE = "changed-meanwhile"
_HALF = ".part"


def text_hash(text: str) -> str:
    """Return SHA-256, in hex, of a text as it stands on the disk."""
    return sha256(text.encode("utf-8")).hexdigest()


def saved(
    folder: Path, name: str, text: str, *, expected_hash: str | None, closing: str
) -> Finding | None:
    """Put a text into a folder in one go; return ``None``, or why it was not done.

    It is written beside the file, brought to the disk, and put in its place, by one program at a
    time. Whatever fails, the file is the old one or the new one. What a program left beside it
    that was ended in the middle is taken away by the next one that saves it.

    Args:
        folder: where the file lies.
        name: its name in the folder.
        text: what it shall hold.
        expected_hash: ``text_hash`` of what it held when it was read; ``None`` for a new file.
        closing: what a maker should know besides where it was not done; ends each remedy.
    """
    refusal = _saved(folder, name, text, expected_hash)
    if refusal is None:
        return None
    return replace(refusal, remedy=f"{refusal.remedy} {closing}")


@dataclass(frozen=True, slots=True, kw_only=True)
class ToSave:
    """A text to be saved, and what its file held when it was read; ``None`` for a new file."""

    name: str
    text: str
    former: str | None


def all_saved(folder: Path, files: Sequence[ToSave], *, closing: str) -> Finding | None:
    """Put several texts into a folder, one after the other, all or none of them.

    All are looked at before the first is written. Where a later one then fails, those before it
    are put back as they were.

    Args:
        folder: where the files lie.
        files: in the order they are written.
        closing: what a maker should know besides where it was not done; ends each remedy.

    Returns:
        ``None``, or why it was not done.
    """
    for file in files:
        refusal = _refused_before(folder, file)
        if refusal is not None:
            return replace(refusal, remedy=f"{refusal.remedy} {closing}")
    for at, file in enumerate(files):
        refusal = saved(
            folder, file.name, file.text, expected_hash=_former_hash(file), closing=closing
        )
        if refusal is not None:
            left = [done.name for done in reversed(files[:at]) if not _put_back(folder, done)]
            return _with_left(refusal, left)
    return None


def _former_hash(file: ToSave) -> str | None:
    return None if file.former is None else text_hash(file.former)


def _refused_before(folder: Path, file: ToSave) -> Finding | None:
    """Tell what can be told without writing."""
    if leaves(folder, file.name):
        return None  # told when it is written
    try:
        return _why_not((folder / file.name).resolve(), file.name, _former_hash(file))
    except OSError:
        return None  # told when it is written


def _put_back(folder: Path, file: ToSave) -> bool:
    """Put a file back as it was; tell whether that was done."""
    if file.former is not None:
        return _saved(folder, file.name, file.former, text_hash(file.text)) is None
    with suppress(OSError):
        (folder / file.name).unlink()
    return not (folder / file.name).exists()


def _with_left(refusal: Finding, left: Sequence[str]) -> Finding:
    if not left:
        return refusal
    names = " and ".join(brief(name) for name in left)
    text = f"{refusal.text} {names} was written before it, and could not be put back."
    return replace(refusal, text=text)


def _saved(folder: Path, name: str, text: str, expected_hash: str | None) -> Finding | None:
    if leaves(folder, name):
        return _refusal(
            "leaves-folder",
            f"{brief(name)} leads out of the folder; it was not written.",
            mend="Put the file itself into the folder.",
            name=name,
        )
    try:
        path = (folder / name).resolve()
        with alone(path):
            _sweep(path)
            refusal = _why_not(path, name, expected_hash)
            return refusal or _written(path, name, text, expected_hash)
    except BusyError:
        return _refusal(
            "busy",
            f"{brief(name)} is being written by another program; it was not written.",
            mend="Wait until that one is done, and try again.",
            name=name,
        )
    except OSError as error:
        return _refusal(
            "cannot-write",
            f"{brief(name)} cannot be written: {error.strerror or 'the system refused'}.",
            mend="The file is as it was. Make room, or give yourself the right to write there.",
            name=name,
        )


def _sweep(path: Path) -> None:
    """Take away what is left of savings of this file that were ended in the middle.

    Nobody else is saving it now, so none of it is still wanted.
    """
    for half in path.parent.iterdir():
        middle = half.name.removeprefix(f".{path.name}.").removesuffix(_HALF)
        if half.name == f".{path.name}.{middle}{_HALF}" and "." not in middle:
            with suppress(OSError):
                half.unlink()


def _why_not(path: Path, name: str, expected_hash: str | None) -> Finding | None:
    """Tell that the file is another than the one that was read, or may not be written."""
    if not path.exists():
        return None if expected_hash is None else _gone(name)
    if expected_hash is None or sha256(path.read_bytes()).hexdigest() != expected_hash:
        return _refusal(
            CHANGED_MEANWHILE,
            f"{brief(name)} was changed by another program since it was read; it was not written "
            "over.",
            mend="Read it again, and make your changes anew.",
            name=name,
        )
    if not path.stat().st_mode & S_IWUSR:
        return _refusal(
            "read-only",
            f"{brief(name)} may only be read, not written.",
            mend="Give yourself the right to write it.",
            name=name,
        )
    return None


def _written(path: Path, name: str, text: str, expected_hash: str | None) -> Finding | None:
    handle, half = mkstemp(prefix=f".{path.name}.", suffix=_HALF, dir=path.parent)
    beside = Path(half)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(text.encode("utf-8"))
            file.flush()
            os.fsync(file.fileno())
        beside.chmod(S_IMODE(path.stat().st_mode) if path.exists() else 0o644)
        # Asked again at the last moment: bringing a text to the disk can take a while.
        refusal = _why_not(path, name, expected_hash)
        if refusal is None:
            beside.replace(path)
        return refusal
    finally:
        beside.unlink(missing_ok=True)


def _gone(name: str) -> Finding:
    return _refusal(
        "file-gone",
        f"{brief(name)} is no longer in the folder; it was not written.",
        mend="Bring the file back.",
        name=name,
    )


def _refusal(code: str, text: str, *, mend: str, name: str) -> Finding:
    return Finding(
        code=code, severity=Severity.ERROR, text=text, remedy=mend, place=Place(file=name)
    )
