"""Trials of changed parts: each is tried with its neighbours before anything fixes it for good."""

from collections.abc import Container, Iterable, Iterator
from dataclasses import dataclass, replace
from math import ceil

from armorplan.app.derived import Derived
from armorplan.app.mending import Way
from armorplan.app.same_work import tail
from armorplan.ledger.mends import Refit
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import lowered, part_name, step_id, tray_id


def full_id(derived: Derived, key: str) -> str:
    """Return the id in this build of a step named without it."""
    return f"{derived.assembly.build}/{key}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Refitted:
    """A trial of a changed part: the step, what comes before it, and what waits for it."""

    part: str
    step: Step
    after: tuple[str, ...]
    before: tuple[str, ...]


def refitted(derived: Derived, way: Way) -> Iterator[Refitted]:
    """Yield the trials of the parts that a way back changes."""
    for number, refit in enumerate(way.mend.refits, start=1):
        fit = fit_of(derived, refit.part)
        if fit is not None:
            yield _refitted(derived, (way, refit, number), fit)


def fit_of(derived: Derived, part: str) -> Step | None:
    """Return the dry fit of a part's own piece; that of its harness where its piece has none."""
    fits = [
        fit
        for fit in derived.work.touching(part, StepKind.DRY_FIT)
        if derived.mending is None or fit.id not in derived.mending.own
    ]
    if not fits:
        return None
    piece = derived.assembly.part(part).part.piece
    return next((fit for fit in fits if fit.piece == piece), fits[0])


def to_fix(derived: Derived, part: str, stands: Container[str]) -> Iterator[str]:
    """Yield by their tails the steps that fix a part for good and do not stand."""
    for joint in derived.assembly.joints_of(part):
        step = derived.work.setting(joint.id)
        if step is not None and joint.joint.kind.is_permanent and step.id not in stands:
            yield tail(step.id)


def _refitted(derived: Derived, asked: tuple[Way, Refit, int], fit: Step) -> Refitted:
    way, refit, number = asked
    build = derived.assembly.build
    mine = [j for j in derived.assembly.joints_of(refit.part) if j.id in fit.joints]
    neighbours = dict.fromkeys(part for joint in mine for part in joint.parts)
    name = part_name(derived.assembly, refit.part)
    share = len(mine) / len(fit.joints) if fit.joints else 1.0
    step = replace(
        fit,
        id=step_id(build, fit.piece, fit.side, StepKind.MEND, f"{way.name}-fit-{number}"),
        title=f"Dry-fit {lowered(name)} again with its neighbours",
        tray=tray_id(build, fit.piece, fit.side, f"mend:{way.name}-fit-{number}"),
        parts=tuple(dict.fromkeys((refit.part, *neighbours))),
        joints=tuple(joint.id for joint in mine),
        minutes=max(1, ceil(round(fit.minutes * share, 6))),
        detail=f"{name} is another than was tried before. Pins in its joints, bend fully, and sign "
        "off before anything holds it for good.",
    )
    return Refitted(
        part=refit.part,
        step=step,
        after=tuple(_made_before(derived, refit.part, fit)),
        before=_known(derived, refit.before),
    )


def _made_before(derived: Derived, part: str, fit: Step) -> Iterator[str]:
    """Yield what has to be done to a part before it is tried at all."""
    index = derived.index
    for at in index.by_member[index.number[fit.id]]:
        first = index.steps[index.firsts[at]]
        if index.binds[at] and part in derived.work.step(first).parts:
            yield first


def _known(derived: Derived, tails: Iterable[str]) -> tuple[str, ...]:
    return tuple(s for s in (full_id(derived, key) for key in tails) if derived.work.has(s))
