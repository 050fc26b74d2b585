"""Which orders by reach would turn out otherwise if a tool or a number of the bench were a fifth off.

What holds either way is firm. What flips rests on a number that was guessed: measure that one.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache
from typing import NamedTuple

from armorplan.geometry.reach.bars import bars, own_row_bars
from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.ends import shut_in
from armorplan.geometry.reach.firm_naming import before_words, title_of
from armorplan.geometry.reach.gathered import Reach, reach_of
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import ReachNet, Row, Standing
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf, ToolEntry

SHARE = 0.2
"""So far each number is moved, up and down, as a share of itself."""
_KEPT = 16
_LEAST_EFFORT = 0.06
"""Within a row, what takes less than so many times the flat bench longer costs seconds."""


class Holds(StrEnum):
    """How an order by reach holds, the strongest first."""

    CANNOT = "cannot"
    EASIER = "easier"
    NOT = "not at all"
    BARRED = "out of reach either way"
    END = "at the end of reach either way"
    ALIKE = "alike either way"


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """A number that orders by reach rest on.

    Attributes:
        id: of a tool, or the name of a constant: ``row_gape``, ``squash``.
        name: what it is, in words.
        value: as it is reckoned with; ``unit`` is ``mm``, or empty for a multiple.
    """

    id: str
    name: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Flip:
    """An order that holds otherwise where one number is changed.

    Attributes:
        joint: plain id of the joint that comes before the last of ``rows`` and of ``own``.
        rows: ids of rows, and ``names`` in words, sorted by id.
        own: plain ids of joints of its own row, in the row's order.
        when: what it comes before, in words: ``the last of long row``.
        title: the joint by its place in its row; empty where it lies in none.
        changed: what the number is changed to.
        now: how it holds with the number as it is; ``then``: with the number changed.
    """

    joint: str
    rows: tuple[str, ...]
    names: tuple[str, ...]
    own: tuple[str, ...]
    when: str
    title: str
    number: Number
    changed: float
    now: Holds
    then: Holds

    @property
    def binds(self) -> bool:
        """Tell whether it binds either now or then."""
        return Holds.CANNOT in (self.now, self.then)


_Order = tuple[str, tuple[str, ...], tuple[str, ...]]
Runs = Mapping[str, tuple[str, ...]]


def firmness(pattern: Pattern, shelf: Shelf) -> tuple[Flip, ...]:
    """Return the orders by reach that one number, moved by a fifth, makes hold otherwise.

    A tool's reach, how wide an open row gapes, and how far a mouth is squashed are moved one at a
    time, up and down. What starts or ceases to bind comes first.
    """
    return _firmness(pattern, shelf)


@lru_cache(maxsize=_KEPT)
def _firmness(pattern: Pattern, shelf: Shelf) -> tuple[Flip, ...]:
    reach = reach_of(pattern, shelf)
    return flips(reach.net, reach.bench, reach.runs)


def orders_by_reach(pattern: Pattern, shelf: Shelf) -> int:
    """Return how many orders reach asks for with the numbers as they are."""
    reach = reach_of(pattern, shelf)
    return len(_orders(reach.net, reach.bench, reach.runs))


def flips(net: ReachNet, bench: Bench, runs: Runs) -> tuple[Flip, ...]:
    """Return the flips of a net and a bench; ``runs``: by row, the order it is set in."""
    now = _orders(net, bench, runs)
    found: list[Flip] = []
    for number, changed, other in _changes(bench):
        held = (now, _orders(net, other, runs))
        found += _turned(net, held, (number, changed), _Benches(bench, other, runs))
    return tuple(sorted(found, key=lambda flip: not flip.binds))


def flips_by_tool(now: Reach, then: Reach, tool: ToolEntry, becomes_mm: float) -> tuple[Flip, ...]:
    """Return the flips from one shelf to the same with another reach of one tool.

    Args:
        now: what is known of reach with the tool as it is.
        then: the same with the tool changed.
        tool: as it is.
        becomes_mm: its reach once changed.
    """
    held = (
        _orders(now.net, now.bench, now.runs),
        _orders(then.net, then.bench, now.runs),
    )
    benches = _Benches(now.bench, then.bench, now.runs)
    found = _turned(now.net, held, (_reach_number(tool), becomes_mm), benches)
    return tuple(sorted(found, key=lambda flip: not flip.binds))


_Orders = dict[_Order, Holds]


class _Benches(NamedTuple):
    """What is judged with now and with a number moved; ``runs``: by row, the order it is set in."""

    now: Bench
    then: Bench
    runs: Runs


def _turned(
    net: ReachNet,
    held: tuple[_Orders, _Orders],
    moved: tuple[Number, float],
    benches: _Benches,
) -> Iterator[Flip]:
    """Yield the orders that hold otherwise then than now, for a number that was moved."""
    now, then = map(_by_joint, held)
    for joint in sorted(now.keys() | then.keys()):
        mine, its = now.get(joint, {}), then.get(joint, {})
        turned: dict[_Order, tuple[Holds, Holds]] = {}
        for order in sorted(mine.keys() | its.keys()):
            holds = _holds(mine, order), _holds(its, order)
            if holds[0] is not holds[1]:
                turned[order] = holds
        for order, holds in turned.items():
            if not any(turned[less] == holds and _asks_less(less, order) for less in turned):
                told = [
                    _either_way(net, bench, benches.runs, order) if each is Holds.NOT else each
                    for bench, each in zip(benches[:2], holds, strict=True)
                ]
                yield _flip(net, order, moved, (told[0], told[1]))


def _by_joint(held: _Orders) -> dict[str, _Orders]:
    found: dict[str, _Orders] = {}
    for order, holds in held.items():
        found.setdefault(order[0], {})[order] = holds
    return found


def _asks_less(one: _Order, other: _Order) -> bool:
    """Tell whether one order holds already of fewer rows and joints than the other: it says as much."""
    (joint, rows, own), (same, more, all_own) = one, other
    return joint == same and one != other and set(rows) <= set(more) and set(own) <= set(all_own)


def _holds(known: dict[_Order, Holds], order: _Order) -> Holds:
    """Return how an order holds: by itself, or since one that asks for more holds.

    What comes before one row is shut comes before the last of two.
    """
    joint, rows, own = order
    asked = [
        holds
        for (other, some, mine), holds in known.items()
        if other == joint and set(some) <= set(rows) and set(mine) <= set(own)
    ]
    return next((holds for holds in Holds if holds in asked), Holds.NOT)


def _either_way(net: ReachNet, bench: Bench, runs: Runs, order: _Order) -> Holds:
    """Return how a joint stands that nothing asks to come first: it may be as bad in both orders."""
    joint, rows, own = order
    known = _rows(net)
    run = next(
        (runs[row.id] for row in known.values() if joint in row.joints and row.id in runs), ()
    )
    made = frozenset(run[: run.index(joint)] if own and joint in run else ())
    shut = frozenset(own).union(*(known[row].joints for row in rows)) - {joint}
    before, after = margin(net, joint, made, bench), margin(net, joint, made | shut, bench)
    if before.standing is Standing.CANNOT:
        return Holds.BARRED
    if after.standing is Standing.CANNOT or after.effort - before.effort >= _LEAST_EFFORT:
        return Holds.NOT
    return Holds.END if after.standing is Standing.END else Holds.ALIKE


def _flip(
    net: ReachNet, order: _Order, moved: tuple[Number, float], holds: tuple[Holds, Holds]
) -> Flip:
    known = _rows(net)
    joint, rows, own = order
    return Flip(
        joint=joint,
        rows=rows,
        names=(names := tuple(known[row].name for row in rows)),
        own=own,
        when=before_words(known.values(), names, own),
        title=title_of(known.values(), joint),
        number=moved[0],
        changed=moved[1],
        now=holds[0],
        then=holds[1],
    )


def _rows(net: ReachNet) -> dict[str, Row]:
    return {row.id: row for shell in net.shells.values() for row in shell.rows}


def _orders(net: ReachNet, bench: Bench, runs: Runs) -> _Orders:
    """Return how each order holds: the joint before the last of rows and of joints of its own row.

    Within its own row only that is told which the order the row is set in may change, as the rules
    have it.
    """
    found: _Orders = {}
    places = {joint: at for row in _rows(net).values() for at, joint in enumerate(row.joints)}
    own_row = own_row_bars(net, bench)
    for bar in (*bars(net, bench), *own_row):
        own = tuple(sorted(bar.own, key=lambda joint: (places[joint], joint)))
        key = (bar.joint, tuple(sorted(bar.rows)), own)
        cannot = bar.after.standing is Standing.CANNOT
        if cannot and bar.before.standing is not Standing.CANNOT:
            found[key] = Holds.CANNOT
        elif not cannot and not own and bar.after.effort > bar.before.effort:
            found.setdefault(key, Holds.EASIER)
    for each in shut_in(net, bench, runs):
        if each.after.effort - each.before.effort >= _LEAST_EFFORT:
            found.setdefault((each.joint, (), each.of), Holds.EASIER)
    return found


def _changes(bench: Bench) -> Iterator[tuple[Number, float, Bench]]:
    """Yield each number with what it is changed to and the bench that has it so."""
    tools = {tool.id: tool for held in bench.tools.values() for tool in held}
    for factor in (1 - SHARE, 1 + SHARE):
        for _, tool in sorted(tools.items()):
            reach_mm = tool.reach_mm or 0.0
            longer = replace(tool, reach_mm=factor * reach_mm)
            other = replace(bench, tools=_with(bench.tools, longer))
            yield _reach_number(tool), factor * reach_mm, other
        gape = Number(
            id="row_gape", name="how far an open row gapes", value=bench.row_gape, unit=""
        )
        yield gape, factor * gape.value, replace(bench, row_gape=factor * gape.value)
        raw, finished = bench.squash_raw, bench.squash_finished
        squash = Number(id="squash", name="how far a mouth is squashed", value=raw, unit="")
        # Less than its own width no mouth is squashed to.
        wider = max(1.0, factor * raw), max(1.0, factor * finished)
        yield squash, wider[0], replace(bench, squash_raw=wider[0], squash_finished=wider[1])


def _reach_number(tool: ToolEntry) -> Number:
    reach_mm = tool.reach_mm or 0.0
    return Number(id=tool.id, name=f"reach of {_within(tool.name)}", value=reach_mm, unit="mm")


def _with(
    tools: Mapping[str, tuple[ToolEntry, ...]], other: ToolEntry
) -> dict[str, tuple[ToolEntry, ...]]:
    return {
        joint: tuple(other if tool.id == other.id else tool for tool in held)
        for joint, held in tools.items()
    }


def _within(name: str) -> str:
    return f"{name[:1].lower()}{name[1:]}"
