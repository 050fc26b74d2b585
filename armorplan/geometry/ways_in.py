"""The way in to a joint in section, as plain numbers in mm: views only draw it.

Nothing is folded here: the leather from the opening to the joint is laid straight, as long as it is
(``along_mm``), and the tool goes in beside it, as long as it reaches.
"""

from dataclasses import dataclass
from enum import StrEnum


class Fits(StrEnum):
    """Whether an opening lets a tool in."""

    OPEN = "goes in"
    SQUASHED = "goes in squashed wider"
    NOT = "does not go in"


class Getting(StrEnum):
    """How a joint is got at."""

    FLAT = "its leather lies flat"
    REACHED = "a tool gets there"
    DOUBTFUL = "a tool may get there"
    CANNOT = "no tool gets there"


class Ends(StrEnum):
    """Where a tool that went in as far as it can ends, beside the joint."""

    BEYOND = "reaches it"
    BETWEEN = "may reach it"
    SHORT = "ends short of it"


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionTool:
    """A tool at an opening.

    Attributes:
        name: in a maker's words.
        reach_mm: how far it gets in.
        thick_mm: the narrowest opening that lets it in.
    """

    id: str
    name: str
    reach_mm: float
    thick_mm: float
    fits: Fits


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionWay:
    """An opening with a joint behind it.

    Attributes:
        name: of the opening, after 'the': ``mouth``, ``open left row``.
        along_mm: the joint's depth along the leather: a straight tool needs no more.
        least_mm: its depth where the leather curves as much as it may: a straight tool needs no less.
        opening_mm: how wide the opening stands; ``None``: as wide as one likes.
        squashed_mm: how wide it is pressed.
        at_most: it may be narrower, for its edge goes up and down nobody knows how.
        hollow: the shape curves inwards, or may, so that the lower bound is nothing sure.
    """

    name: str
    along_mm: float
    least_mm: float
    opening_mm: float | None
    squashed_mm: float | None
    at_most: bool = False
    hollow: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """How a tool gets to a joint in one state.

    Attributes:
        when: the state, in a few words: ``once long row is shut``.
        way: the way in that is told; ``None``: it need not go in anywhere, or no opening is left.
        tools: those for the joint, the one that is told first, then by reach, the longest first.
    """

    when: str
    getting: Getting
    way: SectionWay | None = None
    tools: tuple[SectionTool, ...] = ()

    @property
    def tool(self) -> SectionTool | None:
        """The tool that is told."""
        return self.tools[0] if self.tools and self.way is not None else None


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachPicture:
    """One joint, state after state: before something is done, and after it."""

    joint: str
    sections: tuple[Section, ...]


def ends(way: SectionWay, tool: SectionTool) -> Ends:
    """Return where a tool ends that goes in by a way."""
    if tool.reach_mm >= way.along_mm:
        return Ends.BEYOND
    return Ends.SHORT if tool.reach_mm < way.least_mm else Ends.BETWEEN


def missing_mm(way: SectionWay, tool: SectionTool) -> tuple[float, float]:
    """Return by how much a tool is too short, at least and at most, in mm; below 0 it has to spare."""
    return way.least_mm - tool.reach_mm, way.along_mm - tool.reach_mm
