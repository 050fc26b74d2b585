"""The last word where the search for an order gives up: the solver, in its own process.

The search of ``relations.settling`` answers nearly everything in milliseconds. Of tangles beyond
its limit (hundreds of 'between' relations over the same hundred steps) the solver is asked once,
with a place in the order for every step and block; answers are kept.
"""

from collections import OrderedDict
from collections.abc import Iterator, Sequence

from armorplan.kernel.errors import SolverLostError
from armorplan.relations.mixing import Choice, Mix
from armorplan.relations.settling import Settled, settle
from armorplan.solving.keeper import SolverKeeper
from armorplan.solving.model import (
    AtLeastOne,
    Constraint,
    Effort,
    Linear,
    Model,
    Number,
    Outcome,
    at_least,
)

MOST_SECONDS = 10.0
"""How long the solver may take over one tangle."""
_KEPT = 64
_answers: OrderedDict[tuple[object, ...], Settled] = OrderedDict()


def decide(
    mixed: Mix, *, first: Sequence[int] = (), order: Sequence[int] | None = None
) -> Settled:
    """Settle the choices of a mix as ``settle`` does; where that gives up, ask the solver.

    Where the solver finds no answer in its time either, the result is undecided still.
    """
    found = settle(mixed, first=first, order=order)
    if found.decided:
        return found
    asked = (mixed.index.firsts, mixed.index.members, mixed.left, mixed.choices, tuple(first))
    if asked not in _answers:
        _answers[asked] = by_solver(mixed, first=first) or found
        if len(_answers) > _KEPT:
            _answers.popitem(last=False)
    return _answers[asked]


def by_solver(mixed: Mix, *, first: Sequence[int] = ()) -> Settled | None:
    """Return what the solver finds; ``None`` where it finds nothing in its time."""
    model = _Laid(mixed, first).model()
    try:
        with SolverKeeper() as keeper:
            answer = keeper.solve(model)
    except SolverLostError:
        return None
    if answer.status is Outcome.NONE:
        made_by = (*mixed.made_by, *(choice.made_by for choice in mixed.choices))
        return Settled(core=frozenset[int]().union(*made_by))
    if not answer.values:
        return None
    place = dict(answer.values)
    todo = [one for one, left in enumerate(mixed.left) if left and one not in first]
    order = (*first, *sorted(todo, key=lambda one: place[_place(one)]))
    active = bytearray(mixed.fixed)
    for number, choice in enumerate(mixed.choices):
        chosen = next(w for w in range(len(choice.ways)) if place[_way(number, w)])
        for at in choice.ways[chosen]:
            active[at] = 1
    return Settled(order=order, active=bytes(active))


def _place(one: int) -> str:
    return f"place {one}"


def _way(choice: int, way: int) -> str:
    return f"choice {choice} way {way}"


class _Laid:
    """A mix in the solver's language: whole numbers for places, of which two may be the same."""

    def __init__(self, mixed: Mix, first: Sequence[int]) -> None:
        self._mix = mixed
        self._first = frozenset(first)
        self._booleans: list[str] = []

    def model(self) -> Model:
        """Return the model; any answer to it is an order."""
        most = len(self._mix.left)
        return Model(
            effort=Effort(seconds=MOST_SECONDS),
            numbers=tuple(
                Number(name=_place(one), ranges=((0, 0) if one in self._first else (1, most),))
                for one, left in enumerate(self._mix.left)
                if left
            ),
            constraints=tuple(self._constraints()),
            booleans=tuple(self._booleans),
        )

    def _constraints(self) -> Iterator[Constraint]:
        for at, counts in enumerate(self._mix.fixed):
            if counts:
                yield from self._kept(at, ())
        for number, choice in enumerate(self._mix.choices):
            yield from self._one_way(number, choice)

    def _one_way(self, number: int, choice: Choice) -> Iterator[Constraint]:
        ways = [_way(number, at) for at in range(len(choice.ways))]
        self._booleans += ways
        yield AtLeastOne(literals=tuple(ways))
        for literal, way in zip(ways, choice.ways, strict=True):
            for at in way:
                yield from self._kept(at, (literal,))

    def _kept(self, clause: int, only_if: tuple[str, ...]) -> Iterator[Constraint]:
        """Yield that a clause is kept: some member stands behind its first."""
        index = self._mix.index
        first, members = index.firsts[clause], index.members[clause]
        literals = [f"clause {clause} by {m}" for m in members] if len(members) > 1 else []
        self._booleans += literals
        if literals:
            unless = [f"~{literal}" for literal in only_if]
            yield AtLeastOne(literals=(*literals, *unless))
        for at, member in enumerate(members):
            yield Linear(
                terms=((_place(member), 1), (_place(first), -1)),
                ranges=at_least(1),
                only_if=(literals[at],) if literals else only_if,
            )
