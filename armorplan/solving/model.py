"""A small model language between the planner and the solver: plain frozen values, no solver in it.

Numbers and Booleans are named; a literal is a Boolean's name, or the same name after ``~`` for
its opposite. Fields hold only words, whole numbers and tuples of them, so that a model crosses
the border to the worker process as JSON (see ``wire``) and comes back the same.
"""

from dataclasses import dataclass
from enum import StrEnum

Range = tuple[int, int]
"""Least and most, both allowed."""
Term = tuple[str, int]
"""A variable and what it is multiplied by (or, in ``Latest``, what is added to it)."""

MOST = 2**50
"""Stands for no limit; far beyond any sum of minutes, and within the solver's whole numbers."""


class ModelError(ValueError):
    """A model the solver cannot take: an unknown name, a number too large."""


def at_least(least: int) -> tuple[Range, ...]:
    """Return the ranges of everything from ``least`` upwards."""
    return ((least, MOST),)


def at_most(most: int) -> tuple[Range, ...]:
    """Return the ranges of everything up to ``most``."""
    return ((-MOST, most),)


def opposite(literal: str) -> str:
    """Return the literal that is true when this one is false."""
    return literal[1:] if literal.startswith("~") else f"~{literal}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """A whole-number variable that lies in one of its ranges."""

    name: str
    ranges: tuple[Range, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Interval:
    """A stretch from ``start`` for ``size`` (minutes, or a variable's name).

    ``start`` may be a whole number for a stretch that cannot move, or a variable and what is
    added to it. ``end`` names the variable of
    its end where there is one; ``size`` has to be a variable then. ``only_if`` is the literal
    under which it exists at all.
    """

    name: str
    start: str | int | Term
    size: str | int
    end: str | None = None
    only_if: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Linear:
    """The sum of the terms lies in one of the ranges, where all ``only_if`` literals are true."""

    terms: tuple[Term, ...]
    ranges: tuple[Range, ...]
    only_if: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Element:
    """``target`` is the entry of ``table`` at ``index``, counted from 0."""

    index: str
    table: tuple[int, ...]
    target: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NoOverlap:
    """No two of these intervals share a moment."""

    intervals: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cumulative:
    """At every moment the demands of the intervals under way add up to at most ``capacity``."""

    intervals: tuple[str, ...]
    demands: tuple[int, ...]
    capacity: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ExactlyOne:
    """One of the literals is true, and no other."""

    literals: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AtLeastOne:
    """One of the literals is true, or more."""

    literals: tuple[str, ...]


Constraint = Linear | Element | NoOverlap | Cumulative | ExactlyOne | AtLeastOne


@dataclass(frozen=True, slots=True, kw_only=True)
class Least:
    """Make the sum of the terms as small as it can be."""

    terms: tuple[Term, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Latest:
    """Make the largest of variable + offset as small as it can be; it lies in ``ranges``."""

    of: tuple[Term, ...]
    ranges: tuple[Range, ...]


Objective = Least | Latest


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """How long and how to search.

    Attributes:
        seconds: stop after this; always given, the solver has no other end.
        workers: threads of the search.
        seed: the same seed and one worker, or ``repeatable``, give the same answer again.
        repeatable: threads take turns, and ``work`` ends the search before the clock does.
        work: the most deterministic time to spend, in the solver's own unit (roughly a second).
    """

    seconds: float
    workers: int = 1
    seed: int = 1
    repeatable: bool = True
    work: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Model:
    """Variables, constraints, what to make small, a first guess, and the effort to spend."""

    effort: Effort
    numbers: tuple[Number, ...] = ()
    booleans: tuple[str, ...] = ()
    intervals: tuple[Interval, ...] = ()
    constraints: tuple[Constraint, ...] = ()
    objective: Objective | None = None
    hints: tuple[Term, ...] = ()


class Outcome(StrEnum):
    """How a search ended, in our words; never 'best' after a stop."""

    BEST = "proved best"
    GOOD = "good"
    NONE = "none possible"
    STOPPED = "stopped"
    OUT_OF_TIME = "out of time"


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What the search found.

    Attributes:
        values: every variable with its value; empty where nothing was found.
        objective: the value made small, or ``None`` without values or without an objective.
        bound: no answer can be smaller than this; ``None`` where nothing is proved.
        wall_s: seconds the search took.
        work: what it did, in the solver's own unit: the same for the same single thread's search.
    """

    status: Outcome
    values: tuple[Term, ...] = ()
    objective: int | None = None
    bound: int | None = None
    wall_s: float = 0.0
    work: float = 0.0
