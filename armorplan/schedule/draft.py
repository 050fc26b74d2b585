"""A model while it is being written."""

from armorplan.solving.model import (
    MOST,
    Constraint,
    Effort,
    Interval,
    Linear,
    Model,
    Number,
    Objective,
    Range,
    Term,
)


class Draft:
    """Collects variables and constraints, and names the intervals."""

    def __init__(self) -> None:
        self.booleans: list[str] = []
        self._numbers: list[Number] = []
        self._intervals: list[Interval] = []
        self._constraints: list[Constraint] = []

    def copy(self) -> "Draft":
        """Return one that can be added to without touching this one."""
        other = Draft()
        other.booleans = [*self.booleans]
        other._numbers = [*self._numbers]
        other._intervals = [*self._intervals]
        other._constraints = [*self._constraints]
        return other

    def number(self, name: str, ranges: tuple[Range, ...]) -> str:
        """Add a variable; return its name."""
        self._numbers.append(Number(name=name, ranges=ranges))
        return name

    def need(self, constraint: Constraint) -> None:
        """Add a constraint."""
        self._constraints.append(constraint)

    def gap(
        self,
        first: str,
        then: str,
        *,
        least: int,
        most: int | None = None,
        only_if: tuple[str, ...] = (),
    ) -> None:
        """Keep ``then`` at least ``least`` and at most ``most`` above ``first``."""
        ranges = ((least, MOST if most is None else most),)
        self.need(Linear(terms=((then, 1), (first, -1)), ranges=ranges, only_if=only_if))

    def interval(
        self, start: str | int, size: str | int, end: str | None = None, only_if: str | None = None
    ) -> str:
        """Add an interval; return the name it was given."""
        name = f"interval {len(self._intervals)}"
        self._intervals.append(
            Interval(name=name, start=start, size=size, end=end, only_if=only_if)
        )
        return name

    def model(
        self, *, objective: Objective | None, effort: Effort, hints: tuple[Term, ...]
    ) -> Model:
        """Return the model with this objective."""
        return Model(
            effort=effort,
            numbers=tuple(self._numbers),
            booleans=tuple(self.booleans),
            intervals=tuple(self._intervals),
            constraints=tuple(self._constraints),
            objective=objective,
            hints=hints,
        )
