"""Where each step would like to stand, where the relations leave it free."""

from collections import Counter
from collections.abc import Iterable, Mapping

from armorplan.app.effort_rank import Key
from armorplan.assembly.model import Side
from armorplan.relations.model import Before, Relation
from armorplan.steps.model import STEP_RANK, Step, StepKind, Work
from armorplan.steps.naming import plain_subject

Alike = tuple[str, str, str]
"""What a step shares with its like on the other side: piece, kind, plain subject."""
_AFTER = (StepKind.DRIP, StepKind.WATCH, StepKind.DRY, StepKind.CURE)
"""What follows a wet step, in this order."""
_WATCHED = _AFTER.index(StepKind.WATCH) + 1
_SIDES = {side: at for at, side in enumerate(Side)}


def alike(step: Step) -> Alike:
    """Return what a step shares with its like on the other side."""
    return step.piece, step.kind, plain_subject(step)


def order_key(
    work: Work,
    relations: Iterable[Relation],
    moved: Mapping[Alike, tuple[int, int]] | None = None,
) -> dict[str, Key]:
    """Return where each step would like to stand: by kind, as the pattern lists them, left, right.

    What is made left and right stands side by side. Drying follows the step it belongs to, since
    nobody chooses when it starts, once the like on the other side is done: it would only be waited
    for in between, while what was damped there dries out. So do dripping, the watch over what was
    dipped, and the cure. Casing goes right before what it serves: left and right are damped one
    after the other where both are shaped in time, else the one is shaped before the other is damped.
    So is a dipped coat that has a watch of its own: it is watched before the other is dipped.

    Args:
        work: the steps.
        relations: which of them leave a window to shape in.
        moved: what sets joints in its order of least effort, by what sides share.
    """
    place: dict[Alike, tuple[int, int]] = {}
    for at, step in enumerate(work.steps):
        place.setdefault(alike(step), (STEP_RANK[step.kind], at))
    place |= moved or {}
    one_by_one = _damped_one_by_one(work, relations)
    watched = _watched_one_by_one(work)

    def key(step: Step) -> Key:
        leader, off = step, 0
        if step.kind in _AFTER and step.after is not None:
            leader, off = work.step(step.after), _AFTER.index(step.kind) + 1
        elif step.serves is not None:
            leader, off = work.step(step.serves), -1
        if off <= 0 and alike(leader) in one_by_one:
            off += 2 * (_SIDES[leader.side] - len(_SIDES))
        if off <= _WATCHED and alike(leader) in watched:
            off += (_WATCHED + 1) * (_SIDES[leader.side] - len(_SIDES))
        return (*place[alike(leader)], off, _SIDES[leader.side])

    return {step.id: key(step) for step in work.steps}


def _damped_one_by_one(work: Work, relations: Iterable[Relation]) -> frozenset[Alike]:
    """Return what is shaped on both sides and takes longer on one than the other stays damp."""
    steps = (work.step(r.then) for r in relations if isinstance(r, Before) and _closes(work, r))
    return frozenset(alike(step) for step in steps)


def _watched_one_by_one(work: Work) -> frozenset[Alike]:
    """Return the dipped coats that are watched to their end before their like is dipped."""
    leaders = Counter(
        alike(work.step(watch.after)) for watch in work.of_kind(StepKind.WATCH) if watch.after
    )
    return frozenset(leader for leader, watches in leaders.items() if watches > 1)


def _closes(work: Work, relation: Before) -> bool:
    """Tell whether a damp window closes while the like of what it is for is shaped."""
    most = relation.max_lag_min
    if most is None or not work.has(relation.first) or not work.has(relation.then):
        return False
    served = work.step(relation.then)
    return work.step(relation.first).serves == served.id and served.minutes > most
