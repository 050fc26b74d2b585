"""The order as lines to read: runs of like steps under a heading, what to do, why, and cautions."""

from collections.abc import Iterator
from itertools import groupby

from armorplan.app.derived import Derived
from armorplan.app.order_reasons import Told, head_reasons, step_reasons
from armorplan.app.reports import OrderReport, StepReport
from armorplan.app.trays import is_seam, tray_title
from armorplan.kernel.units import span_words
from armorplan.steps.model import Step

_DEEP = " " * 6


def order_lines(report: OrderReport, derived: Derived) -> Iterator[str]:
    """Yield the lines of an order, blank ones between the runs.

    Steps that follow each other and are one kind of work, of one seam or one treatment stand
    under a heading, with the reasons they share. Cautions are told in full at the first step of each such run; a step whose
    cautions stand at an earlier one of its kind names that.
    """
    place = {step.id: at for at, step in enumerate(report.steps, start=1)}
    told: dict[tuple[str, tuple[str, ...]], int] = {}
    runs = groupby(report.steps, key=lambda s: tray_title(derived, (derived.work.step(s.id),)))
    for _, found in runs:
        run = list(found)
        common: Told = frozenset()
        if place[run[0].id] > 1:
            yield ""
        if len(run) > 1:
            steps = tuple(derived.work.step(s.id) for s in run)
            yield _heading(run, steps, derived, place)
            reasons, common = head_reasons(run, is_row=is_seam(derived, steps[0]))
            yield from (f"{_DEEP}because: {reason}" for reason in reasons)
            for step in run:
                told.pop((step.kind, step.cautions), None)
        for step in run:
            yield from _lines(place[step.id], step, common)
            yield from _cautions(step, told, place[step.id])


def _heading(
    run: list[StepReport], steps: tuple[Step, ...], derived: Derived, place: dict[str, int]
) -> str:
    by_hand = sum(step.minutes for step in run if step.attended)
    spent = f"  ({span_words(by_hand)})" if by_hand else ""
    reach = f"steps {place[run[0].id]} to {place[run[-1].id]}"
    return f"{tray_title(derived, steps)}, {reach}{spent}"


def _lines(place: int, step: StepReport, common: Told) -> Iterator[str]:
    spent = span_words(step.minutes)
    minutes = spent if step.attended else f"waits {spent}"
    yield f"{place:4d}  {step.title}  ({minutes})"
    yield f"{_DEEP}{step.id}"
    if step.detail:
        yield f"{_DEEP}{step.detail}"
    for reason in step_reasons(step, common):
        yield f"{_DEEP}because: {reason}"
    for line in step.reasons:
        if line.overruled:
            yield f"{_DEEP}overruled: {line.text} [{line.rule}]"
    for kept_not in dict.fromkeys(
        (r.text, r.rule, r.not_kept) for r in step.reasons if r.not_kept
    ):
        text, rule, why = kept_not
        yield f"{_DEEP}not kept: {text} [{rule}] {why}"


def _cautions(
    step: StepReport, told: dict[tuple[str, tuple[str, ...]], int], place: int
) -> Iterator[str]:
    if not step.cautions:
        return
    earlier = told.setdefault((step.kind, step.cautions), place)
    if earlier < place:
        yield f"{_DEEP}CAUTION as at step {earlier}"
        return
    for caution in step.cautions:
        yield f"{_DEEP}CAUTION: {caution}"
