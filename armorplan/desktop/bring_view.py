"""What a drawing on its way to a pattern looks like now; reckoned in any thread."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import dist

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath, QPolygonF

from armorplan.app.bringing.asking import NONE
from armorplan.app.bringing.model import Bringing, Question, QuestionKind
from armorplan.app.bringing.part_shapes import middle
from armorplan.desktop.picture_keys import Place
from armorplan.geometry.brought.model import Shape, SortedOut
from armorplan.geometry.matching.model import RowMatch
from armorplan.geometry.placing import Fit
from armorplan.pattern.parts import Point, Ring

BEFORE_KINDS = tuple(QuestionKind)[: tuple(QuestionKind).index(QuestionKind.KINDS) + 1]
"""What is asked before it is known what parts become: it calls them by number."""
UP_SHARE, UP_LEAST_MM, UP_MOST_MM = 0.4, 12.0, 60.0
"""An arrow is this share of its part's height long, within these."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartFacts:
    """What a part is taken for.

    Attributes:
        part: key of the part that this is said of: of twins the one that stands for both.
        kind: value of its ``PartKind``.
        leather: the leather's id, a colon, its thickness in mm.
        piece: name of the piece it goes with.
    """

    part: str
    kind: str
    leather: str = ""
    piece: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BringView:
    """A drawing with its answers, what they make of it, and what is asked still.

    Attributes:
        mm_each: what one unit of the file is taken for.
        title: what the pattern is called, as far as is known.
        paths: what is drawn of each shape, in mm, by its key.
        places: the middle of each shape in mm, in the order they are gone through: each part, then
            what lies in it.
        box: left, top, right and bottom of everything, in mm.
        is_whole: all is asked; else what the shapes make together is still sought.
        facts: what each part is taken for, by its key.
        leathers: what a part can be cut from: keys and words.
        numbered: what parts are called while it is asked what they are, by key.
    """

    bringing: Bringing
    found: SortedOut
    questions: tuple[Question, ...]
    mm_each: float
    paths: Mapping[str, QPainterPath]
    places: Mapping[str, Place]
    box: tuple[float, float, float, float]
    title: str = ""
    is_whole: bool = True
    facts: Mapping[str, PartFacts] = field(default_factory=dict)
    leathers: tuple[tuple[str, str], ...] = ()
    numbered: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """Two holes that belong together: where the first lies, where the second, by how much it misses.

    ``number`` counts along the row from 1. Both in mm on the drawing; ``miss_mm`` is ``None`` where they were not laid on each other.
    """

    number: int
    first: Point
    second: Point
    miss_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Up:
    """Where 'up' on the wearer lies on a part: an arrow in mm on the drawing, and the part's name.

    ``is_laid``: it lies on the part that is laid on the other.
    """

    foot: Point
    tip: Point
    name: str
    is_laid: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Ghost:
    """A match as it is drawn: the second part's outline laid on the first, holes on holes, what is up."""

    outline: Ring
    links: tuple[Link, ...]
    ups: tuple[Up, ...] = ()


def seen(
    bringing: Bringing, found: SortedOut, questions: tuple[Question, ...], mm_each: float
) -> BringView:
    """Return a view with all that takes time to draw it."""
    shapes = {shape.key: shape for shape in found.shapes}
    corners = [corner for shape in found.shapes for corner in shape.points]
    xs, ys = [x for x, _ in corners] or [0.0], [y for _, y in corners] or [0.0]
    return BringView(
        bringing=bringing,
        found=found,
        questions=questions,
        mm_each=mm_each,
        paths={key: path_of(shape) for key, shape in shapes.items()},
        places={key: middle_of(shapes[key]) for key in _walked(shapes)},
        box=(min(xs), min(ys), max(xs), max(ys)),
    )


def _walked(shapes: Mapping[str, Shape]) -> list[str]:
    order = {key: number for number, key in enumerate(shapes)}
    return sorted(
        shapes,
        key=lambda key: (
            order.get(shapes[key].inside, order[key]),
            bool(shapes[key].inside),
            order[key],
        ),
    )


def middle_of(shape: Shape) -> Point:
    """Return the middle of a shape in mm."""
    return shape.circle[0] if shape.circle else middle(shape.points)


def path_of(shape: Shape) -> QPainterPath:
    """Return a shape as it is drawn, in mm."""
    path = QPainterPath()
    if shape.circle is not None:
        (x, y), across = shape.circle
        path.addEllipse(QPointF(x, y), across / 2, across / 2)
        return path
    path.addPolygon(QPolygonF([QPointF(x, y) for x, y in shape.points]))
    if shape.closed:
        path.closeSubpath()
    return path


def ghost_of(match: RowMatch, view: BringView) -> Ghost:
    """Return how a match is drawn: laid on where one motion does it, else hole joined to hole.

    A match names parts and holes by the keys of their shapes.
    """
    shapes = {shape.key: shape for shape in view.found.shapes}
    pairs = [
        (middle_of(shapes[one]), middle_of(shapes[other]))
        for one, other in match.pairs
        if one in shapes and other in shapes
    ]
    ups = tuple(_up(shapes[key]) for key in (match.first, match.second) if key in shapes)
    if match.fit is None:
        joined = (Link(number=n, first=a, second=b) for n, (a, b) in enumerate(pairs, start=1))
        return Ghost(outline=(), links=tuple(joined), ups=ups)
    laid = tuple(
        _laid(number, one, _placed(other, match.fit, over=match.mirrored))
        for number, (one, other) in enumerate(pairs, start=1)
    )
    ring = shapes[match.second].points if match.second in shapes else ()
    outline = tuple(_placed(point, match.fit, over=match.mirrored) for point in ring)
    return Ghost(
        outline=outline,
        links=laid,
        ups=(*ups[:1], *(_laid_up(up, match.fit, over=match.mirrored) for up in ups[1:])),
    )


def called_then(question: Question, view: BringView) -> Mapping[str, str]:
    """Return what a question calls parts, where that is not what they are called once all is known."""
    return view.numbered if question.kind in BEFORE_KINDS else {}


def pairs_of(question: Question, choice: str) -> tuple[RowMatch, ...]:
    """Return what is laid on, one after the other, while a choice is in hand: its own match, else all."""
    own = tuple(match for match in question.matches if match.key == choice)
    return own or (() if choice == NONE else question.matches)


def lit_with(question: Question, match: RowMatch | None) -> tuple[str, ...]:
    """Return keys of the shapes that are lit: of a match its two parts and their holes."""
    if match is None:
        return question.shapes
    return (match.first, match.second, *(hole for pair in match.pairs for hole in pair))


def _up(shape: Shape) -> Up:
    """Return the arrow of a part: what is up on the page is up on the wearer until it is told."""
    x, y = middle_of(shape)
    ys = [corner[1] for corner in shape.points]
    half = min(max(UP_SHARE * (max(ys) - min(ys)), UP_LEAST_MM), UP_MOST_MM) / 2
    return Up(foot=(x, y + half), tip=(x, y - half), name=shape.name)


def _laid_up(up: Up, fit: Fit, *, over: bool) -> Up:
    foot, tip = _placed(up.foot, fit, over=over), _placed(up.tip, fit, over=over)
    return Up(foot=foot, tip=tip, name=up.name, is_laid=True)


def _placed(point: Point, fit: Fit, *, over: bool) -> Point:
    """Return where a point of the second part comes to lie; of one turned over its x is reversed."""
    x, y = point
    return fit.place((-x, y) if over else point)


def _laid(number: int, first: Point, second: Point) -> Link:
    return Link(number=number, first=first, second=second, miss_mm=dist(first, second))
