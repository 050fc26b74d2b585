"""Reads one file of a folder as UTF-8 bytes, or says why it cannot."""

from pathlib import Path
from stat import S_ISREG

from armorplan.files.faults import Faults, brief, listed
from armorplan.files.text_check import why_not_text
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Place, Severity


def unreadable(code: str, text: str, *, mend: str, place: Place) -> UnreadableError:
    """Return the error that carries one finding."""
    return UnreadableError(
        (Finding(code=code, severity=Severity.ERROR, text=text, remedy=mend, place=place),)
    )


def leaves(folder: Path, name: str) -> bool:
    """Tell whether a name leads out of the folder, links followed.

    Backslashes and drive letters are refused everywhere: a pattern travels between systems.
    """
    if "\\" in name or ":" in name or name.startswith("/") or ".." in name.split("/"):
        return True
    try:
        home = folder.resolve()
        return not (home / name).resolve().is_relative_to(home)
    except (OSError, RuntimeError):  # a link that leads to itself
        return True


def read_file(folder: Path, name: str, *, most: int) -> bytes:
    """Return the bytes of a text file inside a folder.

    Args:
        folder: where it lies.
        name: its name in the folder, with ``/`` between folders.
        most: the most bytes it may hold.

    Raises:
        UnreadableError: with one finding: outside the folder, missing, not a plain file, too
            large, not readable, or not UTF-8 text.
    """
    data = read_bytes(folder, name, most=most)
    finding = why_not_text(name, data)
    if finding:
        raise UnreadableError((finding,))
    return data


def read_bytes(folder: Path, name: str, *, most: int) -> bytes:
    """Return the bytes of a file inside a folder, text or not; see ``read_file``."""
    place = Place(file=name)
    if leaves(folder, name):
        raise unreadable(
            "leaves-folder",
            f"{brief(name)} leads out of the folder; it was not read.",
            mend="Put the file itself into the folder, and name it without .. or a leading /.",
            place=place,
        )
    path = folder / name
    try:
        # A pipe or a device would be read for ever.
        data = _head(path, most + 1) if S_ISREG(path.stat().st_mode) else None
    except FileNotFoundError as error:
        raise _missing(folder, name) from error
    except OSError as error:
        raise unreadable(
            "cannot-read",
            f"{brief(name)} cannot be read: {error.strerror or 'the system refused'}.",
            mend="Give yourself the right to read it.",
            place=place,
        ) from error
    if data is None:
        raise unreadable(
            "not-a-file", f"{brief(name)} is not a file.", mend="Put a file there.", place=place
        )
    if len(data) > most:
        raise unreadable(
            "too-large",
            f"{brief(name)} holds more than {most:,} bytes.",
            mend="Take pictures and whatever is not needed out of it.",
            place=place,
        )
    return data


def _head(path: Path, count: int) -> bytes:
    with path.open("rb") as file:
        return file.read(count)


def _missing(folder: Path, name: str) -> UnreadableError:
    try:
        there = [p.name for p in folder.glob(f"*{Path(name).suffix}")]
    except OSError:
        there = []
    some = listed(Faults().nearest_first(name, there))
    ways = f"It holds {some}: name one of these." if there else "Save the file there."
    return unreadable(
        "no-such-file",
        f"The folder {brief(folder.resolve().name)} holds no {brief(name)}.",
        mend=ways,
        place=Place(file=name),
    )
