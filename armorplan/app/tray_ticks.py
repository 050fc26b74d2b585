"""What one key may tick of a tray: never a coat on a wet one."""

from collections.abc import Iterator

from armorplan.app.moment import BenchMoment
from armorplan.ledger.records import StepStatus
from armorplan.steps.model import Step


def waits_for_drying(moment: BenchMoment, steps: tuple[str, ...]) -> dict[str, str]:
    """Return which of the steps of one tray wait for a drying, each with the title of that.

    A single step is ticked whatever it waits for: it happened. Of a tray only what can have been
    done in one go is ticked. So no step after a drying that runs, or that another step of the tray
    begins; nor a drying of what is not done.
    """
    work = moment.derived.work
    if len(steps) < 2 or len({work.step(step).tray for step in steps}) > 1:  # noqa: PLR2004
        return {}
    chosen = frozenset(steps)
    found = {}
    for step in steps:
        if moment.ledger.record(step).status is not StepStatus.DONE:
            wet = next(_wet(moment, step, chosen), None)
            if wet is not None:
                found[step] = wet.title
    return found


def _wet(moment: BenchMoment, name: str, chosen: frozenset[str]) -> Iterator[Step]:
    """Yield the dryings that a step would have to wait for now."""
    work, index = moment.derived.work, moment.derived.index
    step = work.step(name)
    if not step.attended and not _is_begun(moment, name) and not _is_done(moment, step.after):
        yield work.step(step.after or name)
    for at in index.by_member[index.number[name]] if name in index.number else ():
        first = index.steps[index.firsts[at]]
        if not index.binds[at] or not work.has(first) or work.step(first).attended:
            continue
        runs = _is_begun(moment, first) and not _is_over(moment, first)
        if runs or (work.step(first).after in chosen and not _is_over(moment, first)):
            yield work.step(first)


def _is_begun(moment: BenchMoment, step: str) -> bool:
    return moment.ledger.record(step).status is not StepStatus.UNTOUCHED


def _is_done(moment: BenchMoment, step: str | None) -> bool:
    return step is None or moment.ledger.record(step).status is StepStatus.DONE


def _is_over(moment: BenchMoment, step: str) -> bool:
    return _is_done(moment, step) or step in moment.dried
