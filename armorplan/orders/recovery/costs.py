"""What opening, doing again and making anew take: minutes, waiting, risk and what is lost.

Minutes of a drilled rivet, 3 to 5, and the next size where its hole is worn: common practice, no source.
"""

from collections.abc import Collection, Iterator

from armorplan.assembly.model import SidedJoint
from armorplan.geometry.areas import outline_dm2
from armorplan.geometry.stacks import joint_post
from armorplan.orders.recovery.model import Cost, Means
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.pattern.joining import JointKind
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import lowered
from armorplan.workshop.shelf import Fastener

DRILL_MIN, DRILL_RISK_PCT = 4.0, 0.5
"""A drilled rivet: 3 to 5 minutes; the leather spins or tears once in some hundred."""
UNSCREW_MIN = 1.0
UNLACE_MIN_PER_HOLE = 0.5
CUT_STITCH_MIN, CUT_STITCH_RISK_PCT = 6.0, 4.0
PEEL_MIN, PEEL_RISK_PCT = 12.0, 18.0
"""Glue that has set takes grain with it."""
LAY_OUT_MIN = 5.0
MINUTES_A_PART = 1.0


def sets_what(scene: RecoveryScene, step: Step) -> SidedJoint | None:
    """Return the joint that a step sets, or ``None``."""
    joints = scene.facts.work.sets(step)
    return scene.facts.assembly.joint(joints[0]) if joints else None


def opening_of(
    scene: RecoveryScene, joint: SidedJoint, stands: Collection[str]
) -> tuple[Means, Cost]:
    """Return by what a joint is opened, and what that takes and risks."""
    kind = joint.joint.kind
    if kind is JointKind.SCREW:
        return Means.UNSCREW, Cost(minutes=UNSCREW_MIN)
    if kind is JointKind.LACE:
        return Means.UNSCREW, Cost(minutes=max(1.0, UNLACE_MIN_PER_HOLE * len(joint.stack)))
    minutes, risk_pct = {
        JointKind.RIVET: (DRILL_MIN, DRILL_RISK_PCT),
        JointKind.STITCH: (CUT_STITCH_MIN, CUT_STITCH_RISK_PCT),
        JointKind.GLUE: (PEEL_MIN, PEEL_RISK_PCT),
    }[kind]
    loss = loss_min(scene, joint.parts, stands)
    return Means.DRILL, Cost(minutes=minutes, risk_pct=risk_pct, loss_min=loss)


def opening_words(joint: SidedJoint, title: str) -> str:
    """Return what to do to open a joint, from the title of the step that sets it."""
    verb = {
        JointKind.SCREW: "Undo the screw post",
        JointKind.LACE: "Untie the lace",
        JointKind.RIVET: "Drill out the rivet",
        JointKind.STITCH: "Cut the stitches",
        JointKind.GLUE: "Peel the glue open",
    }[joint.joint.kind]
    where = title.partition(" ")[2]
    return f"{verb}: {lowered(where)}"


def loss_min(scene: RecoveryScene, parts: Collection[str], stands: Collection[str]) -> float:
    """Return what is lost where the dearest of some parts is spoilt: minutes, waiting weighed in."""
    found = [scene.rates.ticks(remake_cost(scene, part, stands)) / 100 for part in sorted(parts)]
    return max(found, default=0.0)


def remake_cost(scene: RecoveryScene, part: str, stands: Collection[str]) -> Cost:
    """Return what making a part anew takes, up to where it may be joined."""
    work = list(scene.own_work(part, stands))
    return Cost(
        minutes=LAY_OUT_MIN + sum(hands_min(step) for step in work),
        wait_min=sum(wait_min(scene, step) for step in work),
    )


def hands_min(step: Step) -> float:
    """Return a part's share of the hands-on minutes of a step; 0 where time alone does it."""
    if not step.attended:
        return 0.0
    count = max(1, len(step.parts))
    return step.minutes if count == 1 else max(MINUTES_A_PART * 2, step.minutes / count)


def wait_min(scene: RecoveryScene, step: Step) -> float:
    """Return the waiting of a step; a cure goes on while its coat dries."""
    if step.attended:
        return 0.0
    if step.kind is StepKind.CURE and step.after:
        drying = scene.facts.work.drying_of(step.after)
        return max(0.0, float(step.minutes - (drying.minutes if drying else 0)))
    return float(step.minutes)


def leather_words(scene: RecoveryScene, part: str) -> str:
    """Return the leather that a part cut anew takes."""
    drawn = scene.facts.assembly.part(part).part
    return f"leather of {drawn.thickness_mm:.1f} mm, {max(0.1, outline_dm2(drawn)):.1f} dm²"


def fastener_hardware(scene: RecoveryScene, joint: SidedJoint) -> tuple[tuple[str, int], ...]:
    """Return what setting a joint again uses up; a screw post or lace serves again."""
    if joint.joint.kind is not JointKind.RIVET:
        return ()
    post = joint_post(scene.facts.assembly.pattern, scene.facts.shelf, joint.joint)
    if post is None:
        return (("rivet", 1),)
    length = f", post {post.length_mm:g} mm" if post.length_mm else ""
    return ((f"{post.fastener.name}{length}", 1),)


def next_size(scene: RecoveryScene, joint: SidedJoint) -> Fastener | None:
    """Return the fastener of the same make with the next larger hole, for a hole that has worn."""
    here = scene.facts.shelf.fastener(joint.joint.fastener)
    if here is None:
        return None
    larger = [each for each in _of_its_make(scene, here) if each.hole_mm > here.hole_mm]
    return min(larger, key=lambda each: (each.hole_mm, each.head_mm, each.id), default=None)


def _of_its_make(scene: RecoveryScene, here: Fastener) -> Iterator[Fastener]:
    for each in scene.facts.shelf.fasteners:
        if (each.kind, each.foot, each.motion) == (here.kind, here.foot, here.motion) and (
            each.load or not here.load
        ):
            yield each


def again_words(scene: RecoveryScene, joint: SidedJoint) -> str:
    """Say with what a joint is set again once it was opened."""
    if joint.joint.kind is not JointKind.RIVET:
        return "Set it again with the same; fresh thread lock on a screw."
    larger = next_size(scene, joint)
    if larger is None:
        return (
            "A new rivet of the same size; where the hole has worn, put a washer under its head."
        )
    return (
        f"A new rivet of the same size; where the hole has worn, the next one up: {larger.name}, "
        f"hole {larger.hole_mm:g} mm."
    )
