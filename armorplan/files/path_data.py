"""Path data: what a ``d`` attribute says, drawn with a pen.

fontTools parses it. Of what it reads in its own way three things are put right first: line breaks
among an arc's numbers, numbers like ``007`` and ``5.``, and signs that it would skip silently.
"""

import re
from typing import Protocol

from fontTools.svgLib.path.parser import parse_path

from armorplan.files.faults import brief
from armorplan.files.transforms import NUMBER, ShapeFaultError
from armorplan.pattern.parts import Point

_COMMAND = re.compile(r"([MmZzLlHhVvCcSsQqTtAa])")
_BETWEEN = re.compile(r"[\s,]+")
_TRAILING_DOT = re.compile(r"(?<=\d)\.(?!\d)")
_LEADING_ZEROS = re.compile(r"(?<![\d.])0+(?=\d)")
_ARC_MARKS = re.compile(r"[-+.\deE\s,]*")


class Pen(Protocol):
    """What path data draws with; the names are fontTools'."""

    def moveTo(self, to: Point) -> None:  # noqa: N802
        """Begin a line at a point."""
        ...

    def lineTo(self, to: Point) -> None:  # noqa: N802
        """Draw a straight line."""
        ...

    def curveTo(self, first: Point, second: Point, to: Point) -> None:  # noqa: N802
        """Draw a cubic Bézier curve."""
        ...

    def qCurveTo(self, control: Point, to: Point) -> None:  # noqa: N802
        """Draw a quadratic Bézier curve."""
        ...

    def arcTo(  # noqa: N802 - fontTools' signature
        self,
        rx: float,
        ry: float,
        turn_deg: float,
        large: bool,  # noqa: FBT001
        sweep: bool,  # noqa: FBT001
        to: Point,
    ) -> None:
        """Draw an elliptical arc."""
        ...

    def closePath(self) -> None:  # noqa: N802
        """Close the line."""
        ...

    def endPath(self) -> None:  # noqa: N802
        """Leave the line open."""
        ...


def draw_path(data: str, pen: Pen) -> None:
    """Draw path data with a pen, in user units.

    Raises:
        ShapeFaultError: the data is malformed.
    """
    try:
        parse_path(_plain(data), pen)
    except ValueError as error:
        raise _unreadable(data) from error


def _unreadable(text: str) -> ShapeFaultError:
    return ShapeFaultError(
        "bad-path",
        f'The path "{brief(text.strip())}" cannot be read: a command lacks numbers or is unknown.',
        "Draw or save it again as a plain path.",
    )


def _plain(data: str) -> str:
    chunks = _COMMAND.split(_TRAILING_DOT.sub("", data))
    for spot in range(0, len(chunks), 2):
        is_arc = spot > 0 and chunks[spot - 1] in "Aa"
        chunks[spot] = _plain_numbers(chunks[spot], is_arc=is_arc)
    return "".join(chunks)


def _plain_numbers(chunk: str, *, is_arc: bool) -> str:
    if is_arc:
        # An arc's flags may stand together with what follows: "0110" is 0, 1 and 10.
        if not _ARC_MARKS.fullmatch(chunk):
            raise _unreadable(chunk)
        return _BETWEEN.sub(" ", chunk)
    chunk = _LEADING_ZEROS.sub("", chunk)
    rest = _BETWEEN.sub("", NUMBER.sub("", chunk))
    if rest:
        raise _unreadable(chunk)
    return chunk
