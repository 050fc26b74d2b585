"""The neutral problem of least effort: what is set in one go, and what its place in the order costs.

Work done earlier can only make an atom dearer, never cheaper, so what it costs is a table of rises.
"""

from collections.abc import Sequence
from dataclasses import dataclass

TICKS = 100
"""Minutes are compared in whole hundredths, so that equal sums are equal."""


def in_ticks(minutes: float) -> int:
    """Return minutes in whole hundredths."""
    return round(minutes * TICKS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Atom:
    """What is worked in one go: a row, a few seats, one joint.

    Attributes:
        id: unique in its problem.
        minutes: what it takes when nothing stands in the way yet.
        tool: the tool it takes then; empty where any serves, or the one at hand does.
        way: the side or opening it is worked from then; empty where any serves.
    """

    id: str
    minutes: float
    tool: str = ""
    way: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rise:
    """Once all of ``after`` is done, the atom takes ``minutes`` more than at first.

    Of rises that hold, those with the same ``why`` do not add up: the dearest counts. Those of
    different ``why`` do.

    Attributes:
        minutes: more than ``Atom.minutes``; never below 0.
        tool: the tool it takes then; empty where any serves.
        way: the side or opening it is worked from then.
    """

    atom: str
    after: frozenset[str]
    minutes: float
    tool: str = ""
    way: str = ""
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class EffortProblem:
    """Atoms in the order they are listed in, which breaks ties, and what an order of them costs.

    Attributes:
        before: (first, then): the first is done before the other.
        before_all: (first, of): the first is done before the last of the others.
        tool_change_min: minutes to take up another tool.
        turn_over_min: minutes to turn the work to another side or opening.
    """

    atoms: tuple[Atom, ...]
    rises: tuple[Rise, ...] = ()
    before: tuple[tuple[str, str], ...] = ()
    before_all: tuple[tuple[str, frozenset[str]], ...] = ()
    tool_change_min: float = 0.0
    turn_over_min: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Spent:
    """Minutes that one order takes.

    Attributes:
        work_min: for the atoms themselves, each in the state it is met in.
        change_min: for tools taken up and for turning the work over.
        by_atom: minutes of each atom, in the order.
    """

    work_min: float
    change_min: float
    by_atom: tuple[tuple[str, float], ...]

    @property
    def minutes(self) -> float:
        """All of it."""
        return self.work_min + self.change_min


@dataclass(frozen=True, slots=True, kw_only=True)
class EffortOrder:
    """The order of least effort found, with what is proved of it.

    Attributes:
        order: atom ids; empty where the hard relations leave no order.
        spent: what it takes.
        bound_min: no order takes less work than this.
        change_bound_min: no order takes less for tools and turning than this.
        proved: no order takes less work. Tools and turning come second; their gap stands apart.
    """

    order: tuple[str, ...]
    spent: Spent
    bound_min: float
    change_bound_min: float
    proved: bool


def with_minutes(ids: Sequence[str], ticks: Sequence[int], *, change_ticks: int = 0) -> Spent:
    """Return what was spent, from hundredths of a minute by atom."""
    return Spent(
        work_min=sum(ticks) / TICKS,
        change_min=change_ticks / TICKS,
        by_atom=tuple((one, t / TICKS) for one, t in zip(ids, ticks, strict=True)),
    )
