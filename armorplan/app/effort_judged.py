"""What an order somebody wrote takes more than the order of least effort, and by what."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.effort_rank import LeastEffort
from armorplan.geometry.told import quoted
from armorplan.kernel.units import about_words
from armorplan.relations.checking import breaks
from armorplan.relations.index import is_plain
from armorplan.relations.model import Force, Relation
from armorplan.relations.weighing import price_min
from armorplan.rules.reaching import LEAST_MIN

_TOLD = 3
_WITHIN_A_ROW = "deep-end-easier"


@dataclass(frozen=True, slots=True, kw_only=True)
class Dearer:
    """What is set in one go and takes longer where it stands in the order.

    Attributes:
        steps: those that set it, as it is worked best.
        minutes: more than in the order of least effort.
        loaded: it is a row, and takes least with all its posts put in before the first is set.
        text: the dearest of the relations that the order does not keep; empty where none has a say.
    """

    steps: tuple[str, ...]
    minutes: float
    loaded: bool
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderCost:
    """What an order takes, on one side of each pair.

    Attributes:
        more_min: minutes of work more than the order of least effort takes.
        least_min: what that one takes.
        proved: no order takes less.
        dearest: what takes longer, the dearest first.
    """

    more_min: float
    least_min: float
    proved: bool
    dearest: tuple[Dearer, ...]


def order_cost(derived: Derived, order: Sequence[str]) -> OrderCost | None:
    """Return what an order of all steps costs; ``None`` where nothing is set, or there is no order."""
    effort = derived.effort
    if effort is None or not derived.order:
        return None
    lost = _lost(derived, effort, order)
    least = effort.found.spent
    before, spent = dict(least.by_atom), effort.spent_in(order)
    dearer = [_dearer(effort, atom, now - before[atom], lost) for atom, now in spent.by_atom]
    return OrderCost(
        more_min=max(0.0, sum(each.minutes for each in dearer)),
        least_min=least.work_min,
        proved=effort.is_proved,
        dearest=tuple(
            sorted((d for d in dearer if d.minutes >= LEAST_MIN), key=lambda d: -d.minutes)
        ),
    )


def _dearer(effort: LeastEffort, atom: str, more: float, lost: Mapping[str, Relation]) -> Dearer:
    row = effort.rows.get(atom)
    steps = tuple(effort.steps[joint].id for joint in (row or effort.groups[atom]).joints)
    mine = [lost[step] for step in steps if step in lost]
    reason = max(mine, key=price_min, default=None)
    loaded = False
    if row is not None:
        singly = row.minutes.one_by_one_min + sum(
            price_min(each) for each in mine if each.reason.rule == _WITHIN_A_ROW
        )
        loaded = row.minutes.loaded_min < singly
        more += min(singly, row.minutes.loaded_min) - row.minutes.minutes
    text = "" if reason is None else reason.reason.text
    return Dearer(steps=steps, minutes=more, loaded=loaded, text=text)


def _lost(derived: Derived, effort: LeastEffort, order: Sequence[str]) -> dict[str, Relation]:
    """Return by step the dearest relation that an order breaks and the one of least effort keeps."""
    mine = {step.id for step in effort.steps.values()}
    asked = (
        relation
        for relation in derived.relations
        if relation.reason.force is Force.EASIER
        and not relation.reason.overruled
        and relation not in derived.not_kept
    )
    found: dict[str, Relation] = {}
    for broken in breaks(order, asked):
        relation = broken.relation
        if is_plain(relation) and relation.first in mine:
            former = found.get(relation.first)
            if former is None or price_min(former) < price_min(relation):
                found[relation.first] = relation
    return found


def cost_words(cost: OrderCost, title: Mapping[str, str]) -> tuple[str, ...]:
    """Say what an order costs, and what of it costs most, a line each; ``title``: by step."""
    if cost.more_min < LEAST_MIN:
        least = "no order takes less" if cost.proved else "no shorter one is known"
        return (f"Setting the joints takes the least minutes in it: {least}.",)
    told = cost.dearest[:_TOLD]
    lead = (
        f"Setting the joints takes about {about_words(cost.more_min)} more in it than the "
        f"{about_words(cost.least_min)} of the order of least effort{':' if told else '.'}"
    )
    return (lead, *(f"  {_dearer_words(each, title)}" for each in told))


def _dearer_words(dearer: Dearer, title: Mapping[str, str]) -> str:
    first, *rest = quoted(title[step] for step in dearer.steps)
    what = f"{first} to {rest[-1]}" if rest else first
    loaded = ", even loaded first and then set" if dearer.loaded else ""
    reason = f" {dearer.text}" if dearer.text else ""
    return f"{about_words(dearer.minutes)} for {what}{loaded}.{reason}"
