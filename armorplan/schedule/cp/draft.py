"""A model while it is being written; every variable is born with how a plan tells its value."""

from collections.abc import Callable

from armorplan.schedule.cp.reading import Reading
from armorplan.solving.model import (
    MOST,
    AtLeastOne,
    Constraint,
    Effort,
    ExactlyOne,
    Interval,
    Linear,
    Model,
    Number,
    Objective,
    Range,
    Term,
)

Told = Callable[[Reading], int]
"""The value of a variable in a plan: what the solver is hinted with."""


class Draft:
    """Collects variables and constraints, and names the intervals."""

    def __init__(self) -> None:
        self.told: dict[str, Told] = {}
        self._booleans: list[str] = []
        self._numbers: list[Number] = []
        self._intervals: list[Interval] = []
        self._constraints: list[Constraint] = []

    def copy(self) -> "Draft":
        """Return one that can be added to without touching this one."""
        other = Draft()
        other.told = dict(self.told)
        other._booleans = [*self._booleans]
        other._numbers = [*self._numbers]
        other._intervals = [*self._intervals]
        other._constraints = [*self._constraints]
        return other

    def number(self, name: str, ranges: tuple[Range, ...], told: Told) -> str:
        """Add a whole-number variable; return its name."""
        self._numbers.append(Number(name=name, ranges=ranges))
        self.told[name] = told
        return name

    def boolean(self, name: str, told: Told) -> str:
        """Add a Boolean; return its name, which is its literal."""
        self._booleans.append(name)
        self.told[name] = told
        return name

    def need(self, constraint: Constraint) -> None:
        """Add a constraint."""
        self._constraints.append(constraint)

    def one_of(self, *literals: str) -> None:
        """Let exactly one of the literals be true."""
        self.need(ExactlyOne(literals=literals))

    def some_of(self, *literals: str) -> None:
        """Let one of the literals be true, or more; of none at all, nothing can be true."""
        self.need(AtLeastOne(literals=literals))

    def keep(
        self, terms: tuple[Term, ...], ranges: tuple[Range, ...], *only_if: str | None
    ) -> None:
        """Keep a sum within ranges, where all the literals given are true."""
        literals = tuple(x for x in only_if if x is not None)
        self.need(Linear(terms=terms, ranges=ranges, only_if=literals))

    def gap(
        self,
        first: Term,
        then: str,
        *,
        least: int,
        most: int | None = None,
        only_if: tuple[str | None, ...] = (),
    ) -> None:
        """Keep ``then`` at least ``least`` and at most ``most`` behind ``first``."""
        name, offset = first
        ranges = ((least + offset, MOST if most is None else most + offset),)
        self.keep(((then, 1), (name, -1)), ranges, *only_if)

    def interval(
        self,
        start: str | int | Term,
        size: str | int,
        end: str | None = None,
        only_if: str | None = None,
    ) -> str:
        """Add an interval; return the name it was given."""
        name = f"interval {len(self._intervals)}"
        self._intervals.append(
            Interval(name=name, start=start, size=size, end=end, only_if=only_if)
        )
        return name

    def model(self, *, objective: Objective | None, effort: Effort, hint: Reading | None) -> Model:
        """Return the model with this objective; ``hint`` is the plan to start from."""
        told = () if hint is None else tuple((n, hint.value(n, self.told)) for n in self.told)
        return Model(
            effort=effort,
            numbers=tuple(self._numbers),
            booleans=tuple(self._booleans),
            intervals=tuple(self._intervals),
            constraints=tuple(self._constraints),
            objective=objective,
            hints=told,
        )
