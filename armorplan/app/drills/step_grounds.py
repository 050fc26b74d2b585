"""What states of an exercise keep: rather all that the build's own order does, else what binds.

An order has to keep what binds, and any that does is right. But nobody comes to a bench where the
hide is laid out and the card not looked at yet, or the leather cleaned and its edges not bevelled,
though nothing would be spoilt by it. So exercises are rather set in states that keep what is usual
or easier as well. Only where that leaves none of a reason, what binds is enough.
"""

import random
from collections.abc import Collection
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.drills.last_made import keeping_last
from armorplan.app.drills.wet_parts import WetParts
from armorplan.practice.few_orders import FewOrders
from armorplan.practice.gathering import Gathering
from armorplan.practice.levels import Topic
from armorplan.practice.settled_order import Bits, SettledOrder
from armorplan.relations.index import is_plain, named_steps
from armorplan.relations.model import Relation
from armorplan.relations.weighing import binding

_OUTSIDE = 2
"""So many steps of other parts are taken along where a reason asks for them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """An order with all that its states are to keep, and what grows sets of its steps.

    Attributes:
        wet: what is not to be handled wet.
        is_steered: what steers is kept too, as the build's own order keeps it.
    """

    settled: SettledOrder
    gathering: Gathering
    wet: WetParts
    is_steered: bool

    def seeds(self, topic: Topic) -> list[Relation]:
        """Return the relations that bear on what is a topic's own; one end may lie outside it."""
        of_topic, own = map(self.settled.bits, (topic.steps, topic.own))
        return self.gathering.bearing_on(own, of_topic)

    def grown(
        self,
        topic: Topic,
        seed: Relation,
        size: int,
        *,
        beside: Collection[str],
        chance: random.Random,
    ) -> Bits:
        """Return a closed set of steps round a relation; none where it does not fit in.

        Args:
            topic: what it is about.
            seed: the relation.
            size: as many steps at the most.
            beside: steps that may be taken along with those of the topic, which are at least half.
            chance: decides among what is about as good.
        """
        start = self.gathering.around(seed)
        pool, own = map(self.settled.bits, (topic.steps, topic.own))
        is_far = (start & ~pool).bit_count() > _OUTSIDE
        if is_far or start.bit_count() > size or not self.gathering.may_meet(start):
            return 0
        whole = pool | start | self.settled.bits(beside)
        bits = self.gathering.grown(start, whole, size, wanted=own, chance=chance)
        return bits if 2 * (bits & pool).bit_count() >= bits.bit_count() else 0

    def needs(self, few: FewOrders) -> tuple[Bits, ...]:
        """Return by number of a few steps which of them its states keep before it."""
        settled = self.settled
        ahead = (settled.before[settled.place[step]] for step in few.steps)
        here = settled.bits(few.steps)
        return tuple(few.bits(settled.steps(before & here)) for before in ahead)


def steering(derived: Derived) -> tuple[Relation, ...]:
    """Return what only steers and the build's order keeps, of one step before others.

    Which joint is set before which saves seconds: that one row is riveted before another is a state
    like any other, and to keep to it too would leave little to ask about rows.
    """
    return tuple(
        each
        for each in derived.relations
        if is_plain(each)
        and not (each.reason.binds or each.reason.overruled)
        and each not in derived.not_kept
        and not all(map(derived.work.sets, map(derived.work.step, named_steps(each))))
    )


@keeping_last
def grounds_of(derived: Derived) -> tuple[Ground, Ground]:
    """Return what states keep: all that the build's order does, and then what binds alone."""
    wet = WetParts(derived.work, SettledOrder(derived.order, derived.relations))
    as_made = SettledOrder(
        derived.order,
        derived.relations,
        also=steering(derived),
        pairs=(*wet.in_turn, *wet.as_ordered()),
    )
    as_bound = SettledOrder(derived.order, derived.relations, pairs=wet.in_turn)
    return (
        _ground(derived, wet, as_made, is_steered=True),
        _ground(derived, wet, as_bound, is_steered=False),
    )


def _ground(derived: Derived, wet: WetParts, settled: SettledOrder, *, is_steered: bool) -> Ground:
    gathering = Gathering(
        settled,
        binding(derived.index.relations),
        lambda step: derived.work.step(step).kind,
        apart=wet.apart,
    )
    return Ground(settled=settled, gathering=gathering, wet=wet, is_steered=is_steered)
