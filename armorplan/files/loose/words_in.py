"""The text of a drawing's file, whatever encoding a program of any country wrote it in."""

import codecs
import re
import zlib

from armorplan.files.faults import brief
from armorplan.files.file_bytes import unreadable
from armorplan.files.text_check import is_utf16
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Place

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_DECLARED = re.compile(rb"""^<\?xml[^>]{0,200}?encoding\s*=\s*["']([\w.:-]{1,40})["']""")
_LAST, _HEAD = "cp1252", 40
_UNPACK_TO = 16 + zlib.MAX_WBITS


def text_of(data: bytes) -> str:
    """Return the text, by its mark, by what it declares, as UTF-8, or as western letters."""
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return data.decode(encoding, errors="replace")
    if is_utf16(data[:_HEAD]):
        return data.decode("utf-16-be" if data[0] == 0 else "utf-16-le", errors="replace")
    declared = _DECLARED.match(data.lstrip())
    for encoding in (declared[1].decode("ascii") if declared else "utf-8", "utf-8"):
        try:
            return data.decode(encoding)
        except (LookupError, UnicodeError, ValueError):
            continue
    return data.decode(_LAST, errors="replace")


def unpacked(name: str, data: bytes, *, most: int) -> bytes:
    """Return what a packed drawing holds.

    Raises:
        UnreadableError: it is cut off, spoilt, or unpacks to more than ``most`` bytes.
    """
    worker = zlib.decompressobj(_UNPACK_TO)
    place = Place(file=name)
    try:
        found = worker.decompress(data, most + 1)
    except zlib.error as error:
        raise _spoilt(name, place) from error
    if len(found) > most:
        raise too_large(name, most)
    if not worker.eof:
        raise _spoilt(name, place)
    return found


def _spoilt(name: str, place: Place) -> UnreadableError:
    return unreadable(
        "cut-off",
        f"{brief(name)} is a packed drawing that cannot be unpacked; it is cut off or spoilt.",
        mend="Save it again, as plain SVG.",
        place=place,
    )


def too_large(name: str, most: int) -> UnreadableError:
    """Return the error of a file that holds more than is read."""
    return unreadable(
        "too-large",
        f"{brief(name)} holds more than {most / 1e6:.0f} MB; it was not read.",
        mend="Take pictures, hatchings and whatever is no pattern out of it, or save the pattern "
        "in several files.",
        place=Place(file=name),
    )
