"""Whether an order somebody wrote down is valid, and what it breaks first."""

from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from armorplan.relations.checking import Break, breaks
from armorplan.relations.implying import stricter
from armorplan.relations.index import known_relations
from armorplan.relations.model import Relation
from armorplan.relations.weighing import binding


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What an order is worth.

    Attributes:
        breaks: binding relations it breaks, in order of occurrence; of those that follow from one
            another the widest.
        missing: steps that are to be done and do not stand in it, in the steps' order.
        repeated: steps that stand in it more than once, in order of occurrence.
        unknown: what stands in it and is no step, in order of occurrence.
    """

    breaks: tuple[Break, ...] = ()
    missing: tuple[str, ...] = ()
    repeated: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()

    @property
    def valid(self) -> bool:
        """Every step stands in it once, and no binding relation is broken."""
        return not (self.breaks or self.missing or self.repeated or self.unknown)

    @property
    def first_break(self) -> Break | None:
        """What it breaks first, or ``None``."""
        return next(iter(self.breaks), None)


def judge_order(
    order: Sequence[str], steps: Collection[str], relations: Iterable[Relation]
) -> Verdict:
    """Judge an order of these steps by the binding relations; any order that keeps them is valid.

    Where steps are missing, the relations among those that stand in the order are judged.
    """
    known = frozenset(steps)
    counted = Counter(order)
    return Verdict(
        breaks=_widest(breaks(order, binding(known_relations(known, relations)))),
        missing=tuple(step for step in steps if step not in counted),
        repeated=tuple(step for step, times in counted.items() if times > 1),
        unknown=tuple(step for step in counted if step not in known),
    )


def _widest(found: tuple[Break, ...]) -> tuple[Break, ...]:
    left_out = stricter([each.relation for each in found])
    return tuple(each for at, each in enumerate(found) if at not in left_out)
