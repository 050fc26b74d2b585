"""Reads a drawing that was made for a cutter or a printer, whatever it is, as loose lines."""

from pathlib import Path

from armorplan.files.faults import brief
from armorplan.files.file_bytes import read_bytes, unreadable
from armorplan.files.loose.sniffing import FileKind, kind_of
from armorplan.files.loose.svg_reading import read_svg
from armorplan.files.loose.words_in import text_of, too_large, unpacked
from armorplan.geometry.brought.model import LooseDrawing
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Place
from armorplan.kernel.stopping import ShouldStop, go_on, never

MOST_BYTES = 50_000_000


def read_loose(path: Path, *, should_stop: ShouldStop = never) -> LooseDrawing:
    """Read an SVG or DXF file.

    Args:
        path: the file; a link is followed, since the person named it.
        should_stop: asked often; where it says so, the reading ends.

    Raises:
        UnreadableError: with one finding that says what is wrong and how to mend it.
        StoppedError: the reading was no longer wanted.
    """
    name = path.name or path.resolve().name
    name = name if name.isprintable() else f"drawing{path.suffix}"
    data = _data(path, name)
    go_on(should_stop)
    kind = kind_of(name, data)
    if kind is FileKind.PACKED_SVG:
        data = unpacked(name, data, most=MOST_BYTES)
        kind = kind_of(name, data)
    if kind in {FileKind.DXF, FileKind.BINARY_DXF}:
        from armorplan.files.loose.dxf_reading import read_dxf

        binary = kind is FileKind.BINARY_DXF
        found = read_dxf(name, data, binary=binary, should_stop=should_stop)
    else:
        found = read_svg(name, text_of(data), should_stop)
    if not found.strokes:
        raise _nothing(found)
    return found


def _data(path: Path, name: str) -> bytes:
    try:
        path = path.resolve()
        if path.is_dir():
            raise unreadable(
                "is-a-folder",
                f"{brief(name)} is a folder; a drawing is wanted here.",
                mend="Name one SVG or DXF file in it.",
                place=Place(file=name),
            )
        large = path.is_file() and path.stat().st_size > MOST_BYTES
    except (OSError, ValueError, RuntimeError):
        large = False  # what is wrong with it is told by reading it
    if large:
        raise too_large(name, MOST_BYTES)
    return read_bytes(path.parent, path.name, most=MOST_BYTES)


def _nothing(found: LooseDrawing) -> UnreadableError:
    """Return the error of a drawing without a line, with the likeliest reason."""
    codes = {finding.code for finding in found.findings}
    place = Place(file=found.name)
    if "picture-inside" in codes:
        return unreadable(
            "only-a-picture",
            f"{brief(found.name)} holds a picture of dots and no line of its own.",
            mend="Draw the outlines over the picture as lines, in mm, and take the picture out.",
            place=place,
        )
    told = next(iter(found.findings), None)
    more = f" {told.text}" if told else ""
    return unreadable(
        "nothing-drawn",
        f"{brief(found.name)} draws no line that can be read.{more}",
        mend=told.remedy if told else "Draw each part as a closed line, its holes as circles.",
        place=place,
    )
