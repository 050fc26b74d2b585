"""Reach along the order of a build, as rows for views: how joints can be set, which rows are open."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

from armorplan.geometry.reach.model import Margin, Standing
from armorplan.pattern.parts import Point

ShouldStop = Callable[[], bool]


class RowState(StrEnum):
    """How far a row is closed."""

    OPEN = "open"
    HALF = "half closed"
    SHUT = "closed"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachStop:
    """A step that sets joints, in its place in the order; ``joints`` are sided ids."""

    step: str
    title: str
    joints: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class JointReach:
    """How one joint can be set; of one that is set, how it could be if it were not.

    Attributes:
        id: with its side.
        margin: ``None``: it sits in no shell and is reached from anywhere.
        worse: the last step made it harder to get at.
    """

    id: str
    is_set: bool
    margin: Margin | None = None
    worse: bool = False

    @property
    def standing(self) -> Standing | None:
        """How it can be set; ``None`` where no shell is in the way."""
        return None if self.margin is None else self.margin.standing


@dataclass(frozen=True, slots=True, kw_only=True)
class RowReach:
    """One row on one side.

    Attributes:
        id, joints: with their side; the joints along the row.
        is_set: of each joint.
        gapes_mm: how wide it gapes at each joint; ``None``: as wide as one likes.
    """

    id: str
    name: str
    joints: tuple[str, ...]
    is_set: tuple[bool, ...]
    gapes_mm: tuple[float | None, ...]

    @property
    def state(self) -> RowState:
        """How far it is closed."""
        if all(self.is_set):
            return RowState.SHUT
        return RowState.HALF if any(self.is_set) else RowState.OPEN

    @property
    def gape_mm(self) -> float | None:
        """Its widest gape; ``None`` while no joint of it is set, 0 once all are."""
        if self.state is RowState.OPEN:
            return None
        return max((gape for gape in self.gapes_mm if gape is not None), default=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachFrame:
    """A build with so many steps of its order done: ``at`` counts stops.

    ``lost`` are the joints that the last step put out of reach, set already or not; ``coming`` those
    that the next step sets.
    """

    at: int
    joints: tuple[JointReach, ...]
    rows: tuple[RowReach, ...]
    lost: tuple[str, ...] = ()
    coming: tuple[str, ...] = ()

    def joint(self, joint_id: str) -> JointReach | None:
        """Return how a joint can be set; ``None`` for an unknown one."""
        return next((joint for joint in self.joints if joint.id == joint_id), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class RowsInWay:
    """Rows that leave a joint harder to set once all of them are closed.

    Attributes:
        rows: ids with their side.
        names: in a maker's words.
        standing: how it can be set then.
        along_mm: how far in it lies then, at most; ``None`` where no way is left.
    """

    rows: frozenset[str]
    names: tuple[str, ...]
    standing: Standing
    along_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """Where a tool goes in, as it stands in a state.

    Attributes:
        words: in a maker's words: ``by the mouth``.
        wide_mm: ``None`` where it stands open as wide as one likes.
        at_most: it may be narrower, for its edge goes up and down nobody knows how.
        once_shut: the width is that of the finished piece, of which a row still stands open.
        row: with its side, the row it goes in through; empty where through none.
    """

    words: str
    wide_mm: float | None = None
    at_most: bool = False
    once_shut: bool = False
    row: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WayIn:
    """How a tool gets to one joint, and what would bar it.

    Attributes:
        joint: with its side.
        title: the joint in a maker's words.
        reach: how it can be set.
        legs: from the opening to the joint, (from, to) on the parts as laid, in mm.
        opening: where it goes in; ``None`` where it need not go in anywhere.
        tool: the tool in a maker's words; empty where any serves or none fits.
        barred_by: what leaves it harder to set, the gravest first.
    """

    joint: str
    title: str
    reach: JointReach
    legs: tuple[tuple[Point, Point], ...] = ()
    opening: Opening | None = None
    tool: str = ""
    barred_by: tuple[RowsInWay, ...] = ()


class ReachTrack(Protocol):
    """Reach along one build's order. All but ``stops`` may take longer than 50 ms."""

    @property
    def stops(self) -> tuple[ReachStop, ...]:
        """The steps that set joints, in the order."""
        ...

    def frame(self, at: int) -> ReachFrame:
        """How all stands once the first ``at`` of them are done."""
        ...

    def way_in(self, joint: str, at: int) -> WayIn | None:
        """How a tool gets to a joint then; ``None`` for a joint that is not known."""
        ...

    def lost(self, should_stop: ShouldStop) -> Mapping[int, tuple[str, ...]]:
        """By number of stops done, the joints that are out of reach from there on."""
        ...
