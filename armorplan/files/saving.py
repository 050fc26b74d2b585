"""Saves one text of a folder, whole or not at all, and never over what somebody else wrote."""

import os
from contextlib import suppress
from dataclasses import replace
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
