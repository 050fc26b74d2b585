"""A build and what happened at the bench by now, as planning asks for it."""

from collections.abc import Iterator
from datetime import datetime

from armorplan.app.moment import BenchMoment
from armorplan.ledger.build_orders import BuildOrder
from armorplan.ledger.records import StepStatus
from armorplan.schedule.bench_history import History
from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.workplace import Workplace


def history_of(moment: BenchMoment, now_at: datetime) -> History:
    """Return what is done, under way, drying and paused, as it counts from an instant on."""
    return History(
        done=dict(_done(moment, now_at)),
        running=dict(_running(moment)),
        worked_min=dict(_worked(moment)),
        ready=dict(_ready(moment)),
        who=dict(_who(moment)),
    )


def _done(
    moment: BenchMoment, now_at: datetime
) -> Iterator[tuple[str, tuple[datetime, datetime]]]:
    """Yield what is done, and dryings whose time is up, with their real spans.

    What has to be done again, since its window was missed or a way back opens it, is planned anew.
    """
    for record in moment.ledger.records:
        over = record.status is StepStatus.DONE or record.step in moment.dried
        over = over and not moment.states.is_to_redo(record.step)
        if over and record.step in moment.spans:
            start_at, end_at, _ = moment.spans[record.step]
            yield record.step, (start_at, min(end_at, now_at))


def _running(moment: BenchMoment) -> Iterator[tuple[str, datetime]]:
    for record in moment.ledger.records:
        runs = record.status is StepStatus.RUNNING and record.step not in moment.dried
        if runs and record.step in moment.spans:
            yield record.step, moment.spans[record.step][0]


def _ready(moment: BenchMoment) -> Iterator[tuple[str, datetime]]:
    """Yield when what dries by now will be dry: by the room, by what was learned, by looks.

    So is told when work ends of which somebody said that it takes longer.
    """
    for record in moment.ledger.records:
        work = moment.derived.work
        runs = record.status is StepStatus.RUNNING and record.step not in moment.dried
        is_told = record.told_min is not None or not work.step(record.step).attended
        if runs and record.step in moment.spans and is_told:
            yield record.step, moment.spans[record.step][1]


def _who(moment: BenchMoment) -> Iterator[tuple[str, str]]:
    """Yield whose hands did what, or are at it, where the ledger names somebody of the shop."""
    work = moment.derived.work
    for record in moment.ledger.records:
        who = moment.hands_of(record)
        if who is not None and work.has(record.step) and work.step(record.step).attended:
            yield record.step, who


def _worked(moment: BenchMoment) -> Iterator[tuple[str, int]]:
    """Yield the minutes already spent on what is paused: the rest is planned anew."""
    for timer in moment.timers:
        if timer.running_since is None:
            yield timer.step, int(timer.elapsed_s // 60)


def in_hand_of(
    moment: BenchMoment, order: BuildOrder, title: str, origin_at: datetime
) -> BuildInHand:
    """Return a build as the planner takes it, as it stands at the bench.

    Args:
        moment: how it stands.
        order: what was agreed about it.
        title: what it is called; empty: as its pattern is.
        origin_at: minutes of the plan count from here.
    """
    derived = moment.derived
    return BuildInHand(
        id=derived.assembly.build,
        title=title or derived.pattern.name,
        work=derived.work,
        relations=derived.relations,
        workplace=Workplace(shop=derived.shop, shelf=derived.shelf),
        order=derived.order,
        history=history_of(moment, origin_at),
        due_at=order.due_at,
        ready_at=order.ready_at,
        weight=order.weight,
        assembly=derived.assembly,
        wearer=order.wearer,
        after=order.after,
    )
