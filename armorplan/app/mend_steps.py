"""The steps of a way back: those that are there only for it, and those of the build done otherwise."""

from collections.abc import Container, Iterable, Iterator
from dataclasses import dataclass, replace
from math import ceil

from armorplan.app.derived import Derived
from armorplan.app.mending import Way
from armorplan.app.same_work import tail
from armorplan.assembly.model import Side
from armorplan.ledger.mends import MendMove, Refit
from armorplan.orders.recovery.model import Means
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import lowered, part_name, step_id, tray_id

_NO_TIME_MIN = 0.5
"""A move that takes less and touches nothing that stands is no step."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A move of a way back in its build.

    Attributes:
        step: that is to be done; ``None``: nothing is, the maker lives with it.
        is_own: it is there only for the way back.
        wait: what time alone does after it.
        is_trial: it is no move of the way itself, but tries what the way changed.
    """

    move: MendMove
    step: Step | None
    is_own: bool = False
    wait: Step | None = None
    is_trial: bool = False

    @property
    def saves(self) -> bool:
        """Whether it mends something that stands on as it is: a hole, a colour, a row."""
        return self.is_own and not (self.is_trial or self.move.opens)

    @property
    def ends(self) -> str:
        """The step after which what follows may begin."""
        return self.wait.id if self.wait else self.step.id if self.step else ""


def full_id(derived: Derived, key: str) -> str:
    """Return the id in this build of a step named without it."""
    return f"{derived.assembly.build}/{key}"


def moved(derived: Derived, way: Way) -> tuple[Moved, ...]:
    """Return the moves of a way back with their steps, in order, and the trials of what it changes."""
    found: list[Moved] = []
    run = 1
    for number, move in enumerate(way.mend.moves, start=1):
        standing = full_id(derived, move.step)
        if move.step and not move.opens and derived.work.has(standing):
            run = number + 1
            found.append(Moved(move=move, step=_otherwise(derived.work.step(standing), move, way)))
        elif move.step and not move.opens:
            continue  # Of a build that goes on from another: there is no such step any more.
        elif _is_wait(move) and found and (wet := found[-1].step) is not None:
            found[-1] = replace(found[-1], wait=_longer(found[-1].wait, wet, move))
        elif move.opens or move.minutes >= _NO_TIME_MIN or move.wait_min >= 1:
            step = _own(derived, way, move, (number, run))
            wait = _wait(step, move) if move.wait_min >= 1 and not move.opens else None
            found.append(Moved(move=move, step=step, is_own=True, wait=wait))
    for refit in refitted(derived, way):
        at = next((i for i, one in enumerate(found) if _fixes(one, refit)), len(found))
        trial = MendMove(title=refit.step.title)
        found.insert(at, Moved(move=trial, step=refit.step, is_own=True, is_trial=True))
    return tuple(found)


def _is_wait(move: MendMove) -> bool:
    """Tell whether time alone does a move."""
    return not move.opens and move.minutes < _NO_TIME_MIN and move.wait_min >= 1


def _fixes(one: Moved, refit: "Refitted") -> bool:
    return one.step is not None and one.step.id in refit.before


def _otherwise(step: Step, move: MendMove, way: Way) -> Step | None:
    """Return a step of the build as the way back does it; ``None`` where it leaves it out."""
    if move.left_out:
        return None
    if not step.attended:
        return step
    return replace(
        step,
        title=move.title,
        minutes=_whole(move) if move.minutes else step.minutes,
        tool=move.tool or step.tool,
        detail=_joined(move.detail, step.detail, _told(way, move)),
        cautions=tuple(dict.fromkeys((*move.cautions, *step.cautions))),
    )


def _whole(move: MendMove) -> int:
    return max(1, ceil(round(move.minutes, 6)))


def _told(way: Way, move: MendMove) -> str:
    """Say why this is done, what it does not heed, and what stays for good."""
    spite = "".join(f" It is done in spite of this: {one}" for one in move.in_spite_of)
    return _joined(f"{way.mend.why}{spite}", move.leaves)


def _joined(*texts: str) -> str:
    return " ".join(text for text in texts if text)


def _own(derived: Derived, way: Way, move: MendMove, numbers: tuple[int, int]) -> Step:
    number, run = numbers
    cleared = [
        derived.work.step(step)
        for step in (full_id(derived, key) for key in move.clears)
        if derived.work.has(step)
    ]
    parts = _parts(derived, way, move, cleared)
    piece, side = _where(derived, cleared, parts)
    build = derived.assembly.build
    return Step(
        id=step_id(build, piece, side, StepKind.MEND, f"{way.name}-{number}"),
        kind=StepKind.MEND,
        piece=piece,
        side=side,
        title=move.title,
        tray=tray_id(build, piece, side, f"mend:{way.name}-{run}"),
        parts=parts,
        joints=tuple(dict.fromkeys(j for step in cleared for j in derived.work.sets(step))),
        minutes=_whole(move),
        tool=move.tool,
        detail=_joined(move.detail, _told(way, move)),
        cautions=move.cautions,
    )


def _parts(derived: Derived, way: Way, move: MendMove, cleared: list[Step]) -> tuple[str, ...]:
    """Return the parts a move touches: of a part made anew that one, of joints their layers."""
    known = {part.id for part in derived.assembly.parts}
    if not cleared:
        return tuple(part for part in way.mend.about if part in known)
    shared = set(cleared[0].parts).intersection(*(step.parts for step in cleared))
    if shared and move.means == Means.REMAKE:
        return tuple(part for part in cleared[0].parts if part in shared)
    return tuple(dict.fromkeys(part for step in cleared for part in step.parts))


def _where(derived: Derived, cleared: list[Step], parts: tuple[str, ...]) -> tuple[str, Side]:
    """Return the piece and side a step is listed under."""
    if cleared:
        return cleared[0].piece, cleared[0].side
    if parts:
        sided = derived.assembly.part(parts[0])
        return sided.part.piece, sided.side
    first = derived.work.steps[0]
    return first.piece, first.side


def _wait(step: Step, move: MendMove) -> Step:
    kind = StepKind.DRY
    subject = step.id.rpartition("/")[2]
    named = _is_wait(move)
    return Step(
        id=step_id(step.id.partition("/")[0], step.piece, step.side, kind, f"{subject}.mend"),
        kind=kind,
        piece=step.piece,
        side=step.side,
        title=move.title if named else f"Wait after '{step.title}'",
        tray=f"{step.tray}.wait",
        parts=step.parts,
        minutes=ceil(move.wait_min),
        attended=False,
        after=step.id,
        detail=move.detail if named else "As long as the way back says.",
        cautions=move.cautions,
    )


def _longer(wait: Step | None, step: Step, move: MendMove) -> Step:
    """Return what time alone does after a step, with what it does after that: a cure after a drying."""
    after = _wait(step, move)
    return replace(after, minutes=after.minutes + wait.minutes) if wait else after


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
