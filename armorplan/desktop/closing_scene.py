"""Where reach is drawn over the parts at a zoom: marks, rows, and places for their words, in pixels."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from enum import Enum, auto
from itertools import islice
from math import hypot, inf
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QFont, QFontMetricsF, QPainterPath

from armorplan.app.reach_rows import JointReach, ReachFrame, RowReach, RowState, WayIn
from armorplan.desktop.closing_words import gape_words, need_words, row_words
from armorplan.desktop.mark_places import Anchor, Ground, words_place
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.standing_shades import shade_of
from armorplan.geometry.reach.model import Standing

HALO_PX = 2.0
LEAST_PX, SIDE_PX = 6.0, 14.0
"""How large a joint's mark is drawn at least and at most."""
BARE_PX = 15.0
"""A mark with less room than this to the next has no plate and ring: they would hide the part."""
LETTERS_PX = 6.0
OPENING_PX = 7.0
"""Radius of the ring where a tool goes in."""
WORDS_WEIGHT = 3.0
OPEN_SHARE = 1.4
"""Of a row that is wide open the words are so much longer than it at most: its dashes say it as well."""
LABELS_MOST = 30
"""Where more rows than this are open, the others have no words: they would be a thicket."""
DEPTHS_MOST = 60
"""So many joints still to set at most have their depth beside them, the hardest first."""
APART_PX = 4.0
"""So far apart two numbers side by side stand at least."""
Leg = tuple[QPointF, QPointF]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """Where things lie at a zoom.

    Attributes:
        spots: where each joint's head shows, in mm.
        room_px: how far the next joint lies from one, in pixels.
        taken: what words should not hide, in mm.
        room: where words may stand, in mm.
    """

    scale: float
    spots: Mapping[str, Place]
    room_px: Callable[[str], float]
    taken: tuple[QRectF, ...]
    room: QRectF


class JointLook(NamedTuple):
    """What a joint's mark looks like: marks that look alike are drawn once.

    ``shade`` is the step of depth under it, ``worse`` that it is still to set and was made harder.
    """

    standing: Standing | None
    is_set: bool
    worse: bool
    bare: bool
    shade: int


@dataclass(frozen=True, slots=True)
class JointMark:
    """A joint's mark: its middle, how large it is, and whether it has room for a plate and ring."""

    at: QPointF
    joint: JointReach
    side_px: float
    bare: bool = False

    @property
    def look(self) -> JointLook:
        """What it looks like; what is set is told from no more than that."""
        joint, is_set = self.joint, self.joint.is_set
        shade = 0 if is_set or joint.margin is None else shade_of(joint.margin)
        worse = joint.worse and not is_set
        return JointLook(joint.standing, is_set, worse, self.bare, shade)

    @property
    def box(self) -> QRectF:
        """The box around it."""
        box = QRectF(0, 0, self.side_px, self.side_px)
        box.moveCenter(self.at)
        return box


@dataclass(frozen=True, slots=True)
class RowLine:
    """A row through its joints; ``barring``: it is in the way of the chosen joint."""

    spots: tuple[QPointF, ...]
    row: RowReach
    barring: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """All that words have to keep off, and belong to."""

    marks: tuple[JointMark, ...]
    rows: tuple[RowLine, ...]
    legs: tuple[Leg, ...]


class LabelKind(Enum):
    """What words belong to."""

    WAY = auto()
    ROW = auto()
    BARRING = auto()
    DEPTH = auto()


class Wanted(NamedTuple):
    """Words that seek a place; longer than so many pixels they are left out."""

    words: str
    anchor: Anchor
    kind: LabelKind
    most_px: float = inf


@dataclass(frozen=True, slots=True)
class Label:
    """Words in their box."""

    box: QRectF
    words: str
    kind: LabelKind


def joint_marks(
    frame: ReachFrame, spots: Mapping[str, QPointF], room_px: Callable[[str], float]
) -> Iterator[JointMark]:
    """Yield the marks of joints, those that are set under the others."""
    for joint in sorted(frame.joints, key=lambda one: not one.is_set):
        if joint.id in spots and joint.margin is not None:
            apart_px = room_px(joint.id)
            side_px = min(max(apart_px - 2 * HALO_PX, LEAST_PX), SIDE_PX)
            yield JointMark(spots[joint.id], joint, side_px, apart_px < BARE_PX)


def row_lines(
    frame: ReachFrame, spots: Mapping[str, QPointF], barring: frozenset[str]
) -> Iterator[RowLine]:
    """Yield the rows whose joints all show."""
    for row in frame.rows:
        if all(joint in spots for joint in row.joints):
            yield RowLine(tuple(spots[j] for j in row.joints), row, row.id in barring)


def labels(drawn: Drawn, way: WayIn | None, scene: Scene, font: QFont) -> Iterator[Label]:
    """Yield the words of the way in, then those of rows, where each finds a place."""
    ground, metrics = Ground(), QFontMetricsF(font)
    ground.take((_scaled(box, scene.scale) for box in scene.taken), WORDS_WEIGHT)
    ground.take((mark.box for mark in drawn.marks), WORDS_WEIGHT)
    ground.take(_ring(leg[0]) for leg in drawn.legs)
    room, depths = _scaled(scene.room, scene.scale), list[QRectF]()
    wanted = (
        *islice(_wanted(drawn, way), LABELS_MOST),
        *islice(_depths(drawn.marks), DEPTHS_MOST),
    )
    for one in wanted:
        is_depth = one.kind is LabelKind.DEPTH
        wide_px = metrics.horizontalAdvance(one.words)
        if wide_px > one.most_px:
            continue
        size = (wide_px + (2.0 if is_depth else 2 * LETTERS_PX), metrics.height() + 2)
        box = words_place(one.anchor, size, ground, room, near=is_depth)
        if is_depth and box is not None and _hides(box, drawn.marks, depths):
            continue
        if box is not None:
            ground.take((box,), WORDS_WEIGHT)
            depths += [box] if is_depth else []
            yield Label(box, one.words, one.kind)


def _hides(box: QRectF, marks: tuple[JointMark, ...], depths: list[QRectF]) -> bool:
    """Tell whether a number would lie on a joint's mark, or so close to another that both read as one."""
    wide = box.adjusted(-APART_PX, 0, APART_PX, 0)
    return any(box.intersects(m.box) for m in marks) or any(map(wide.intersects, depths))


def _wanted(drawn: Drawn, way: WayIn | None) -> Iterator[Wanted]:
    margin = way.reach.margin if way else None
    if drawn.legs and margin is not None:
        start, end = max(drawn.legs, key=lambda leg: (leg[1] - leg[0]).manhattanLength())
        told = need_words(margin)
        yield Wanted(told, _anchor((start + end) / 2, end - start), LabelKind.WAY)
    opening = way.opening if way else None
    for line in sorted(drawn.rows, key=_rank):
        kind = LabelKind.BARRING if line.barring else LabelKind.ROW
        if opening is not None and opening.row == line.row.id and drawn.legs:
            words = gape_words(line.row.name, opening.wide_mm)
            start, end = drawn.legs[0]
            yield Wanted(words, _anchor(start, end - start), kind)
        elif words := row_words(line.row):
            at = widest(line.row)
            onward = line.spots[min(at + 1, len(line.spots) - 1)] - line.spots[at]
            yield Wanted(words, _anchor(line.spots[at], onward), kind, _most_px(line))


def _most_px(line: RowLine) -> float:
    """Return how long the words of a row may be: of one that is wide open not much longer than it."""
    if line.barring or line.row.state is RowState.HALF:
        return inf
    run = line.spots[-1] - line.spots[0]
    return OPEN_SHARE * hypot(run.x(), run.y())


def _depths(marks: tuple[JointMark, ...]) -> Iterator[Wanted]:
    """Yield how far in joints still to set lie that are no longer at hand, the hardest first."""
    deep = [
        (mark, way, margin.standing)
        for mark in marks
        if not mark.joint.is_set
        and (margin := mark.joint.margin) is not None
        and (way := margin.way) is not None
        and margin.standing >= Standing.INSIDE
    ]
    for mark, way, _ in sorted(deep, key=lambda one: (-one[2], one[0].bare, -one[1].along_mm)):
        area = QPainterPath()
        area.addRect(mark.box)
        yield Wanted(f"{way.along_mm:.0f}", Anchor(mark.at, area=area), LabelKind.DEPTH)


def _rank(line: RowLine) -> tuple[bool, bool]:
    """Return which row finds a place for its words first: one in the way, one being closed."""
    return (not line.barring, line.row.state is not RowState.HALF)


def widest(row: RowReach) -> int:
    """Return the place of a row's widest gape; its middle while it is wide open."""
    if row.state is RowState.OPEN:
        return len(row.joints) // 2
    gapes = [gape or 0.0 for gape in row.gapes_mm]
    return gapes.index(max(gapes))


def _ring(at: QPointF) -> QRectF:
    return QRectF(at.x() - OPENING_PX, at.y() - OPENING_PX, 2 * OPENING_PX, 2 * OPENING_PX)


def _anchor(at: QPointF, way: QPointF) -> Anchor:
    long = hypot(way.x(), way.y()) or 1.0
    return Anchor(at, (way.x() / long, way.y() / long))


def _scaled(box: QRectF, scale: float) -> QRectF:
    return QRectF(box.topLeft() * scale, box.size() * scale)
