"""What is drawn over the flat parts to show what the shapes tell, in mm on the drawing."""

from dataclasses import dataclass
from enum import StrEnum

from armorplan.kernel.findings import Severity
from armorplan.pattern.parts import Point


class MarkKind(StrEnum):
    """How a mark is drawn.

    A ``move`` is an arrow from where something lies to where it should lie; a ``span`` a line
    measured between two spots; a ``zone`` a shaded area; a ``ghost`` the outline of another part
    where it comes to lie; a ``line`` an axis.
    """

    MOVE = "move"
    SPAN = "span"
    ZONE = "zone"
    GHOST = "ghost"
    LINE = "line"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One mark on one part.

    Attributes:
        part: id of the part in whose flat drawing it lies.
        spots: its points in mm: two of a move, span or line, the corners of a zone or ghost.
        label: what is written at it, such as ``2.0 mm``; may be empty.
        severity: how grave it is; ``None``: sound.
    """

    kind: MarkKind
    part: str
    spots: tuple[Point, ...]
    label: str = ""
    severity: Severity | None = None
