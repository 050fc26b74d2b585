"""A problem of least effort with its sets as bits of whole numbers, for the searches."""

from collections.abc import Callable, Iterable, Iterator, Sequence

from armorplan.orders.effort_model import (
    EffortProblem,
    Rise,
    Spent,
    in_ticks,
    with_minutes,
)

Worked = tuple[str, str]
"""The tool in hand and the side or opening worked from."""

_Level = tuple[int, int, Worked]
_NOWHERE: Worked = ("", "")


def each_bit(mask: int) -> Iterator[int]:
    """Yield the places of the bits of a number, the lowest first."""
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


class EffortBits:
    """What each atom costs after a set of others, and which may come last of a set.

    Raises KeyError where a relation or a rise names an atom that the problem does not hold.
    """

    def __init__(self, problem: EffortProblem) -> None:
        self.problem = problem
        self.ids = tuple(atom.id for atom in problem.atoms)
        self.number = {one: at for at, one in enumerate(self.ids)}
        self.everything = (1 << len(self.ids)) - 1
        self.base = [in_ticks(atom.minutes) for atom in problem.atoms]
        self.followers = [0] * len(self.ids)
        for first, then in problem.before:
            self.followers[self.number[first]] |= 1 << self.number[then]
        self.all_of: list[list[int]] = [[] for _ in self.ids]
        for first, of in problem.before_all:
            self.all_of[self.number[first]].append(self.mask(of))
        self._levels = [self._levels_of(one) for one in _by_atom(problem, self.ids)]
        self._touched = [
            _union(level[0] for g in groups for level in g) for groups in self._levels
        ]
        self._known: list[dict[int, tuple[int, Worked]]] = [{} for _ in self.ids]
        self._tool_ticks = in_ticks(problem.tool_change_min)
        self._turn_ticks = in_ticks(problem.turn_over_min)

    def mask(self, atoms: Iterable[str]) -> int:
        """Return a set of atoms as bits."""
        return _union(1 << self.number[one] for one in atoms)

    def dearer(self, atom: int, done: int) -> int:
        """Return the hundredths of a minute an atom takes more, after these."""
        return self._state(atom, done)[0]

    def worked(self, atom: int, done: int) -> Worked:
        """Return with which tool and from where an atom is worked, after these."""
        return self._state(atom, done)[1]

    def may_be_last(self, atom: int, of: int) -> bool:
        """Tell whether an atom may be the last of a set that comes first."""
        return not self.followers[atom] & of and all(mask & ~of for mask in self.all_of[atom])

    def change(self, last: Worked, now: Worked) -> int:
        """Return the hundredths that a change of tool and turning over take."""
        return self._tool_ticks * _other(last[0], now[0]) + self._turn_ticks * _other(
            last[1], now[1]
        )

    def bound(self) -> int:
        """Return hundredths of extra work that no order saves: what must come before makes it so."""
        ahead = [0] * len(self.ids)
        for first, followers in enumerate(self.followers):
            for then in each_bit(followers):
                ahead[then] |= 1 << first
        return sum(self.dearer(at, ahead[at]) for at in range(len(self.ids)))

    def change_bound(self) -> int:
        """Return hundredths for tools and turning that no order saves."""
        tools, ways = set[str](), set[str]()
        for at, groups in enumerate(self._levels):
            met = {level[2] for group in groups for level in group} | {self._first(at)}
            tools |= _only({tool for tool, _ in met})
            ways |= _only({way for _, way in met})
        return self._tool_ticks * max(0, len(tools) - 1) + self._turn_ticks * max(0, len(ways) - 1)

    def keeps(self, order: Sequence[int]) -> bool:
        """Tell whether an order keeps the hard relations."""
        done = 0
        for at in order:
            done |= 1 << at
            if not self.may_be_last(at, done):
                return False
        return True

    def extras(self, order: Sequence[int]) -> list[int]:
        """Return by place in an order the hundredths its atom takes more there."""
        done, found = 0, []
        for at in order:
            found.append(self.dearer(at, done))
            done |= 1 << at
        return found

    def changes(self, order: Sequence[int]) -> int:
        """Return the hundredths an order takes for tools and turning over."""
        done, last, found = 0, _NOWHERE, 0
        for at in order:
            now = self.worked(at, done)
            found += self.change(last, now)
            last = after(last, now)
            done |= 1 << at
        return found

    def spent(self, order: Sequence[int]) -> Spent:
        """Return what an order takes."""
        ticks = [self.base[a] + x for a, x in zip(order, self.extras(order), strict=True)]
        return with_minutes(
            [self.ids[at] for at in order], ticks, change_ticks=self.changes(order)
        )

    def levels(self, atom: int) -> list[list[_Level]]:
        """Return the rises of an atom by why: (bits, hundredths, worked), the dearest first."""
        return self._levels[atom]

    def _first(self, atom: int) -> Worked:
        one = self.problem.atoms[atom]
        return one.tool, one.way

    def _state(self, atom: int, done: int) -> tuple[int, Worked]:
        met = done & self._touched[atom]
        found = self._known[atom].get(met)
        if found is None:
            found = self._known[atom][met] = self._reckon(atom, met)
        return found

    def _reckon(self, atom: int, done: int) -> tuple[int, Worked]:
        ticks, worked, most = 0, self._first(atom), -1
        for group in self._levels[atom]:
            level = next((one for one in group if not one[0] & ~done), None)
            if level is None:
                continue
            ticks += level[1]
            if level[2] != _NOWHERE and level[1] > most:
                worked, most = level[2], level[1]
        return ticks, worked

    def _levels_of(self, rises: Iterable[Rise]) -> list[list[_Level]]:
        groups: dict[str, list[_Level]] = {}
        for rise in rises:
            level = (self.mask(rise.after), in_ticks(rise.minutes), (rise.tool, rise.way))
            groups.setdefault(rise.why, []).append(level)
        # Of equally dear ones that with more behind it: it is the later state.
        for group in groups.values():
            group.sort(key=lambda one: (-one[1], -one[0].bit_count(), one[0]))
        return [groups[why] for why in sorted(groups)]


def after(last: Worked, now: Worked) -> Worked:
    """Return what is in hand after an atom: where any tool serves, the last stays in hand."""
    return now[0] or last[0], now[1] or last[1]


def cost_of(problem: EffortProblem) -> Callable[[Sequence[str]], Spent]:
    """Return a function that tells what any order of the atoms takes, kept relations or not."""
    bits = EffortBits(problem)
    return lambda order: bits.spent([bits.number[one] for one in order])


def _by_atom(problem: EffortProblem, ids: Sequence[str]) -> list[list[Rise]]:
    found: dict[str, list[Rise]] = {one: [] for one in ids}
    for rise in problem.rises:
        found[rise.atom].append(rise)
    return [found[one] for one in ids]


def _other(last: str, now: str) -> bool:
    return bool(last and now and last != now)


def _only(met: set[str]) -> set[str]:
    return met if len(met) == 1 and "" not in met else set()


def _union(masks: Iterable[int]) -> int:
    found = 0
    for mask in masks:
        found |= mask
    return found
