"""Loose lines as a drawing holds them, and what they are taken for. y runs down the page."""

from dataclasses import dataclass
from enum import StrEnum, unique

from armorplan.kernel.findings import Finding, Place
from armorplan.pattern.parts import Point, Ring


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """One line as it is drawn, curves flattened; in units of the file until it is scaled.

    Attributes:
        key: names it in its drawing, for ever: the file's own id or handle where it has one, else
            its number in the order it is drawn.
        points: its corners; of a closed one the last is not repeated.
        circle: centre and diameter where it is drawn as one whole circle.
        layer: the layer or group it lies on, as the file names it; may be empty.
        colour: the colour of its line as the file says it, in lower case; may be empty.
        label: a name that the file gives it; may be empty.
        group: a name that the file gives the group it lies in, other than the layer; may be empty.
        place: where in the file it stands.
    """

    key: str
    points: Ring
    closed: bool
    circle: tuple[Point, float] | None = None
    layer: str = ""
    colour: str = ""
    label: str = ""
    group: str = ""
    place: Place | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettering:
    """A text in the drawing: what it says, where it begins, how high it is."""

    text: str
    at: Point
    height: float
    layer: str = ""


@unique
class Sureness(StrEnum):
    """How surely something is known."""

    SAID = "said"
    LIKELY = "likely"
    GUESSED = "guessed"


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitGuess:
    """What one unit of a file is: ``mm_each`` mm, by the file's own word or by its size.

    ``why`` is a whole sentence; ``others`` are further factors worth asking about, the likeliest
    first.
    """

    mm_each: float
    why: str
    sureness: Sureness
    others: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class LooseDrawing:
    """A drawing as it was read, in its own units, y downward.

    ``findings`` tell what was left out, by count and place; nothing is dropped in silence.
    """

    name: str
    strokes: tuple[Stroke, ...]
    lettering: tuple[Lettering, ...] = ()
    unit: UnitGuess
    findings: tuple[Finding, ...] = ()


@unique
class ShapeKind(StrEnum):
    """What a line of a drawing is taken for."""

    PART = "part"
    HOLE = "hole"
    SLOT = "slot"
    ENGRAVING = "engraving"
    FRAME = "frame"
    LEFT_OUT = "left out"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """One line after joining and clearing, in mm.

    Attributes:
        key: that of the first stroke it is made of.
        strokes: keys of all strokes it is made of, doubles of it among them.
        points: corners in mm; of a closed one the last is not repeated.
        closed: whether it is closed, within the tolerance.
        circle: centre and diameter in mm of what is round.
        inside: key of the part it lies in, or an empty text.
        name: what a text or label in or at it says; may be empty.
        why: why it is taken for this, as a sentence.
        said: a person said what it is.
    """

    key: str
    kind: ShapeKind
    strokes: tuple[str, ...]
    points: Ring
    closed: bool
    circle: tuple[Point, float] | None = None
    inside: str = ""
    layer: str = ""
    colour: str = ""
    name: str = ""
    why: str = ""
    said: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SortedOut:
    """All shapes of a drawing in mm, in the order they are drawn.

    Attributes:
        joined: how many open ends were joined, and the widest gap in mm among them.
        doubled: how many lines lay on others and were taken out.
        findings: what is open or crossed still, with the place in mm and what to do.
    """

    shapes: tuple[Shape, ...]
    joined: tuple[int, float] = (0, 0.0)
    doubled: int = 0
    findings: tuple[Finding, ...] = ()
