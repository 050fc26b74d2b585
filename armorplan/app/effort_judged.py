"""What an order somebody wrote takes more than the order of least effort, and by what."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.effort_rank import LeastEffort
from armorplan.app.effort_singly import Singly, joints_in
from armorplan.geometry.told import quoted
from armorplan.kernel.units import about_words
from armorplan.relations.checking import breaks
from armorplan.relations.index import is_plain
from armorplan.relations.model import Force, Relation
from armorplan.relations.weighing import price_min
from armorplan.rules.reaching import LEAST_MIN

_TOLD = 3
_WITHIN_A_ROW = frozenset(("deep-end-easier", "row-from-deep-end"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Dearer:
    """What is set in one go and takes longer where, or as, it stands in the order.

    Attributes:
        steps: those that set it, in that order.
        minutes: more than in the order of least effort, each joint set before the next is put in.
        turned: it is a row, and what makes it longer is the order along it.
        loaded_less_min: minutes less than this order takes, with all its posts put in before the
            first is set; 0 where that takes no less.
        text: the dearest of the relations that the order does not keep; empty where none has a say.
    """

    steps: tuple[str, ...]
    minutes: float
    turned: bool
    loaded_less_min: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderCost:
    """What an order takes, on one side of each pair, each joint set before the next is put in.

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
    singly = Singly(effort)
    lost, joints = _lost(derived, effort, order), joints_in(effort, order)
    least, spent = singly.by_group(singly.best), singly.by_group(joints)
    dearer = [
        _dearer(effort, group, spent[group] - least[group], lost, (singly, joints))
        for group in sorted(spent)
    ]
    return OrderCost(
        more_min=max(0.0, sum(each.minutes for each in dearer)),
        least_min=sum(least.values()),
        proved=effort.is_proved,
        dearest=tuple(
            sorted((d for d in dearer if d.minutes >= LEAST_MIN), key=lambda d: -d.minutes)
        ),
    )


def _dearer(
    effort: LeastEffort,
    group: str,
    more: float,
    lost: Mapping[str, Relation],
    told: tuple[Singly, tuple[str, ...]],
) -> Dearer:
    singly, order = told
    mine = [joint for joint in order if joint in effort.groups[group].joints]
    steps = tuple(effort.steps[joint].id for joint in mine)
    broken = [lost[step] for step in steps if step in lost]
    reason = max(broken, key=price_min, default=None)
    less = 0.0
    if group in effort.rows and more >= LEAST_MIN:
        less = singly.by_group(order)[group] - singly.loaded_min(group, order)
    return Dearer(
        steps=steps,
        minutes=more,
        turned=reason is not None and reason.reason.rule in _WITHIN_A_ROW,
        loaded_less_min=less if less >= LEAST_MIN else 0.0,
        text="" if reason is None else reason.reason.text,
    )


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
        f"{about_words(cost.least_min)} of the order of least effort, joint by joint{':' if told else '.'}"
    )
    return (lead, *(f"  {_dearer_words(each, title)}" for each in told))


def _dearer_words(dearer: Dearer, title: Mapping[str, str]) -> str:
    first, *rest = quoted(title[step] for step in dearer.steps)
    what = f"{first} to {rest[-1]}" if rest else first
    if dearer.turned:
        what += ", set one by one in this order: from its other end it takes so much less"
    said = [f"{about_words(dearer.minutes)} for {what}.", dearer.text]
    if dearer.loaded_less_min:
        said.append(
            "With all its posts put in first and then set, from whichever end, the row takes about "
            f"{about_words(dearer.loaded_less_min)} less than so."
        )
    return " ".join(filter(None, said))
