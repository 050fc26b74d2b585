"""Saves texts of a folder, whole or not at all, and never over what somebody else wrote."""

import os
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import Path
from stat import S_IMODE, S_IWUSR
from tempfile import mkstemp
from typing import NamedTuple

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
    return _all_put(folder, [_Wanted(name, text, expected_hash)], closing)


@dataclass(frozen=True, slots=True, kw_only=True)
class ToSave:
    """A text to be saved, and what its file held when it was read; ``None`` for a new file."""

    name: str
    text: str
    former: str | None


def all_saved(folder: Path, files: Sequence[ToSave], *, closing: str) -> Finding | None:
    """Put several texts into a folder, all or none of them.

    All are written beside their files and brought to the disk before the first is put in its
    place; what is left then is to give names, so a full disk, or a program that is ended while it
    writes, leaves all of them as they were. Only one that is ended between two names leaves the first
    new. Where a name cannot be given, those before are put back.

    Args:
        folder: where the files lie.
        files: in the order they are put in place. One that is to hold what it held is not
            written, but it is looked at whether it still does, since the others go with it.
        closing: what a maker should know besides where it was not done; ends each remedy.

    Returns:
        ``None``, or why it was not done.
    """
    wanted = [
        _Wanted(
            file.name,
            None if file.text == file.former else file.text,
            None if file.former is None else text_hash(file.former),
        )
        for file in files
    ]
    return _all_put(folder, wanted, closing)


class _Wanted(NamedTuple):
    """What a file shall hold, ``None`` for what it holds, and the hash of what it should hold now."""

    name: str
    text: str | None
    expected_hash: str | None

    def why_not(self, path: Path) -> Finding | None:
        """Tell what speaks against it as the file is now."""
        refusal = _changed(path, self.name, self.expected_hash)
        return refusal or (None if self.text is None else _read_only(path, self.name))


class _NotSavedError(Exception):
    """Ends a saving that is refused."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.text)
        self.finding = finding


def _all_put(folder: Path, files: Sequence[_Wanted], closing: str) -> Finding | None:
    if not files:
        return None
    try:
        of = [(file, _path(folder, file.name)) for file in files]
        with _told_of(files[0].name), alone(*(path for _, path in of)):
            _put_in_place(of)
    except _NotSavedError as error:
        return replace(error.finding, remedy=f"{error.finding.remedy} {closing}")
    return None


def _put_in_place(of: Sequence[tuple[_Wanted, Path]]) -> None:
    """Write all beside their files, then put them in their places; nobody else is saving now."""
    with ExitStack() as halves:
        _look_at(of)
        staged = [
            (file, path, _beside(file.name, path, file.text.encode("utf-8"), halves))
            for file, path in of
            if file.text is not None
        ]
        # Asked again at the last moment: bringing texts to the disk can take a while.
        _look_at(of)
        former: list[tuple[_Wanted, Path, bytes | None]] = []
        try:
            for file, path, half in staged:
                with _told_of(file.name):
                    held = path.read_bytes() if path.exists() else None
                    half.replace(path)
                former.append((file, path, held))
        except _NotSavedError as error:
            halves.close()  # makes room for what is put back
            left = [f.name for f, path, held in reversed(former) if not _put_back(path, held)]
            raise _NotSavedError(_with_left(error.finding, left)) from error


def _look_at(of: Sequence[tuple[_Wanted, Path]]) -> None:
    for file, path in of:
        with _told_of(file.name):
            refusal = file.why_not(path)
        if refusal is not None:
            raise _NotSavedError(refusal)


def _path(folder: Path, name: str) -> Path:
    if leaves(folder, name):
        raise _NotSavedError(
            _refusal(
                "leaves-folder",
                f"{brief(name)} leads out of the folder; it was not written.",
                mend="Put the file itself into the folder.",
                name=name,
            )
        )
    with _told_of(name):
        return (folder / name).resolve()


@contextmanager
def _told_of(name: str) -> Iterator[None]:
    """Say of which file it is where the system refuses.

    Raises:
        _NotSavedError: with the finding that says so.
    """
    try:
        yield
    except BusyError as error:
        finding = _refusal(
            "busy",
            f"{brief(name)} is being written by another program; it was not written.",
            mend="Wait until that one is done, and try again.",
            name=name,
        )
        raise _NotSavedError(finding) from error
    except OSError as error:
        finding = _refusal(
            "cannot-write",
            f"{brief(name)} cannot be written: {error.strerror or 'the system refused'}.",
            mend="The file is as it was. Make room, or give yourself the right to write there.",
            name=name,
        )
        raise _NotSavedError(finding) from error


def _beside(name: str, path: Path, data: bytes, halves: ExitStack) -> Path:
    """Write what a file is to hold beside it; it goes with the stack where it is not put in place."""
    with _told_of(name):
        _sweep(path)
        handle, half = mkstemp(prefix=f".{path.name}.", suffix=_HALF, dir=path.parent)
        beside = Path(half)
        halves.callback(_gone_or_left, beside)
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        beside.chmod(S_IMODE(path.stat().st_mode) if path.exists() else 0o644)
    return beside


def _gone_or_left(half: Path) -> None:
    with suppress(OSError):
        half.unlink(missing_ok=True)


def _put_back(path: Path, held: bytes | None) -> bool:
    """Put a file back as it was; tell whether that was done."""
    try:
        if held is None:
            path.unlink()
            return True
        with ExitStack() as halves:
            _beside(path.name, path, held, halves).replace(path)
    except (OSError, _NotSavedError):
        return False
    return True


def _with_left(refusal: Finding, left: Sequence[str]) -> Finding:
    if not left:
        return refusal
    names = " and ".join(brief(name) for name in left)
    text = f"{refusal.text} {names} was written before it, and could not be put back."
    return replace(refusal, text=text)


def _sweep(path: Path) -> None:
    """Take away what is left of savings of this file that were ended in the middle.

    Nobody else is saving it now, so none of it is still wanted.
    """
    for half in path.parent.iterdir():
        middle = half.name.removeprefix(f".{path.name}.").removesuffix(_HALF)
        if half.name == f".{path.name}.{middle}{_HALF}" and "." not in middle:
            with suppress(OSError):
                half.unlink()


def _changed(path: Path, name: str, expected_hash: str | None) -> Finding | None:
    """Tell that the file is another than the one that was read."""
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
    return None


def _read_only(path: Path, name: str) -> Finding | None:
    if path.exists() and not path.stat().st_mode & S_IWUSR:
        return _refusal(
            "read-only",
            f"{brief(name)} may only be read, not written.",
            mend="Give yourself the right to write it.",
            name=name,
        )
    return None


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
