"""Which orders by reach would turn out otherwise if a tool or a number of the bench were a fifth off.

What holds either way is firm. What flips rests on a number that was guessed: measure that one.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache

from armorplan.geometry.reach.bars import bars, own_row_bars
from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.gathered import Reach, reach_of
from armorplan.geometry.reach.model import ReachNet, Standing
from armorplan.geometry.reach.words import shut
from armorplan.geometry.told import listed, quoted
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf, ToolEntry

SHARE = 0.2
"""So far each number is moved, up and down, as a share of itself."""
_KEPT = 16


class Holds(StrEnum):
    """How an order by reach holds, the strongest first."""

    CANNOT = "cannot"
    EASIER = "easier"
    NOT = "not at all"


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
        changed: what the number is changed to.
        now: how it holds with the number as it is; ``then``: with the number changed.
    """

    joint: str
    rows: tuple[str, ...]
    names: tuple[str, ...]
    own: tuple[str, ...]
    number: Number
    changed: float
    now: Holds
    then: Holds

    @property
    def binds(self) -> bool:
        """Tell whether it binds either now or then."""
        return Holds.CANNOT in (self.now, self.then)


_Order = tuple[str, tuple[str, ...], tuple[str, ...]]


def firmness(pattern: Pattern, shelf: Shelf) -> tuple[Flip, ...]:
    """Return the orders by reach that one number, moved by a fifth, makes hold otherwise.

    A tool's reach, how wide an open row gapes, and how far a mouth is squashed are moved one at a
    time, up and down. What starts or ceases to bind comes first.
    """
    return _firmness(pattern, shelf)


@lru_cache(maxsize=_KEPT)
def _firmness(pattern: Pattern, shelf: Shelf) -> tuple[Flip, ...]:
    reach = reach_of(pattern, shelf)
    return flips(reach.net, reach.bench)


def orders_by_reach(pattern: Pattern, shelf: Shelf) -> int:
    """Return how many orders reach asks for with the numbers as they are."""
    reach = reach_of(pattern, shelf)
    return len(_orders(reach.net, reach.bench))


def flips(net: ReachNet, bench: Bench) -> tuple[Flip, ...]:
    """Return the flips of a net and a bench; see ``firmness``."""
    now = _orders(net, bench)
    found: list[Flip] = []
    for number, changed, other in _changes(bench):
        found += _turned(net, (now, _orders(net, other)), (number, changed))
    return tuple(sorted(found, key=lambda flip: not flip.binds))


def flips_by_tool(now: Reach, then: Reach, tool: ToolEntry, becomes_mm: float) -> tuple[Flip, ...]:
    """Return the flips from one shelf to the same with another reach of one tool.

    Args:
        now: what is known of reach with the tool as it is.
        then: the same with the tool changed.
        tool: as it is.
        becomes_mm: its reach once changed.
    """
    held = _orders(now.net, now.bench), _orders(then.net, then.bench)
    found = _turned(now.net, held, (_reach_number(tool), becomes_mm))
    return tuple(sorted(found, key=lambda flip: not flip.binds))


_Orders = dict[_Order, Holds]


def _turned(
    net: ReachNet, held: tuple[_Orders, _Orders], moved: tuple[Number, float]
) -> Iterator[Flip]:
    """Yield the orders that hold otherwise then than now, for a number that was moved."""
    now, then = held
    for order in sorted(now.keys() | then.keys()):
        holds = _holds(now, order), _holds(then, order)
        if holds[0] is not holds[1]:
            yield _flip(net, order, moved, holds)


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


def _flip(
    net: ReachNet, order: _Order, moved: tuple[Number, float], holds: tuple[Holds, Holds]
) -> Flip:
    names = {row.id: row.name for shell in net.shells.values() for row in shell.rows}
    joint, rows, own = order
    return Flip(
        joint=joint,
        rows=rows,
        names=tuple(names[row] for row in rows),
        own=own,
        number=moved[0],
        changed=moved[1],
        now=holds[0],
        then=holds[1],
    )


def _orders(net: ReachNet, bench: Bench) -> dict[_Order, Holds]:
    """Return how each order holds: the joint before the last of rows and of joints of its own row."""
    found: dict[_Order, Holds] = {}
    places = {
        joint: at
        for shell in net.shells.values()
        for row in shell.rows
        for at, joint in enumerate(row.joints)
    }
    for bar in (*bars(net, bench), *own_row_bars(net, bench)):
        own = tuple(sorted(bar.own, key=lambda joint: (places[joint], joint)))
        key = (bar.joint, tuple(sorted(bar.rows)), own)
        cannot = bar.after.standing is Standing.CANNOT
        if cannot and bar.before.standing is not Standing.CANNOT:
            found[key] = Holds.CANNOT
        elif not cannot and bar.after.effort > bar.before.effort:
            found.setdefault(key, Holds.EASIER)
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


def flip_words(flip: Flip) -> str:
    """Say what a flip comes to: whole sentences, with the numbers."""
    unit = f" {flip.number.unit}" if flip.number.unit else ""
    number = f"{flip.number.value:g} to {flip.changed:g}{unit}"
    return (
        f"'{flip.joint}' before {_when(flip)}: {_how(flip, flip.now)}; with "
        f"{flip.number.name} changed from {number}, {_how(flip, flip.then)}."
    )


def _how(flip: Flip, holds: Holds) -> str:
    # What its own row makes dearer hangs on the order in which the row is set.
    not_bound = flip.own and holds is Holds.NOT
    return "nothing forbids the other order" if not_bound else _HOLDS[holds]


def _when(flip: Flip) -> str:
    said = [shut(flip.names)] if flip.names else []
    if flip.own:
        of_row = listed(quoted(flip.own))
        said.append(f"{of_row} of its own row {'is' if len(flip.own) == 1 else 'are'} set")
    return " and ".join(said)


_HOLDS = {
    Holds.CANNOT: "it binds (cannot)",
    Holds.EASIER: "it is only easier so",
    Holds.NOT: "nothing asks for it",
}


def firm_words(found: tuple[Flip, ...], *, orders: int) -> str:
    """Say in a sentence or two how firm the orders by reach are, of which there are so many now."""
    moved = "each tool's reach, the gape of open rows and the squash of mouths up and down by 20 %"
    if not found and not orders:
        return (
            f"There are no orders by reach, and none comes up when moving {moved}, one at a time."
        )
    if not found:
        return (
            f"{orders} order{'s' * (orders != 1)} by reach, all firm: moving {moved}, one at a time, "
            "flips none."
        )
    flipped = {_order(flip) for flip in found}
    binding = {_order(flip) for flip in found if flip.binds}
    numbers = ", ".join(dict.fromkeys(flip.number.name for flip in found))
    one = len(flipped) == 1
    return (
        f"{len(flipped)} order{'' if one else 's'} by reach flip{'s' if one else ''} ({orders} hold now), "
        f"{len(binding)} of them between binding and not, when moving {moved}, one at a time. "
        f"What to measure: {numbers}."
    )


def _order(flip: Flip) -> _Order:
    return flip.joint, flip.rows, flip.own
