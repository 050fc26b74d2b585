"""What a file is, by how it begins; its name only helps where that says nothing."""

from enum import Enum, auto

from armorplan.files.faults import brief
from armorplan.files.file_bytes import unreadable
from armorplan.kernel.findings import Place

_BINARY_DXF = b"AutoCAD Binary DXF"
_SVGZ = b"\x1f\x8b"
_PICTURE = (
    "a picture of dots: no line in it has a length",
    "Draw the outlines over it in a drawing program, in mm, and save them as SVG or DXF.",
)
_NOT_LINES = (
    "no drawing of lines that is read here",
    "Open it in the program it was drawn with and save it as plain SVG, or as DXF.",
)
_BEGIN = {
    b"%PDF": (
        "a PDF page, made for printing",
        (
            "Open it in a drawing program, check a known length in it, and save it as plain SVG "
            "or DXF."
        ),
    ),
    b"%!PS": ("a PostScript page, made for printing", _NOT_LINES[1]),
    b"\xc5\xd0\xd3\xc6": ("a PostScript page, made for printing", _NOT_LINES[1]),
    b"AC10": (
        "a DWG drawing, whose form is not open",
        "Save it as DXF in the program it was drawn with; any version from R12 on is read.",
    ),
    b"\x89PNG": _PICTURE,
    b"\xff\xd8\xff": _PICTURE,
    b"GIF8": _PICTURE,
    b"BM": _PICTURE,
    b"II*\x00": _PICTURE,
    b"MM\x00*": _PICTURE,
    b"RIFF": _PICTURE,
    b"PK\x03\x04": (
        "an archive that holds other files",
        "Unpack it, and name the SVG or DXF file in it; one locked by a password is unlocked first.",
    ),
    b"\xd0\xcf\x11\xe0": _NOT_LINES,
    b"solid ": _NOT_LINES,
}


class FileKind(Enum):
    """The kinds of drawings that are read."""

    SVG = auto()
    PACKED_SVG = auto()
    DXF = auto()
    BINARY_DXF = auto()


def kind_of(name: str, data: bytes) -> FileKind:
    """Return what a file is.

    Raises:
        UnreadableError: with one finding: it is empty, or no drawing that is read.
    """
    place = Place(file=name)
    head = data[:4096]
    if not data.strip(b" \t\r\n\x00\xef\xbb\xbf\xff\xfe"):
        raise unreadable(
            "empty-file",
            f"{brief(name)} is empty.",
            mend="Save the drawing again, as SVG or DXF.",
            place=place,
        )
    if head.startswith(_SVGZ):
        return FileKind.PACKED_SVG
    if head.startswith(_BINARY_DXF):
        return FileKind.BINARY_DXF
    plain = head.replace(b"\x00", b"").lstrip(b"\xef\xbb\xbf\xff\xfe \t\r\n")
    known = next((why for mark, why in _BEGIN.items() if head.startswith(mark)), None)
    if known is not None:
        raise unreadable(
            "not-a-drawing",
            f"{brief(name)} is {known[0]}.",
            mend=known[1],
            place=place,
        )
    if plain.startswith(b"<"):
        return FileKind.SVG
    if _looks_like_dxf(plain):
        return FileKind.DXF
    raise unreadable(
        "not-a-drawing",
        f"{brief(name)} is neither SVG nor DXF.",
        mend=_NOT_LINES[1],
        place=place,
    )


def _looks_like_dxf(head: bytes) -> bool:
    """Tell whether lines are group codes and values in turn: a code is a short whole number."""
    codes = head.splitlines()[0:6:2]
    return bool(codes) and all(code.strip().lstrip(b"-").isdigit() for code in codes)
