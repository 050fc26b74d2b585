"""Nothing that is wet is handled in an exercise: neither in a state that is shown nor in a right order.

Whether holes are punched before the dye or behind its drying is free as far as relations say; that
nobody punches a wet strap, no relation has to tell where the build's own order never comes to it. An
exercise puts other steps off than that order does. So it is made of steps of which none handles a
part that another one wets, or dries, unless relations put it before the one or behind the other.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from armorplan.app.drills.learning import Learned
from armorplan.practice.few_orders import FewOrders
from armorplan.practice.settled_order import Bits, SettledOrder
from armorplan.practice.settled_order import each as each_of
from armorplan.practice.worst import always_before
from armorplan.steps.model import Step, StepKind, Work


@dataclass(frozen=True, slots=True, kw_only=True)
class Wetting:
    """A step that leaves parts wet, the drying behind it, and what handles these parts besides."""

    wet: str
    dry: str
    handling: frozenset[str]


def wettings(work: Work) -> Iterator[Wetting]:
    """Yield what leaves parts wet, in the work's order."""
    for wet in work.steps:
        dry = work.drying_of(wet.id)
        if dry is not None:
            handling = (s for part in wet.parts for s in work.touching(part) if _handles(s, wet))
            yield Wetting(wet=wet.id, dry=dry.id, handling=frozenset(s.id for s in handling))


def _handles(step: Step, wet: Step) -> bool:
    """Tell whether a step handles what another has wetted; more glue goes on while some is wet."""
    is_its_own = wet.id in {step.id, step.after}
    is_more_glue = step.kind is StepKind.GLUE is wet.kind
    return step.attended and not is_its_own and not is_more_glue


def waits_in_turn(work: Work) -> Iterator[tuple[str, str]]:
    """Yield each drying with the cure behind the same step: both begin at once, and it is over first."""
    for wet in work.steps:
        dry = work.drying_of(wet.id)
        if dry is not None:
            cures = (s for s in work.following(wet.id) if s.kind is StepKind.CURE)
            yield from ((dry.id, cure.id) for cure in cures)


class WetParts:
    """What may not stand together in an exercise of a build, and whether one is dry all along."""

    def __init__(self, work: Work, settled: SettledOrder) -> None:
        """Take the steps, and the order that keeps all that binds."""
        self._settled = settled
        self._all = [
            (settled.place[one.wet], settled.place[one.dry], settled.bits(one.handling))
            for one in wettings(work)
        ]
        self.in_turn = tuple(waits_in_turn(work))
        self.apart = self._kept_apart()

    def _kept_apart(self) -> list[Bits]:
        """Return by place what is not to stand in one exercise with it."""
        settled, apart = self._settled, [0] * len(self._settled.order)
        pairs = [(settled.place[one], settled.place[other]) for one, other in self.in_turn]
        for wet, dry, handling in self._all:
            free = [at for at in each_of(handling) if not self._is_bound(at, wet, dry)]
            pairs += [(at, other) for at in free for other in (wet, dry)]
        for one, other in pairs:
            apart[one] |= 1 << other
            apart[other] |= 1 << one
        return apart

    def _is_bound(self, at: int, wet: int, dry: int) -> bool:
        """Tell whether relations put a step before a wet one, or behind its drying."""
        before = self._settled.before
        return bool(before[wet] >> at & 1 or before[at] >> dry & 1)

    def as_ordered(self) -> Iterator[tuple[str, str]]:
        """Yield that what handles a part stays before what wets it, or behind its drying, as it is."""
        order = self._settled.order
        for wet, dry, handling in self._all:
            for at in each_of(handling):
                if at < wet:
                    yield order[at], order[wet]
                elif at > dry:
                    yield order[dry], order[at]

    def dried(self, done: Sequence[str], bits: Bits) -> tuple[str, ...]:
        """Return what is done before steps, with each drying that nothing of it waits for.

        Only what these steps would handle wet has to be dry; they are put off behind a treatment.
        """
        settled = self._settled
        made = settled.bits(done)
        more: list[int] = []
        for wet, dry, handling in self._all:
            is_wet = made >> wet & 1 and not (made | bits) >> dry & 1
            if is_wet and handling & bits and not settled.before[dry] & ~made:
                made |= 1 << dry
                more.append(dry)
        return (*done, *(settled.order[at] for at in more))

    def is_dry(self, learned: Learned) -> bool:
        """Tell whether no right order of steps handles anything wet."""
        few = learned.few
        before = always_before(few)
        made = self._settled.bits(learned.done)
        here = self._settled.bits(few.steps)
        return all(
            self._is_kept(few, before, one, made)
            for one in self._all
            if one[2] & here and not made >> one[1] & 1 and (made | here) >> one[0] & 1
        )

    def _is_kept(
        self, few: FewOrders, before: Sequence[Bits], wetting: tuple[int, int, Bits], made: Bits
    ) -> bool:
        """Tell whether each step here that handles wet parts is always before that or behind drying."""
        wet, dry, handling = wetting
        wet_at, dry_at = (few.number.get(self._settled.order[at]) for at in (wet, dry))
        ahead = 0 if made >> wet & 1 or wet_at is None else before[wet_at]
        for step in self._settled.steps(handling & self._settled.bits(few.steps)):
            at = few.number[step]
            is_behind = dry_at is not None and before[at] >> dry_at & 1
            if not ahead >> at & 1 and not is_behind:
                return False
        return True
