"""An order somebody wrote, judged: what it breaks, how to mend it, and what it costs."""

from collections.abc import Sequence
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.effort_judged import OrderCost, order_cost
from armorplan.app.learned_order import judge_by_reach
from armorplan.orders.judging import Verdict
from armorplan.orders.repairing import Repair
from armorplan.orders.tidying import Mend, Row, as_repaired, mend_of
from armorplan.practice.ordering import Judgement
from armorplan.relations.checking import Break, breaks
from armorplan.relations.model import Together
from armorplan.relations.weighing import binding

_ONE_GO = "row-in-one-go"


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedOrder:
    """The judgement of an order.

    Attributes:
        right: it keeps all that binds.
        first_break: what it breaks first; ``verdict``: everything that is wrong with it.
        repair: with as few steps moved as can be; ``None`` where steps are missing or none is right.
        mend: as a maker would mend it, rows in one go; ``None`` with the repair, or where it is right.
        cost: what it takes more than the order of least effort; ``None`` unless it is right.
    """

    right: bool
    first_break: Break | None
    sentence: str
    repair: Repair | None
    verdict: Verdict
    mend: Mend | None
    cost: OrderCost | None


def judged_order(derived: Derived, answer: Sequence[str]) -> JudgedOrder:
    """Judge an order of the steps of a build."""
    found = _judged(derived, answer)
    return JudgedOrder(
        right=found.right,
        first_break=found.first_break,
        sentence=found.sentence,
        repair=found.repair,
        verdict=found.verdict,
        mend=None if found.right else _mend(derived, answer, found.repair),
        cost=order_cost(derived, answer) if found.right else None,
    )


def _judged(derived: Derived, answer: Sequence[str]) -> Judgement:
    return judge_by_reach(
        derived.facts,
        (derived.order, answer),
        derived.relations,
        name=lambda step: derived.work.step(step).title,
    )


def _mend(derived: Derived, answer: Sequence[str], repair: Repair | None) -> Mend | None:
    if repair is None:
        return None
    bound = binding(derived.relations)
    mend = mend_of(answer, repair, _rows(derived), lambda order: len(breaks(order, bound)))
    if mend.order == repair.order or _judged(derived, mend.order).right:
        return mend
    return as_repaired(repair)


def _rows(derived: Derived) -> tuple[Row, ...]:
    """Return what is done in one go, each as the program's own order does it."""
    place = derived.place
    groups = {
        relation.of
        for relation in derived.relations
        if isinstance(relation, Together)
        and relation.reason.rule == _ONE_GO
        and not relation.reason.overruled
    }
    rows = (tuple(sorted(group, key=place.__getitem__)) for group in groups)
    return tuple(sorted(rows, key=lambda row: place[row[0]]))
