"""Making a part anew: what holds it is opened, all that was done to it is done again, with its drying.

Steps that a part shares with others (a bath, a forming) stand for the others; what the part
takes of them alone has no step of its own in the build.
"""

from collections.abc import Collection, Iterable

from armorplan.orders.recovery.costs import LAY_OUT_MIN, hands_min, leather_words, wait_min
from armorplan.orders.recovery.model import Cost, Doing, Means, TakeBack
from armorplan.orders.recovery.moves import MoveNote, Told
from armorplan.orders.recovery.opened_for import with_open
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import lowered, part_name

SPOIL_RISK_PCT = 2.0
"""So often something goes wrong once more (common practice, no source)."""
ANEW = "anew "
"""The group of what is done again to a part begins so; ``REMAKE``: the id of its cutting."""
REMAKE = "remake:"
_HELD = (StepKind.THREAD, StepKind.MOUNT)


def cut_of(scene: RecoveryScene, part: str) -> Step | None:
    """Return the step that cuts a part, or ``None``."""
    return next(iter(scene.facts.work.touching(part, StepKind.CUT)), None)


def held_by(scene: RecoveryScene, part: str, stands: Collection[str]) -> tuple[Step, ...]:
    """Return what holds a part and has to be open before it comes out."""
    put_on = scene.facts.work.touching(part, *_HELD)
    joints = scene.joint_steps_of(part)
    return tuple(step for step in (*joints, *put_on) if step.id in stands)


def anew(
    scene: RecoveryScene,
    parts: Iterable[str],
    stands: Collection[str],
    wanted: Collection[str] = (),
) -> tuple[Told, ...]:
    """Return the moves that make parts anew, in order.

    Args:
        scene: the build.
        parts: sided ids.
        stands: steps that stand.
        wanted: steps that do not stand, and have their place among what is done again.
    """
    core: list[Told] = []
    held = dict[str, None]()
    for part in parts:
        core.extend(_of_part(scene, part, stands, wanted))
        held |= dict.fromkeys(step.id for step in held_by(scene, part, stands))
    return with_open(scene, tuple(core), held, stands)


def _of_part(
    scene: RecoveryScene, part: str, stands: Collection[str], wanted: Collection[str]
) -> Iterable[Told]:
    work = list(scene.own_work(part, frozenset(stands) | frozenset(wanted)))
    name = lowered(part_name(scene.facts.assembly, part))
    cleared = tuple(step.id for step in work if step.parts == (part,) and step.id in stands)
    yield (
        TakeBack(
            id=f"{REMAKE}{part}",
            means=Means.REMAKE,
            title=f"Cut {name} anew: lay it out on leather that is left",
            clears=frozenset(cleared),
            cost=Cost(
                minutes=LAY_OUT_MIN,
                risk_pct=SPOIL_RISK_PCT,
                hardware=((leather_words(scene, part), 1),),
            ),
        ),
        MoveNote(
            detail="Trace it from the drawing, not from the spoilt one; mark its side and its up "
            "arrow, and lay the spoilt one aside for smaller parts.",
            clears=cleared,
        ),
    )
    for step in work:
        yield _again(scene, step, part, name)


def _again(scene: RecoveryScene, step: Step, part: str, name: str) -> Told:
    alone = step.parts == (part,)
    head = step.title.split(":")[0]
    move = Doing(
        id=f"anew:{step.id}+{part}",
        does=step.id if alone else f"{step.id}+{part}",
        title=f"{head} again" if alone else f"{head}, for {name} alone",
        cost=Cost(
            minutes=float(step.minutes) if alone and step.attended else hands_min(step),
            wait_min=wait_min(scene, step),
        ),
    )
    return move, MoveNote(
        tool=step.tool,
        cautions=step.cautions,
        step=step.id if alone else "",
        group=f"{ANEW}{part}",
    )
