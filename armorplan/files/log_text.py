"""The text of a logger's file, whatever its encoding, and its lines cut into cells."""

import codecs
import csv
from collections.abc import Sequence
from dataclasses import dataclass

from armorplan.files.text_check import is_utf16

SEPARATORS = (";", "\t", ",", "|")
"""What stands between columns; the comma late, since it may be the decimal mark as well."""
_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_HEAD = 400
_LONGEST_LINE = 2_000
_PACKED = (b"PK\x03\x04", b"\x1f\x8b", b"\xd0\xcf\x11\xe0")
"""How spreadsheets and compressed files begin."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line that is not blank, with its number from 1."""

    number: int
    text: str


def is_packed(data: bytes) -> bool:
    """Tell whether the bytes are a spreadsheet or compressed, and no text."""
    return data.startswith(_PACKED)


def text_of(data: bytes) -> str | None:
    """Return the text of a file in UTF-8, UTF-16, UTF-32 or Latin-1; ``None`` where it is none."""
    coding = next((coding for mark, coding in _MARKS if data.startswith(mark)), None)
    if coding is None and is_utf16(data[:_HEAD]):
        coding = "utf-16-be" if data[:1] == b"\0" else "utf-16-le"
    if coding is not None:
        return data.decode(coding, errors="replace")
    if b"\0" in data:
        return None
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        return data.decode("latin-1")


def lines_of(text: str) -> list[Line]:
    """Return the lines that are not blank, none of them longer than a row of a logger can be."""
    unified = text.replace("\r\n", "\n").replace("\r", "\n")
    return [
        Line(number=number, text=line[:_LONGEST_LINE])
        for number, line in enumerate(unified.split("\n"), start=1)
        if line.strip(" \t;,|")
    ]


def cells_of(line: str, separator: str) -> Sequence[str]:
    """Return the cells of a line without the blanks around them; empty ones at its end are gone."""
    if '"' in line:
        try:
            found = next(csv.reader([line], delimiter=separator, skipinitialspace=True), [])
        except csv.Error:
            found = line.split(separator)
    else:
        found = line.split(separator)
    cells = [cell.strip() for cell in found]
    while cells and not cells[-1]:
        cells.pop()
    return cells
