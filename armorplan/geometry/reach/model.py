"""What reach is reckoned from: shells, their rims and rows, and the ways in to each joint.

Lengths are taken once, on the finished net with every fixed row of a shell closed. They do not
depend on what is made already, so that setting another joint can only lower a margin.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import IntEnum, StrEnum
from math import pi
from typing import NamedTuple

from armorplan.pattern.parts import Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Rim:
    """A free edge of a finished shell that goes once round: a mouth.

    Attributes:
        id: unique in its shell: ``rim-1``; the longest first.
        length_mm: along the edge, once round.
        spots: (part, point on its drawing) along it, for the picture.
        ball_mm: how wide the ball is that all plates along it are dished to; ``None``: they are not.
        even_mm: once round without its waves and scallops; ``None``: as ``length_mm``.
    """

    id: str
    length_mm: float
    spots: tuple[tuple[str, Point], ...]
    ball_mm: float | None = None
    even_mm: float | None = None

    @property
    def opening_mm(self) -> float:
        """How wide the mouth is pressed round: ``P/π``, but no wider than the ball."""
        round_mm = self.length_mm / pi
        return round_mm if self.ball_mm is None else min(round_mm, self.ball_mm)


FLAT_LINK = ""


class Link(NamedTuple):
    """A row between two of its plates: ``draws`` tells what shape it draws them into.

    It is ``FLAT_LINK`` where they lie flat on each other, as laid out by the rows of the shell;
    of rows that draw two plates together in one and the same way it is the same.
    """

    one: str
    other: str
    draws: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A place where a row gapes for good: no joint of it is near.

    Attributes:
        name: unique in its shell; no joint's.
        at_mm: how far along the row from its first joint; before that one below 0.
        between: the numbers of the joints on either side, counted from 1; past an end the second is 0.
        spots: (part, point on its drawing) of that place on each plate.
    """

    name: str
    at_mm: float
    between: tuple[int, int]
    spots: tuple[tuple[str, Point], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Fixed joints that hold plates of one shell together, worked as one.

    Attributes:
        id: of its seam, or of its first joint where the pattern names no seam.
        name: in a maker's words.
        joints: plain ids, along the row.
        at_mm: how far along the row each of them sits from the first.
        parts: the plates it holds together; one for a part closed on itself.
        links: between which of them it is; none told: from each to the next, drawn round.
        spans: of each link, ``at_mm`` of the joints that make it; none told: each of them does.
        gaps: where it gapes for good, in their order along it.
    """

    id: str
    name: str
    joints: tuple[str, ...]
    at_mm: tuple[float, ...]
    parts: tuple[str, ...]
    links: tuple[Link, ...] = ()
    spans: tuple[tuple[float, ...], ...] = ()
    gaps: tuple[Gap, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Shell:
    """Plates, lames and cops that fixed joints hold together, with what else is set on them.

    Attributes:
        id: id of its first part.
        parts: plain part ids, in the pattern's order.
        rims: the mouths of the finished shell; none: it has no opening at all.
        rows: what holds its plates together.
        seats: every joint with a hole in one of its plates, straps and pivots too.
        girth_mm: by rim, its largest girth: the longest level line of the distance from that rim.
        formed: parts that hold a shape of their own before they are riveted.
        hollow: it curves inwards somewhere, or this is not known: nothing of it is ever called *cannot*.
        closures: of each shape that rows draw the plates into, the ids of those rows.
    """

    id: str
    parts: tuple[str, ...]
    rims: tuple[Rim, ...]
    rows: tuple[Row, ...]
    seats: tuple[str, ...]
    girth_mm: Mapping[str, float]
    formed: frozenset[str]
    hollow: bool = False
    closures: tuple[frozenset[str], ...] = ()


class Through(StrEnum):
    """What a tool goes in through."""

    RIM = "rim"
    ROW = "row"


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way in to a joint.

    Attributes:
        through: a rim of the finished shell, or a row while it is open or where it gapes for good.
        name: the rim's id; of a row, the joint or the gap at whose place the tool goes in.
        row: the row's id; empty for a rim.
        along_mm: along the leather from there to the joint (``d∞``): a straight tool needs no more.
        least_mm: a straight tool needs no less: ``max(0, d - (2G - P)/2π)``, 0 where the shell is hollow.
        opening_mm: of a rim, the width of the round mouth (``Rim.opening_mm``); of a row ``None``: its
            state tells.
        gap: of a gap that stays when the row is set, between which numbers of the row (``Gap.between``).
    """

    through: Through
    name: str
    along_mm: float
    least_mm: float
    row: str = ""
    opening_mm: float | None = None
    gap: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Access:
    """The ways in to one joint, the shortest first.

    Attributes:
        parts: plates of the shell it goes through; none told: it may be any of them.
    """

    joint: str
    shell: str
    ways: tuple[Way, ...]
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachNet:
    """Shells of a pattern by id, and the ways in to each joint that sits in one of them.

    A joint that sits in no shell (a strap's own fold) is reached from anywhere.
    """

    shells: Mapping[str, Shell]
    access: Mapping[str, Access]

    def shell_of(self, joint: str) -> Shell | None:
        """Return the shell a joint sits in; ``None`` where it sits in none."""
        found = self.access.get(joint)
        return None if found is None else self.shells[found.shell]


class Standing(IntEnum):
    """How a joint can be set in a state, from easy to impossible."""

    FLAT = 0
    CURVED = 1
    INSIDE = 2
    END = 3
    CANNOT = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Margin:
    """How far a tool gets at one joint in one state.

    Attributes:
        standing: ``FLAT`` while its parts lie flat; ``CURVED`` on a shaped part with the tool at hand;
            ``INSIDE`` deep in a shape, or anywhere in one that is shut round; ``END`` where only the lower bound is within reach;
            ``CANNOT`` where no tool gets there at any opening.
        tool: id of the tool that gets there best; empty where any serves, or none fits the fastener.
        way: where it goes in; ``None`` where it need not go in anywhere, or nothing admits it.
        opening_mm: how wide that opening is in this state, as it stands (not squashed).
        reach_mm: reach of the tool.
        margin_mm: reach less the length it needs at most, of whichever tool has most to spare;
            below 0 or ``None`` from ``END`` on.
        most_margin_mm: the same of the length it needs at least; of ``CANNOT`` below 0 or ``None``.
        effort: minutes it takes, as a multiple of those on the flat bench; of *cannot* infinite.
    """

    standing: Standing
    tool: str = ""
    way: Way | None = None
    opening_mm: float | None = None
    reach_mm: float | None = None
    margin_mm: float | None = None
    most_margin_mm: float | None = None
    effort: float = 1.0
