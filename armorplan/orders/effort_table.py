"""From what an atom costs after any set of others to its table of rises.

What it costs only grows with the set. So the dearest state is reached by some smallest set, and
every other state lacks one atom of that set: the same is asked again without each of them.
"""

from collections import deque
from collections.abc import Callable, Sequence
from typing import NamedTuple

from armorplan.geometry.reach.blocking import shrunk
from armorplan.orders.effort_model import Rise, in_ticks

MOST_ASKED, MOST_LOOKS = 64, 300
"""So many states of one atom are looked into, with so many looks; beyond, the table is on the low
side."""

Done = frozenset[str]


class State(NamedTuple):
    """What an atom costs in a state: minutes in all, and with which tool from where."""

    minutes: float
    tool: str = ""
    way: str = ""


class Table(NamedTuple):
    """The rises of an atom; ``complete``: no state costs more than they say."""

    rises: tuple[Rise, ...]
    complete: bool


def rises_of(
    atom: str, others: Sequence[str], state: Callable[[Done], State], *, why: str = ""
) -> Table:
    """Return the rises of an atom, so that the table says of every state what ``state`` does.

    Args:
        atom: id of the atom.
        others: the atoms that may matter, those that matter most last.
        state: what the atom costs after a set of others; with a larger set never less.
        why: given to each rise.
    """
    base = in_ticks(state(frozenset()).minutes)
    todo, seen, rises = deque([frozenset(others)]), {frozenset(others)}, dict[Done, Rise]()
    asked = 0
    looks = 0

    def counted(done: Done) -> State:
        nonlocal looks
        looks += 1
        return state(done)

    while todo and asked < MOST_ASKED and looks < MOST_LOOKS:
        most, asked = todo.popleft(), asked + 1
        found = state(most)
        if in_ticks(found.minutes) <= base:
            continue
        least = _least([one for one in others if one in most], in_ticks(found.minutes), counted)
        more = (in_ticks(found.minutes) - base) / 100
        at_least = state(least)
        rises[least] = Rise(
            atom=atom, after=least, minutes=more, tool=at_least.tool, way=at_least.way, why=why
        )
        for one in sorted(least):
            rest = most - {one}
            if rest not in seen:
                seen.add(rest)
                todo.append(rest)
    return Table(tuple(rises.values()), not todo)


def _least(atoms: Sequence[str], ticks: int, state: Callable[[Done], State]) -> Done:
    """Return a smallest set among atoms after which the atom costs as much as after all."""
    return shrunk(atoms, lambda left: in_ticks(state(left).minutes) >= ticks)
