"""What can be taken back by itself: joints opened, straps pulled out, trials done again. And doing it again."""

from collections.abc import Collection, Iterable

from armorplan.assembly.model import SidedJoint
from armorplan.orders.recovery.checking import is_shut
from armorplan.orders.recovery.costs import (
    again_words,
    fastener_hardware,
    opening_of,
    opening_words,
    sets_what,
)
from armorplan.orders.recovery.model import Bar, Cost, Doing, Means, TakeBack
from armorplan.orders.recovery.moves import (
    DRILL_CAUTIONS,
    DRILL_HOW,
    DRILL_TOOL,
    MoveNote,
    Told,
)
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.pattern.joining import JointKind
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import lowered

PULLED_OUT = {
    StepKind.THREAD: ("Pull it out again", 1.0),
    StepKind.MOUNT: ("Take it off again", 1.5),
    StepKind.FORM_DRY: ("Bend it back by hand", 2.0),
}
"""What comes off without a tool, and in how many minutes (common practice, no source)."""
REPEATED = frozenset(
    (StepKind.FIT, StepKind.INSPECT, StepKind.PACK, StepKind.CHECK, StepKind.MASK)
)
"""What is only done once more: nothing is spoilt by it."""


def can_be_opened(scene: RecoveryScene, step_id: str) -> bool:
    """Tell whether a step can be taken back by itself. A cut, a hole, a dye or a form cannot."""
    step = scene.step(step_id)
    return bool(scene.facts.work.sets(step)) or step.kind in PULLED_OUT or step.kind in REPEATED


def all_opened(
    scene: RecoveryScene, seeds: Iterable[str], stands: Collection[str]
) -> tuple[str, ...]:
    """Return the steps that may have to be taken back: the seeds, and what bars opening or redoing them."""
    held = frozenset(stands)
    found: set[str] = set()
    todo = sorted(set(seeds) & held)
    while todo:
        step = todo.pop()
        if step in found or not can_be_opened(scene, step):
            continue
        found.add(step)
        for bar in scene.bars_of(step):
            if scene.binds(bar) and is_shut(bar, held):
                todo.extend(sorted(bar.of))
    return tuple(sorted(found, key=lambda one: (scene.place.get(one, 0), one)))


def for_good(bar: Bar, movable: Collection[str], stands: Collection[str]) -> bool:
    """Tell whether a bar is shut, and nothing that shuts it can be moved."""
    rest = bar.of - {bar.first}
    return is_shut(bar, frozenset(stands)) and not (rest & frozenset(movable))


def opening(scene: RecoveryScene, step_id: str, stands: Collection[str]) -> Told:
    """Return the move that takes a step back."""
    step = scene.step(step_id)
    joint = sets_what(scene, step)
    return _taken_off(step) if joint is None else _opened(scene, (step, joint), stands)


def _opened(scene: RecoveryScene, what: tuple[Step, SidedJoint], stands: Collection[str]) -> Told:
    step, joint = what
    means, cost = opening_of(scene, joint, stands)
    is_rivet = joint.joint.kind is JointKind.RIVET
    move = TakeBack(
        id=f"open:{step.id}",
        means=means,
        title=opening_words(joint, step.title),
        clears=frozenset((step.id,)),
        cost=cost,
    )
    return move, MoveNote(
        detail=DRILL_HOW if is_rivet else "",
        tool=DRILL_TOOL if is_rivet else step.tool,
        cautions=DRILL_CAUTIONS if is_rivet else step.cautions,
        clears=(step.id,),
        group=row_name(scene, joint),
    )


def row_name(scene: RecoveryScene, joint: SidedJoint) -> str:
    """Return the id of the row that a joint is worked with; empty where it has none."""
    seam = scene.facts.assembly.seam_of(joint.id)
    return seam.id if seam else ""


def _taken_off(step: Step) -> Told:
    words, minutes = PULLED_OUT.get(step.kind, ("To be done once more", 0.0))
    move = TakeBack(
        id=f"open:{step.id}",
        means=Means.UNSCREW,
        title=f"{words}: {lowered(step.title)}",
        clears=frozenset((step.id,)),
        cost=Cost(minutes=minutes),
    )
    return move, MoveNote(tool=step.tool, clears=(step.id,))


def again(scene: RecoveryScene, step_id: str, in_spite_of: frozenset[str] = frozenset()) -> Told:
    """Return the move that does a step again which was taken back."""
    step = scene.step(step_id)
    joint = sets_what(scene, step)
    move = Doing(
        id=f"again:{step.id}",
        does=step.id,
        title=f"{step.title} again",
        in_spite_of=in_spite_of,
        cost=Cost(
            minutes=float(step.minutes),
            hardware=fastener_hardware(scene, joint) if joint else (),
        ),
    )
    return move, MoveNote(
        detail=again_words(scene, joint) if joint else "",
        tool=step.tool,
        cautions=step.cautions,
        step=step.id,
        group=row_name(scene, joint) if joint else "",
    )
