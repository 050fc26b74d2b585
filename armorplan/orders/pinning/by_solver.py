"""The fewest rounds by CP-SAT: a model of rounds that are used or not, with its bound."""

from collections.abc import Iterator
from itertools import pairwise

from armorplan.orders.effort_solver import Solve
from armorplan.orders.pinning.greedy import Laid
from armorplan.orders.pinning.model import PinProblem
from armorplan.solving.model import (
    AtLeastOne,
    Constraint,
    Effort,
    Least,
    Linear,
    Model,
    Number,
    Term,
    at_least,
    at_most,
    opposite,
)

MOST_SECONDS = 5.0
"""How long the solver may look for fewer rounds of one fit."""


def by_solver(
    problem: PinProblem, start: Laid, bound: int, solve: Solve, *, seconds: float = MOST_SECONDS
) -> tuple[Laid, int]:
    """Return the better of ``start`` and what the solver found, and a bound on the rounds."""
    answer = solve(_Laid(problem, start, bound).model(seconds))
    bound = max(bound, answer.bound or 0)
    on = {name for name, value in answer.values if value}
    found = tuple(
        tuple(seam.id for seam in problem.seams if _on(at, seam.id) in on)
        for at in range(len(start))
        if _used(at) in on
    )
    return (found if found and len(found) < len(start) else start), bound


def _used(at: int) -> str:
    return f"round {at}"


def _on(at: int, seam: str) -> str:
    return f"{seam} in {at}"


class _Laid:
    """A problem in the solver's language: as many rounds as are known, each used or not."""

    def __init__(self, problem: PinProblem, start: Laid, bound: int) -> None:
        self._problem, self._start, self._bound = problem, start, bound
        self._rounds = range(len(start))
        self._whole: list[str] = []
        self._numbers: list[Number] = []

    def model(self, seconds: float) -> Model:
        """Return the model: which seams are on in which round, and the pins that takes."""
        constraints = [*self._seen(), *self._used_first(), *self._pins()]
        seams = [seam.id for seam in self._problem.seams]
        return Model(
            effort=Effort(seconds=seconds, work=seconds),
            numbers=tuple(self._numbers),
            booleans=(
                *map(_used, self._rounds),
                *(_on(at, seam) for at in self._rounds for seam in seams),
                *self._whole,
            ),
            constraints=tuple(constraints),
            objective=Least(terms=tuple((_used(at), 1) for at in self._rounds)),
            hints=tuple(self._hints(seams)),
        )

    def _hints(self, seams: list[str]) -> Iterator[Term]:
        for at, on in enumerate(self._start):
            yield _used(at), 1
            for seam in seams:
                yield _on(at, seam), int(seam in on)

    def _seen(self) -> Iterator[Constraint]:
        """Every seam is on in some round, and every group is in one together."""
        for seam in self._problem.seams:
            yield AtLeastOne(literals=tuple(_on(at, seam.id) for at in self._rounds))
        for group in self._problem.together:
            names = [f"{' with '.join(group)} in {at}" for at in self._rounds]
            self._whole += names
            yield AtLeastOne(literals=tuple(names))
            for at, whole in zip(self._rounds, names, strict=True):
                for member in group:
                    yield AtLeastOne(literals=(opposite(whole), _on(at, member)))

    def _used_first(self) -> Iterator[Constraint]:
        """Rounds are used from the first on, and no fewer of them than is known to be needed."""
        for at, then in pairwise(self._rounds):
            yield AtLeastOne(literals=(_used(at), opposite(_used(then))))
        yield from (AtLeastOne(literals=(_used(at),)) for at in range(self._bound))
        for at in self._rounds:
            for seam in self._problem.seams:
                yield AtLeastOne(literals=(opposite(_on(at, seam.id)), _used(at)))

    def _pins(self) -> Iterator[Constraint]:
        stock = self._problem.stock
        for at in self._rounds:
            if stock.most is not None:
                every = ((_on(at, s.id), len(s.spots)) for s in self._problem.seams)
                yield Linear(terms=tuple(every), ranges=at_most(stock.most))
            yield from self._by_kind(at)

    def _by_kind(self, at: int) -> Iterator[Constraint]:
        """Joints that take the same kinds share them out; no kind is given out beyond its count."""
        given: dict[str, list[str]] = {}
        for kinds, needs in self._alike().items():
            most = sum(needs.values())
            names = [f"{kind} for {'/'.join(kinds)} in {at}" for kind in kinds]
            self._numbers += [Number(name=name, ranges=((0, most),)) for name in names]
            for kind, name in zip(kinds, names, strict=True):
                given.setdefault(kind, []).append(name)
            terms = (*((name, 1) for name in names), *((_on(at, s), -n) for s, n in needs.items()))
            yield Linear(terms=terms, ranges=at_least(0))
        for kind, names in given.items():
            count = self._problem.stock.counts.get(kind, 0)
            if count is not None:
                yield Linear(terms=tuple((name, 1) for name in names), ranges=at_most(count))

    def _alike(self) -> dict[tuple[str, ...], dict[str, int]]:
        """Return by the kinds that enter them how many joints each seam has of them."""
        found: dict[tuple[str, ...], dict[str, int]] = {}
        for seam in self._problem.seams:
            for spot in seam.spots:
                needs = found.setdefault(spot.kinds, {})
                needs[seam.id] = needs.get(seam.id, 0) + 1
        return found
