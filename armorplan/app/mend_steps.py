"""The steps of a way back: those that are there only for it, and those of the build done otherwise."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil

from armorplan.app.derived import Derived
from armorplan.app.mending import Way
from armorplan.app.trials import Refitted, full_id, refitted
from armorplan.assembly.model import Side
from armorplan.ledger.mends import MendMove
from armorplan.orders.recovery.model import Means
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import step_id, tray_id

_NO_TIME_MIN = 0.5
"""A move that takes less and touches nothing that stands is no step."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A move of a way back in its build.

    Attributes:
        step: that is to be done; ``None``: nothing is, the maker lives with it.
        is_own: it is there only for the way back.
        opens: what stands no more once it is done, by tails.
        wait: what time alone does after it.
        is_trial: it is no move of the way itself, but tries what the way changed.
    """

    move: MendMove
    step: Step | None
    is_own: bool = False
    opens: tuple[str, ...] = ()
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


def moved(derived: Derived, way: Way) -> tuple[Moved, ...]:
    """Return the moves of a way back with their steps, in order, and the trials of what it changes."""
    found: list[Moved] = []
    run, freed = 1, list[str]()
    for number, move in enumerate(way.mend.moves, start=1):
        standing = full_id(derived, move.step)
        if move.step and not move.opens and derived.work.has(standing):
            run = number + 1
            found.append(Moved(move=move, step=_otherwise(derived.work.step(standing), move, way)))
        elif move.step and not move.opens:
            continue  # Of a build that goes on from another: there is no such step any more.
        elif is_wait(move) and found and (wet := found[-1].step) is not None:
            found[-1] = replace(found[-1], wait=_longer(found[-1].wait, wet, move))
        elif move.opens and not move.minutes:
            freed += move.clears
        elif move.opens or move.minutes >= _NO_TIME_MIN or move.wait_min >= 1:
            step = _own(derived, way, move, (number, run))
            wait = _wait(step, move) if move.wait_min >= 1 and not move.opens else None
            opens = tuple(dict.fromkeys((*freed, *(move.clears if move.opens else ()))))
            freed = []
            found.append(Moved(move=move, step=step, is_own=True, opens=opens, wait=wait))
    found = _with_freed(derived, way, found, freed)
    for refit in refitted(derived, way):
        trial = MendMove(title=refit.step.title)
        at = _trial_at(found, refit)
        found.insert(at, Moved(move=trial, step=refit.step, is_own=True, is_trial=True))
    return tuple(found)


def _with_freed(
    derived: Derived, way: Way, found: list[Moved], freed: Sequence[str]
) -> list[Moved]:
    """Return moves so that one of them opens what asks for no work to be opened.

    What is only done once more has nothing to tick as it is opened: the next own move opens it.
    Where none is left that is the last one before, else the first step of the build by hand that
    is not among them; where there is no such step either, it is ticked once for all.
    """
    if not freed:
        return found
    cleared = {full_id(derived, each) for move in way.mend.moves for each in move.clears}
    own = [at for at, one in enumerate(found) if one.is_own]
    steps = ((at, one.step) for at, one in enumerate(found) if one.step and one.step.attended)
    others = (at for at, step in steps if step.id not in cleared)
    at = own[-1] if own else next(others, None)
    if at is not None:
        opens = tuple(dict.fromkeys((*found[at].opens, *freed)))
        return [*found[:at], replace(found[at], opens=opens), *found[at + 1 :]]
    number = next(i for i, move in enumerate(way.mend.moves, start=1) if move.opens)
    move = replace(way.mend.moves[number - 1], clears=tuple(freed))
    step = _own(derived, way, move, (number, number))
    return [Moved(move=move, step=step, is_own=True, opens=move.clears), *found]


def _trial_at(found: Sequence[Moved], refit: Refitted) -> int:
    """Return where a part is tried: before what fixes it, after it was last cut anew."""
    cut = [at for at, one in enumerate(found) if _cuts(one, refit.part)]
    since = cut[-1] + 1 if cut else 0
    return next((at for at in range(since, len(found)) if _fixes(found[at], refit)), len(found))


def _cuts(one: Moved, part: str) -> bool:
    is_cut = one.move.opens and one.move.means == Means.REMAKE
    return is_cut and one.step is not None and part in one.step.parts


def is_wait(move: MendMove) -> bool:
    """Tell whether time alone does a move."""
    return not move.opens and move.minutes < _NO_TIME_MIN and move.wait_min >= 1


def _fixes(one: Moved, refit: Refitted) -> bool:
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
    named = is_wait(move)
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
