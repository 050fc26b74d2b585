"""What the dry fits of a pattern's builds ask of its drawing, and what its versions are, as rows."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum, unique
from math import hypot

from armorplan.app.derived import Derived
from armorplan.app.fit_corrections import FitChange
from armorplan.app.fit_gathering import Gathered
from armorplan.ledger.state import LedgerState
from armorplan.pattern.parts import Point


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternBuild:
    """A build of the pattern with what follows from it and how it stands."""

    build: str
    name: str
    version: int
    derived: Derived
    ledger: LedgerState
    begun_at: datetime


@unique
class Standing(StrEnum):
    """How the pattern stands to a correction."""

    OFFERED = "offered"
    KEPT = "in the pattern"


@unique
class Remedy(StrEnum):
    """What a correction means for leather of a build that is under way."""

    NOT_YET = "punch it by the new version"
    LEAVE = "leave it"
    OVAL = "make the hole oval"
    PLUG = "plug it"
    OTHER = "another way"
    ANEW = "cut it anew"


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleMove:
    """A hole that moves for the next cut, in mm on the drawing, y down the page."""

    hole: str
    part: str
    part_name: str
    before: Point
    after: Point

    @property
    def mm(self) -> float:
        """How far it moves."""
        return hypot(self.after[0] - self.before[0], self.after[1] - self.before[1])


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundIn:
    """What one fit of a build showed, in words."""

    build: str
    name: str
    version: int
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CutAdvice:
    """What a correction means for one part of a build.

    Attributes:
        part: sided id of the part.
        holes: the holes that lie elsewhere in the drawing now.
        mm: by how much at most.
        text: what to do and why, as sentences with the numbers.
        cautions: labels and local codes rule.
    """

    build: str
    build_name: str
    part: str
    part_name: str
    holes: tuple[str, ...]
    mm: float
    remedy: Remedy
    text: str
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectionRow:
    """One thing that dry fits showed, and what it becomes in the pattern.

    Attributes:
        key: names it for ever: what it was found at and which way.
        title: what was found, as the pattern's entry says it.
        text: what changes, as sentences.
        moves: the holes that move; empty where it becomes a check to come.
        found: where it was found, build by build.
        standing: whether the pattern has it already.
        advice: what it means for leather that is cut, build by build.
        changes: the entries it becomes.
        told: what it comes from.
        causes: what the check says of the same holes, with what to do: a likelier cause than these.
    """

    key: str
    title: str
    text: str
    moves: tuple[HoleMove, ...]
    found: tuple[FoundIn, ...]
    standing: Standing
    advice: tuple[CutAdvice, ...]
    changes: tuple[FitChange, ...]
    told: Gathered
    causes: tuple[str, ...] = ()

    @property
    def most_mm(self) -> float:
        """How far a hole moves at most; 0.0 where none does."""
        return max((move.mm for move in self.moves), default=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionBuild:
    """A build that was begun from a version, and what that means for it, as sentences.

    ``is_cut``: leather of it was cut, or is being cut.
    """

    build: str
    name: str
    is_open: bool
    is_cut: bool
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionRow:
    """One version of the pattern.

    Attributes:
        version: its number.
        note: what it brought, in short.
        on: the day, as ``2026-11-29``; empty: not said.
        from_builds: names of the builds that taught it.
        changed: what is other than before, as sentences.
        is_now: it is what the folder holds.
        builds: what was begun from it.
    """

    version: int
    note: str = ""
    on: str = ""
    from_builds: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    is_now: bool = False
    builds: tuple[VersionBuild, ...] = ()
