"""The builds of a workshop as rows: what was agreed about each; and the plan of all in hand."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from armorplan.app.shown_plan import ShownPlan
from armorplan.ledger.build_orders import LEAST_WEIGHT, MOST_WEIGHT, BuildOrder
from armorplan.schedule.problem import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class InHand:
    """A build of the workshop.

    Attributes:
        build: its id.
        due_at: when it has to be done; ``None``: nothing was promised.
        ready_at: it cannot be begun sooner; ``None``: at any time.
        weight: what a minute of its lateness counts beside the others' ones.
        is_open: it stands at the bench in this window; it is planned whatever was agreed.
        in_hand: it is planned together with the others; else it is laid aside.
        trouble: why it is not planned though it is in hand, in a sentence; mostly empty.
    """

    build: str
    title: str
    due_at: datetime | None = None
    ready_at: datetime | None = None
    weight: int = 1
    is_open: bool = False
    in_hand: bool = True
    trouble: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekPlan:
    """The plan shown, of all builds in hand, with the problem it answers.

    Attributes:
        problem: the last one that was answered.
        shown: the plan as it stands.
        promised: the plan that was kept as promised; ``None``: none was.
    """

    problem: Problem
    shown: ShownPlan
    promised: ShownPlan | None = None


def rows_of(
    names: Mapping[str, str],
    orders: Mapping[str, BuildOrder],
    troubles: Mapping[str, str],
    open_build: str,
) -> Iterator[InHand]:
    """Yield all builds, the oldest first; one of which nothing was agreed is laid aside."""
    for build, title in names.items():
        order = orders.get(build) or BuildOrder(build=build, in_hand=False)
        yield InHand(
            build=build,
            title=title,
            due_at=order.due_at,
            ready_at=order.ready_at,
            weight=order.weight,
            is_open=build == open_build,
            in_hand=order.in_hand,
            trouble=troubles.get(build, ""),
        )


def why_not_agreed(order: BuildOrder) -> str:
    """Return in a sentence why this cannot be agreed; empty where it can."""
    if not LEAST_WEIGHT <= order.weight <= MOST_WEIGHT:
        return f"A weight is a whole number from {LEAST_WEIGHT} to {MOST_WEIGHT}."
    if order.due_at and order.ready_at and order.due_at <= order.ready_at:
        return "It is due before it can be begun. Let it be due later, or begin sooner."
    return ""


def agreed_words(title: str, order: BuildOrder, zone: ZoneInfo) -> str:
    """Return what was agreed, in a sentence."""
    if not order.in_hand:
        return f"{title} is laid aside: it is not planned any more."
    bits = ["in hand"]
    if order.ready_at:
        bits.append(f"to be begun from {_when(order.ready_at, zone)}")
    bits.append(f"due {_when(order.due_at, zone)}" if order.due_at else "with no date")
    if order.weight != 1:
        bits.append(f"its lateness counts {order.weight} times")
    return f"{title} is {', '.join(bits)}."


def _when(at: datetime, zone: ZoneInfo) -> str:
    local = at.astimezone(zone)
    return f"{local:%a} {local.day} {local:%b %Y %H:%M}"
