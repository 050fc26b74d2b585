"""Going on from a state without taking anything back: what it costs, in which order, what is in the way.

Each missing step is done in the cheapest way that its state allows. The order is built from its
back: whatever may be done last is, so that no dead end is met.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from armorplan.orders.recovery.bits import BitBar, BitDoing, RecoveryBits, each
from armorplan.orders.recovery.model import Means


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """How a state is gone on from.

    Attributes:
        least: no way on without taking back costs less; ``None`` where a step has no way at all.
        doings: the way on in order; ``None`` where there is none, or none was found.
        ticks: its price.
        helps: sets of standing steps, as bits; only where one of a set goes can it cost less.
        doubtful: there may be a cheaper way on, at ``least`` or above, that was not found.
    """

    least: int | None
    doings: tuple[BitDoing, ...] | None
    ticks: int = 0
    helps: tuple[int, ...] = ()
    doubtful: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """The cheapest way to do a step in a state, and what would have to go for a cheaper one."""

    step: int
    doing: BitDoing | None
    helps: tuple[int, ...]


def choice(bits: RecoveryBits, state: int, step: int) -> Choice:
    """Return the cheapest way to do a step, by what already stands and surely stays."""
    found = next(possible(bits, state, step), None)
    ways = bits.doings[step]
    if not ways or (found is not None and found.ticks == ways[0].ticks):
        return Choice(step=step, doing=found, helps=())
    must = _must_open(bits, state, step) if found is None else ()
    return Choice(step=step, doing=found, helps=must or in_way(bits, state, step))


def _must_open(bits: RecoveryBits, state: int, step: int) -> tuple[int, ...]:
    """Return one set of standing steps of which one has to go whatever is done; none: not one is sure."""
    spited = 0
    for doing in bits.doings[step]:
        spited |= doing.spite
    shut = (bar.rest for bar in bits.by_first[step] if bar.is_shut(state) and not bar.own & spited)
    least = min(shut, key=lambda rest: (rest.bit_count(), rest), default=0)
    return (least,) if least else ()


def possible(bits: RecoveryBits, state: int, step: int) -> Iterator[BitDoing]:
    """Yield the ways to do a step that a state leaves open, the cheapest first."""
    shut = shut_bars(bits, state, step)
    for doing in bits.doings[step]:
        if not doing.needs_open & state and not shut & ~doing.spite:
            yield doing


def shut_bars(bits: RecoveryBits, state: int, step: int) -> int:
    """Return the bars that bar a step in a state, as bits."""
    shut = 0
    for bar in bits.by_first[step]:
        if bar.is_shut(state):
            shut |= bar.own
    return shut


def in_way(bits: RecoveryBits, state: int, step: int) -> tuple[int, ...]:
    """Return the sets of standing steps that are in the way of any way to do a step."""
    found = {bar.rest for bar in bits.by_first[step] if bar.is_shut(state)}
    for doing in bits.doings[step]:
        found |= set(each(doing.needs_open & state))
    return tuple(sorted(found))


def finish(bits: RecoveryBits, state: int, *, by: Means | None = None) -> Finish:
    """Return how to go on from a state to the goal.

    Args:
        bits: the problem.
        state: what stands.
        by: a means that one of the steps has to be done by, one that cannot be done as usual.
    """
    choices = [choice(bits, state, step) for step in each(bits.goal & ~state)]
    stuck = [one for one in choices if one.doing is None]
    if stuck:
        fewest = min(stuck, key=lambda one: (len(one.helps), one.step))
        return Finish(least=None, doings=None, helps=fewest.helps)
    if by is None:
        return _ordered(bits, state, choices)
    wide = {mask for one in choices for mask in in_way(bits, state, one.step)}
    swapped = _by_means(bits, state, choices, by)
    found = _ordered(bits, state, swapped or choices)
    helps = tuple(sorted(wide | set(found.helps)))
    if swapped is None:
        return Finish(least=None, doings=None, helps=helps)
    return replace(found, helps=helps)


def _ordered(bits: RecoveryBits, state: int, choices: list[Choice]) -> Finish:
    """Return the doings chosen in an order, with what has to be done for them unasked."""
    chosen = {one.step: one.doing for one in choices if one.doing is not None}
    least = sum(doing.ticks for doing in chosen.values())
    helps = {mask for one in choices for mask in one.helps}
    backward = FromBack(bits, state, chosen)
    order, doubtful = backward.order(), False
    while order is None:
        doubtful = doubtful or backward.is_doubtful()
        helps |= set(backward.in_way())
        more, stuck = backward.also(chosen)
        helps |= {mask for one in stuck for mask in one.helps}
        if not more:
            break
        doubtful = True
        chosen |= more
        backward = FromBack(bits, state, chosen)
        order = backward.order()
    return Finish(
        least=least,
        doings=order,
        ticks=sum(doing.ticks for doing in order or ()),
        helps=tuple(sorted(helps)),
        doubtful=doubtful,
    )


def _by_means(
    bits: RecoveryBits, state: int, choices: list[Choice], by: Means
) -> list[Choice] | None:
    """Return choices of which one is by a means, that which this makes least dearer, if any can be."""
    swaps = list[tuple[int, int, BitDoing]]()
    for at, one in enumerate(choices):
        ways = tuple(possible(bits, state, one.step))
        if one.doing is None or any(way.move.means is None for way in ways):
            continue
        dear = one.doing.ticks
        swaps += [(way.ticks - dear, at, way) for way in ways if way.move.means is by]
    if not swaps:
        return None
    _, at, way = min(swaps, key=lambda swap: swap[:2])
    return [*choices[:at], replace(choices[at], doing=way), *choices[at + 1 :]]


class FromBack:
    """Orders chosen doings from the last to the first.

    Attributes:
        left: the steps, as bits, that ``order`` could not place.
    """

    def __init__(self, bits: RecoveryBits, state: int, chosen: dict[int, BitDoing]) -> None:
        self._bits, self._state, self._chosen = bits, state, chosen
        self._stands = state
        for step in chosen:
            self._stands |= step
        self.left = [step for step in bits.listed if step in chosen]

    def order(self, *, shut_by: int | None = None) -> tuple[BitDoing, ...] | None:
        """Return the doings in order; ``None`` where some cannot be placed.

        Args:
            shut_by: where it is given, only bars that these steps shut are gone against.
        """
        found = list[BitDoing]()
        surely = self._state if shut_by is None else shut_by
        while self.left and (last := self._last(surely)):
            found += [self._chosen[step] for step in last]
        stuck = self.left, self._stands
        while shut_by is None and self.left and (last := self._last(None)):
            found += [self._chosen[step] for step in last + self._last(surely)]
        if self.left:
            self.left, self._stands = stuck
            return None
        return tuple(reversed(found))

    def _last(self, surely: int | None) -> list[int]:
        """Take out what may be done last, the later listed first; against any bar only one."""
        taken = list[int]()
        for step in reversed(self.left):
            spite = self._chosen[step].spite
            if surely is not None:
                spite &= shut_bars(self._bits, surely, step)
            if next(self._reasons(step, spite), None):
                continue
            taken.append(step)
            self._stands &= ~step
            if surely is None:
                break
        self.left = [step for step in self.left if self._stands & step]
        return taken

    def _reasons(self, step: int, spite: int) -> Iterator[BitBar | int]:
        """Yield why a step cannot be the last of what is left: bars, or steps it needs open."""
        before = self._stands & ~step
        yield from each(self._chosen[step].needs_open & before)
        for bar in self._bits.by_first[step]:
            if not bar.own & spite and bar.is_shut(before):
                yield bar
        for bar in self._bits.by_member[step]:
            if not (bar.own & spite or bar.first & self._stands) and bar.is_shut(self._stands):
                yield bar

    def _all_reasons(self) -> Iterator[BitBar | int]:
        for step in self.left:
            yield from self._reasons(step, self._chosen[step].spite)

    def in_way(self) -> Iterator[int]:
        """Yield sets of steps of which one has to go before what is left can be ordered."""
        for reason in self._all_reasons():
            yield reason if isinstance(reason, int) else reason.rest

    def also(self, chosen: dict[int, BitDoing]) -> tuple[dict[int, BitDoing], list[Choice]]:
        """Return doings of steps nobody asked for that have to come first, and which are stuck."""
        firsts = {
            reason.first
            for reason in self._all_reasons()
            if isinstance(reason, BitBar) and not reason.first & self._stands
        }
        found = [choice(self._bits, self._state, step) for step in sorted(firsts - set(chosen))]
        ways = {one.step: one.doing for one in found if one.doing is not None}
        return ways, [one for one in found if one.doing is None]

    def is_doubtful(self) -> bool:
        """Tell whether other ways to do what is left might be ordered, or a detour might help."""
        bits = self._bits
        if any(len(bits.doings[step]) > 1 or self._chosen[step].spite for step in self.left):
            return True
        return any(
            isinstance(reason, BitBar) and reason.first & bits.done
            for reason in self._all_reasons()
        )
