"""Which rows, once they are done, leave a joint harder to set or out of reach.

A way in through a row stands open until the row is done, so each row that lets a tool in well
enough has to be done before a joint gets that hard: they are in every blocking set. Only which
further rows give its plates a shape takes a search, among the rows nearest to it. Rows that shut
its plates round make it work from inside, whatever stands open.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import inf

from armorplan.geometry.reach.bar_atoms import (
    ABOVE,
    BELOW,
    Atom,
    is_wide,
    shortest,
    sides,
    standing_wide,
    telling,
)
from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.blocking import Atoms
from armorplan.geometry.reach.known import Known, joints_of
from armorplan.geometry.reach.margins import FLAT, Gauge, Offer, best_of, gauges, standing_of
from armorplan.geometry.reach.model import Margin, ReachNet, Standing, Way
from armorplan.geometry.reach.row_sets import row_sets

MOST_TOLD = 4
"""Of what only makes a joint harder, so many sets of rows are told: the dearest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A joint that is harder to set, or cannot be, once all of some rows are done.

    Attributes:
        rows: ids of rows of its shell; without any one of them it is easier.
        own: joints of its own row that have to be made too; none in the bars by other rows.
        more: joints of further rows of which others may stay open; none in the bars by whole rows.
        before: how it is set with none of them done.
        after: how it is set once they all are, and nothing else.
    """

    joint: str
    rows: frozenset[str]
    before: Margin
    after: Margin
    own: frozenset[str] = frozenset()
    more: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class ShellBars:
    """The bars in one shell; ``cut_short``: joints of which not all bars are known."""

    bars: tuple[Bar, ...]
    cut_short: frozenset[str]


def bars(net: ReachNet, bench: Bench) -> tuple[Bar, ...]:
    """Return by which other rows joints are barred, for each rise of standing, joint by joint.

    Of its own row only the joint itself is made.
    """
    return tuple(bar for found in shell_bars(net, bench).values() for bar in found.bars)


def own_row_bars(net: ReachNet, bench: Bench) -> tuple[Bar, ...]:
    """Return the bars that a side of the joint's own row takes part in, with other rows or alone."""
    every = sorted(gauges(net, bench).items())
    return tuple(bar for _, gauge in every for bar in _own_bars_in(Known(gauge, bench)))


def shell_bars(net: ReachNet, bench: Bench) -> Mapping[str, ShellBars]:
    """Return the bars by other rows, by shell; a shell that an edit left as it was is not redone."""
    return {
        id_: _bars_in(Known(gauge, bench)) for id_, gauge in sorted(gauges(net, bench).items())
    }


@lru_cache(maxsize=1)
def _search(known: Known) -> "_Search":
    return _Search(known.gauge, known.bench)


@lru_cache(maxsize=1024)
def _bars_in(known: Known) -> ShellBars:
    search, told, cut_short = _search(known), list[Bar](), set[str]()
    for joint in joints_of(known.gauge):
        found = list(_held(known.gauge, search.of(joint, by_sides=False)))
        dearest = list(_dearest(found))
        told += dearest
        if len(dearest) < len(found) or joint in search.cut_short:
            cut_short.add(joint)
    return ShellBars(bars=tuple(told), cut_short=frozenset(cut_short))


@lru_cache(maxsize=1024)
def _own_bars_in(known: Known) -> tuple[Bar, ...]:
    search = _search(known)
    told = list[Bar]()
    for joint in joints_of(known.gauge):
        if joint in known.gauge.places:
            found = (bar for bar in search.of(joint, by_sides=True) if bar.own)
            told += _dearest(list(_held(known.gauge, found)))
    return tuple(told)


def _dearest(found: Sequence[Bar]) -> Iterator[Bar]:
    """Yield all that leaves a joint out of reach, and of what only makes it harder the dearest sets."""
    harder = [bar for bar in found if bar.after.standing is not Standing.CANNOT]
    harder.sort(key=lambda bar: (-bar.after.effort, len(bar.rows | bar.own)))
    left_out = {id(bar) for bar in harder[MOST_TOLD:]}
    return (bar for bar in found if id(bar) not in left_out)


def _held(gauge: Gauge, found: Iterable[Bar]) -> Iterator[Bar]:
    """Yield the bars that hold of a joint alone.

    They are sought as if its own row, once it is made, held all plates of the row together; where
    a row goes on over several plates it holds only those that it passes.
    """
    spanning = {joint for row in gauge.rows.values() if row.spans for joint in row.joints}
    for bar in found:
        if bar.joint in spanning:
            made = bar.own.union(*(gauge.rows[row].joints for row in bar.rows))
            if gauge.margin(bar.joint, made).standing < bar.after.standing:
                continue
        yield bar


class _Search:
    """The search for the bars of a shell's joints."""

    __slots__ = (
        "_bench",
        "_ever",
        "_gauge",
        "_sets",
        "cut_short",
    )

    def __init__(self, gauge: Gauge, bench: Bench) -> None:
        self._gauge, self._bench = gauge, bench
        self._sets = row_sets(gauge.shell)
        self._ever: dict[tuple[str, ...], bool] = {}
        self.cut_short: set[str] = set()

    def of(self, joint: str, *, by_sides: bool) -> Iterator[Bar]:
        """Yield the bars of a joint, the sets of the lowest rise first."""
        gauge = self._gauge
        parts, own = gauge.parts(joint), gauge.places.get(joint, ("", 0.0))[0]
        shut = self._shutting(joint, (parts, own), few=True)
        if not shut and not self._ever_shaped(parts):
            return
        steady, atoms = self._split(joint, by_sides=by_sides)
        offers = {atom.id: atom.offers for atom in atoms}

        def shaped(done: Atoms) -> Margin:
            open_ = [offer for id_, each in offers.items() if id_ not in done for offer in each]
            all_, inside = (*steady, *telling(open_)), gauge.hanging.is_enclosed(parts, done)
            hollow = gauge.shell.hollow
            return best_of(all_, joint, self._bench, hollow=hollow, enclosed=inside)

        bent = gauge.hanging.is_shaped(parts, {own})
        before = shaped(frozenset()) if bent else FLAT
        least = self._least(atoms, joint)
        opened = self._standing(steady, joint)
        inside = Standing.INSIDE if shut and self._bench.tools.get(joint) else opened
        known: set[Atoms] = set()
        for level in list(Standing)[before.standing + 1 : max(opened, inside) + 1]:
            needed = frozenset(id_ for id_, standing in least.items() if standing < level)
            if by_sides and not any(atom.own and atom.id in needed for atom in atoms):
                continue
            few = level is not Standing.CANNOT
            more = frozenset[str]() if level <= Standing.INSIDE else needed
            shut_by = shut if few else self._shutting(joint, (parts, own), few=False)
            shaped_by = self._shaping(joint, (parts, own), needed, few=few)
            bent_by = shaped_by if level <= opened else ()
            for done in _minimal((*bent_by, *(rows | more for rows in shut_by))):
                if done not in known:
                    known.add(done)
                    yield self._bar(joint, done, atoms, (before, shaped(done)))

    def _ever_shaped(self, parts: tuple[str, ...]) -> bool:
        if parts not in self._ever:
            self._ever[parts] = self._gauge.hanging.is_shaped(parts, self._gauge.rows.keys())
        return self._ever[parts]

    def _standing(self, offers: Sequence[Offer], joint: str) -> Standing:
        return standing_of(offers, joint, self._bench, hollow=self._gauge.shell.hollow)

    def _least(self, atoms: Sequence[Atom], joint: str) -> dict[str, Standing]:
        """Return by row (or side) how it lets a joint be set while it stands open."""
        shut = self._standing((), joint)
        return {
            atom.id: standing_wide(atom.offers, joint, self._bench, shut=shut)
            if is_wide(atom.offers)
            else self._standing(atom.offers, joint)
            for atom in atoms
        }

    def _bar(
        self, joint: str, done: Atoms, atoms: Sequence[Atom], margins: tuple[Margin, Margin]
    ) -> Bar:
        beside = {atom.id: atom.own for atom in atoms if atom.own}
        return Bar(
            joint=joint,
            rows=frozenset(done - beside.keys()),
            own=frozenset(each for id_ in done & beside.keys() for each in beside[id_]),
            before=margins[0],
            after=margins[1],
        )

    def _split(self, joint: str, *, by_sides: bool) -> tuple[tuple[Offer, ...], list[Atom]]:
        """Return the ways that other rows leave as they are, and what can be closed."""
        gauge = self._gauge
        own, at_mm = gauge.places.get(joint, ("", 0.0))
        kept = [way for way in gauge.ways(joint) if not way.row or way.row == own]
        begun = {own: (at_mm,)}
        offers = [(way, gauge.opening_mm(way, begun)) for way in kept]
        atoms = [
            Atom(row, tuple((way, inf) for way in telling))
            for row, telling in shortest(gauge.ways(joint), own).items()
        ]
        left = [(way, gauge.left_mm(way)) for way in gauge.ways(joint) if way.gap]
        if not own or not by_sides:
            more = (offer for offer in left if offer[0].row != own)
            return (*offers, *more), atoms
        steady = (*(offer for offer in offers if not offer[0].row), *left)
        for side, joints in sides(gauge.rows[own], at_mm).items():
            beside = tuple(offer for offer in offers if self._side(offer[0], at_mm) == side)
            atoms.append(Atom(own + side, beside, joints))
        return steady, atoms

    def _side(self, way: Way, at_mm: float) -> str:
        """Return on which side of a place along its row a way in lies; empty of a mouth."""
        if not way.row:
            return ""
        return BELOW if self._gauge.places[way.name][1] < at_mm else ABOVE

    def _shaping(
        self, joint: str, placed: tuple[tuple[str, ...], str], needed: Atoms, *, few: bool
    ) -> Iterator[Atoms]:
        """Yield the sets that hold all rows needed, and shape the plates, with nothing to spare."""
        parts, own = placed
        if not self._ever_shaped(parts):
            return
        sets, complete = self._sets.shaping(parts, needed | {own}, few=few)
        if not complete:
            self.cut_short.add(joint)
        for more in sets:
            yield needed | more

    def _shutting(
        self, joint: str, placed: tuple[tuple[str, ...], str], *, few: bool
    ) -> tuple[Atoms, ...]:
        """Return the sets of other rows that shut the plates round, with nothing to spare."""
        sets, complete = self._sets.shutting(*placed, few=few)
        if not complete:
            self.cut_short.add(joint)
        return sets


def _minimal(sets: Iterable[Atoms]) -> Iterator[Atoms]:
    """Yield the sets that hold no other of them."""
    every = list(dict.fromkeys(sets))
    return (one for one in every if not any(other < one for other in every))
