"""Making a part anew: all that was done to it is gone, and done again in order, with its drying.

Steps that a part shares with others (a bath, a forming) stand for the others. Of the part alone they
are steps of their own in the problem, named ``STEP+PART``.
"""

from collections.abc import Collection
from itertools import pairwise

from armorplan.orders.recovery.costs import LAY_OUT_MIN, hands_min, leather_words, wait_min
from armorplan.orders.recovery.model import Bar, Cost, Doing, Means, TakeBack
from armorplan.orders.recovery.moves import Gathered, MoveNote
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.orders.recovery.taking_back import for_good
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import lowered, part_name

SPOIL_RISK_PCT = 2.0
"""So often something goes wrong once more (common practice, no source)."""
_HELD = (StepKind.THREAD, StepKind.MOUNT)


def shared_id(step: Step, part: str) -> str:
    """Return the name of a part's share of a step in the problem."""
    return step.id if step.parts == (part,) else f"{step.id}+{part}"


def cut_of(scene: RecoveryScene, part: str) -> Step | None:
    """Return the step that cuts a part, or ``None``."""
    return next(iter(scene.facts.work.touching(part, StepKind.CUT)), None)


def held_by(scene: RecoveryScene, part: str, stands: Collection[str]) -> tuple[Step, ...]:
    """Return what holds a part and has to be open before it comes out."""
    put_on = scene.facts.work.touching(part, *_HELD)
    joints = scene.joint_steps_of(part)
    return tuple(step for step in (*joints, *put_on) if step.id in stands)


def make_anew(
    scene: RecoveryScene,
    gathered: Gathered,
    part: str,
    stands: Collection[str],
    wanted: Collection[str] = (),
) -> None:
    """Gather the moves that cut a part anew and do again what was done to it.

    Args:
        scene: the build.
        gathered: where they go.
        part: sided id.
        stands: steps that stand.
        wanted: steps of this part alone that do not stand, and have their place among them.
    """
    held = frozenset(stands)
    chain = list(scene.own_work(part, held | frozenset(wanted)))
    standing = [step for step in chain if step.id in held]
    if not standing:
        return
    name = part_name(scene.facts.assembly, part)
    ids = [shared_id(step, part) for step in standing]
    hardware = ((leather_words(scene, part), 1),)
    gathered.add(
        TakeBack(
            id=f"remake:{part}",
            means=Means.REMAKE,
            title=f"Cut {lowered(name)} anew: lay it out on leather that is left",
            clears=frozenset(ids),
            needs_open=frozenset(step.id for step in held_by(scene, part, held)),
            cost=Cost(minutes=LAY_OUT_MIN, risk_pct=SPOIL_RISK_PCT, hardware=hardware),
        ),
        MoveNote(
            detail="Trace it from the drawing, not from the spoilt part; mark its side and its up arrow.",
            clears=tuple(step.id for step in standing if step.parts == (part,)),
        ),
    )
    gathered.done.update(ids)
    gathered.goal.update(ids)
    for step in standing:
        _again(scene, gathered, (step, part, name), held)
    _in_order(scene, gathered, part, chain, held)


def _again(
    scene: RecoveryScene,
    gathered: Gathered,
    what: tuple[Step, str, str],
    stands: Collection[str],
) -> None:
    step, part, name = what
    alone = step.parts == (part,)
    in_spite_of = frozenset(
        bar.id for bar in scene.bars_of(step.id) if alone and for_good(bar, (), stands)
    )
    head = step.title.split(":")[0]
    title = f"{head} again" if alone else f"{head}, for {lowered(name)} alone"
    gathered.add(
        Doing(
            id=f"anew:{shared_id(step, part)}",
            does=shared_id(step, part),
            title=title,
            in_spite_of=in_spite_of,
            cost=Cost(
                minutes=float(step.minutes) if alone and step.attended else hands_min(step),
                wait_min=wait_min(scene, step),
            ),
        ),
        MoveNote(
            tool=step.tool,
            cautions=step.cautions,
            step=step.id if alone else "",
            group=f"anew {part}",
        ),
    )


def _in_order(
    scene: RecoveryScene,
    gathered: Gathered,
    part: str,
    chain: list[Step],
    stands: Collection[str],
) -> None:
    """Bar each from coming after the next one, and the last from coming after what holds the part."""
    ids = [shared_id(step, part) for step in chain]
    name = lowered(part_name(scene.facts.assembly, part))
    for at, (first, then) in enumerate(pairwise(ids)):
        why = f"On {name} made anew '{chain[at].title.split(':')[0]}' comes first."
        gathered.bars.append(
            Bar(id=f"anew-{part}-{at}", first=first, of=frozenset((then,)), why=why)
        )
    for step in held_by(scene, part, stands):
        why = f"{name.capitalize()} has to be ready before it is joined."
        gathered.bars.append(
            Bar(
                id=f"anew-{part}-{step.id}",
                first=ids[-1],
                of=frozenset((step.id,)),
                why=why,
            )
        )
