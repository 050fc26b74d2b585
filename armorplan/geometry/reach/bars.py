"""Which rows, once they are done, leave a joint harder to set or out of reach.

A way in through a row stands open until the row is done, so each row that lets a tool in well
enough has to be done before a joint gets that hard: they are in every blocking set. What is left
to find is which further rows give its plates a shape; only that takes a search, and only among the
rows nearest to it.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.blocking import Atoms, minimal_sets
from armorplan.geometry.reach.margins import FLAT, Gauge, Offer, best_of, gauges
from armorplan.geometry.reach.model import Margin, ReachNet, Standing, Through, Way

MOST_SETS = 12
"""So many ways to give plates a shape are told apart; more say nothing new to a maker."""
NEAREST = 16
"""A shape is sought among so many rows nearest to a joint, where they suffice to give one."""
BELOW, ABOVE = "<", ">"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A joint that is harder to set, or cannot be, once all of some rows are done.

    Attributes:
        rows: ids of rows of its shell; without any one of them it is easier.
        own: joints of its own row that have to be made too; none in the bars by other rows.
        before: how it is set with none of them done.
        after: how it is set once they all are, and nothing else.
    """

    joint: str
    rows: frozenset[str]
    before: Margin
    after: Margin
    own: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class ShellBars:
    """The bars in one shell; ``cut_short``: joints of which not all bars are known."""

    bars: tuple[Bar, ...]
    cut_short: frozenset[str]


@dataclass(frozen=True, slots=True)
class _Atom:
    """What closes at once: another row, or a side of the joint's own; open, it offers ways in."""

    id: str
    offers: tuple[Offer, ...]
    own: frozenset[str] = frozenset()


def bars(net: ReachNet, bench: Bench) -> tuple[Bar, ...]:
    """Return by which other rows joints are barred, for each rise of standing, joint by joint.

    Of its own row only the joint itself is made.
    """
    return tuple(bar for found in shell_bars(net, bench).values() for bar in found.bars)


def own_row_bars(net: ReachNet, bench: Bench) -> tuple[Bar, ...]:
    """Return the bars that a side of the joint's own row takes part in, with other rows or alone."""
    found = []
    for _, gauge in sorted(gauges(net, bench).items()):
        search = _Search(gauge, bench)
        for joint in sorted(gauge.places):
            found += [bar for bar in search.of(joint, by_sides=True) if bar.own]
    return tuple(found)


def shell_bars(net: ReachNet, bench: Bench) -> Mapping[str, ShellBars]:
    """Return the bars by other rows, by shell; a shell that an edit left as it was is not redone."""
    return {
        id_: _bars_in(_Known(gauge, bench)) for id_, gauge in sorted(gauges(net, bench).items())
    }


class _Known:
    """All that the bars of a shell follow from, compared by value, told apart quickly."""

    __slots__ = ("bench", "facts", "gauge")

    def __init__(self, gauge: Gauge, bench: Bench) -> None:
        self.gauge, self.bench = gauge, bench
        shell = gauge.shell
        joints = _joints(gauge)
        self.facts = (
            (shell.id, shell.parts, len(joints)),
            (shell.rows, shell.rims, shell.formed, shell.hollow),
            tuple(gauge.access[joint] for joint in joints),
            tuple((bench.tools.get(joint, ()), bench.squash(joint)) for joint in joints),
            (bench.row_gape, bench.hand_depth_mm),
            (bench.curved_effort, bench.inside_effort, bench.end_effort),
        )

    def __hash__(self) -> int:
        return hash(self.facts[0])

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Known) and self.facts == other.facts


def _joints(gauge: Gauge) -> list[str]:
    id_ = gauge.shell.id
    return sorted(joint for joint in _all_joints(gauge) if gauge.access[joint].shell == id_)


def _all_joints(gauge: Gauge) -> set[str]:
    return {joint for joint in {*gauge.places, *gauge.shell.seats} if joint in gauge.access}


@lru_cache(maxsize=64)
def _bars_in(known: _Known) -> ShellBars:
    search = _Search(known.gauge, known.bench)
    found = [bar for joint in _joints(known.gauge) for bar in search.of(joint, by_sides=False)]
    return ShellBars(bars=tuple(found), cut_short=frozenset(search.cut_short))


class _Search:
    """The search for the bars of a shell's joints."""

    __slots__ = ("_bench", "_gauge", "_shapes", "cut_short")

    def __init__(self, gauge: Gauge, bench: Bench) -> None:
        self._gauge, self._bench = gauge, bench
        self._shapes: dict[tuple[tuple[str, ...], str, Atoms], tuple[tuple[Atoms, ...], bool]] = {}
        self.cut_short: set[str] = set()

    def of(self, joint: str, *, by_sides: bool) -> Iterator[Bar]:
        """Yield the bars of a joint, the sets of the lowest rise first."""
        gauge = self._gauge
        parts, own = gauge.parts(joint), gauge.places.get(joint, ("", 0.0))[0]
        every = frozenset(gauge.rows)
        if not gauge.hanging.is_shaped(parts, every):
            return
        steady, atoms = self._split(joint, by_sides=by_sides)
        offers = {atom.id: atom.offers for atom in atoms}

        def shaped(done: Atoms) -> Margin:
            open_ = (offer for id_, each in offers.items() if id_ not in done for offer in each)
            return best_of((*steady, *open_), joint, self._bench, hollow=gauge.shell.hollow)

        bent = gauge.hanging.is_shaped(parts, {own})
        before = shaped(frozenset()) if bent else FLAT
        least = {atom.id: self._standing(atom.offers, joint) for atom in atoms}
        worst = self._standing(steady, joint)
        known: set[Atoms] = set()
        for level in list(Standing)[before.standing + 1 : worst + 1]:
            needed = frozenset(id_ for id_, standing in least.items() if standing < level)
            for done in self._shaping(joint, parts, (own, needed)):
                if done not in known:
                    known.add(done)
                    yield self._bar(joint, done, atoms, (before, shaped(done)))

    def _standing(self, offers: Sequence[Offer], joint: str) -> Standing:
        found = best_of(offers, joint, self._bench, hollow=self._gauge.shell.hollow)
        return found.standing

    def _bar(
        self, joint: str, done: Atoms, atoms: Sequence[_Atom], margins: tuple[Margin, Margin]
    ) -> Bar:
        sides = {atom.id: atom.own for atom in atoms if atom.own}
        return Bar(
            joint=joint,
            rows=frozenset(done - sides.keys()),
            own=frozenset(each for id_ in done & sides.keys() for each in sides[id_]),
            before=margins[0],
            after=margins[1],
        )

    def _split(self, joint: str, *, by_sides: bool) -> tuple[tuple[Offer, ...], list[_Atom]]:
        """Return the ways that other rows leave as they are, and what can be closed."""
        gauge = self._gauge
        own, at_mm = gauge.places.get(joint, ("", 0.0))
        steady: list[Offer] = []
        open_: dict[str, list[Offer]] = {}
        begun = {own: (at_mm,)} if own else {}
        for way in gauge.ways(joint):
            offer = (way, gauge.opening_mm(way, begun))
            row, side = _where(gauge, way, at_mm)
            if way.through is Through.RIM or (row == own and not by_sides):
                steady.append(offer)
            else:
                open_.setdefault(own + side if row == own else row, []).append(offer)
        atoms = [_Atom(id_, _telling(o)) for id_, o in open_.items() if id_ in gauge.rows]
        for side, joints in _sides(gauge, own, at_mm).items() if by_sides else ():
            if joints:
                atoms.append(_Atom(own + side, tuple(open_.get(own + side, ())), joints))
        return tuple(steady), atoms

    def _shaping(
        self, joint: str, parts: tuple[str, ...], done: tuple[str, Atoms]
    ) -> Iterator[Atoms]:
        """Yield the sets that hold all rows needed, and shape the plates, with nothing to spare."""
        own, needed = done
        key = (parts, own, needed)
        if key not in self._shapes:
            self._shapes[key] = self._shaping_sets(parts, needed, own)
        sets, complete = self._shapes[key]
        if not complete:
            self.cut_short.add(joint)
        for more in sets:
            yield needed | more

    def _shaping_sets(
        self, parts: Iterable[str], needed: Atoms, own: str
    ) -> tuple[tuple[Atoms, ...], bool]:
        hanging, given = self._gauge.hanging, needed | {own}
        near = [row for row in hanging.nearest_first(parts) if row not in given]
        some = near[:NEAREST]
        while not hanging.is_shaped(parts, given | frozenset(some)):
            some = near[: 2 * len(some)]
        found = minimal_sets(
            reversed(some), lambda more: hanging.is_shaped(parts, given | more), most=MOST_SETS
        )
        bent_at_once = found.sets == (frozenset(),)
        return found.sets, found.complete and (bent_at_once or len(some) == len(near))


def _where(gauge: Gauge, way: Way, at_mm: float) -> tuple[str, str]:
    """Return the row a way goes in through, and on which side of a place along it."""
    if way.through is Through.RIM:
        return "", ""
    row, there_mm = gauge.places[way.name]
    return row, BELOW if there_mm < at_mm else ABOVE


def _sides(gauge: Gauge, row: str, at_mm: float) -> dict[str, frozenset[str]]:
    """Return the joints on either side of a place along a row."""
    if not row:
        return {}
    along = list(zip(gauge.rows[row].joints, gauge.rows[row].at_mm, strict=True))
    return {
        BELOW: frozenset(joint for joint, there_mm in along if there_mm < at_mm),
        ABOVE: frozenset(joint for joint, there_mm in along if there_mm > at_mm),
    }


def _telling(offers: Sequence[Offer]) -> tuple[Offer, ...]:
    """Return of the ways through an open row, which admits all tools, the shortest by each bound."""
    shortest = min(offers, key=lambda offer: offer[0].along_mm)
    least = min(offers, key=lambda offer: offer[0].least_mm)
    return (shortest,) if least is shortest else (shortest, least)
