"""Every layer of a stack is there, with its hole, before the fastener goes through it."""

from collections.abc import Iterator

from armorplan.assembly.model import SidedJoint
from armorplan.pattern.joining import JointKind
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(
    code="stack-before-joint", force=Force.CANNOT, source="follows from the step itself"
)


def _pinned(facts: Facts, fit: Step) -> tuple[str, ...]:
    """Return the parts that the pins of a dry fit go through."""
    stacks = (facts.assembly.joint(joint).stack for joint in fit.joints)
    return tuple(dict.fromkeys(part for stack in stacks for part, hole in stack if hole))


def _text(facts: Facts, joint: SidedJoint, part: str) -> str:
    if joint.joint.kind is JointKind.LACE:
        return (
            f"The lace passes {len(joint.stack)} holes of {facts.names(joint.parts)}: those of "
            f"{facts.name(part)} have to be there."
        )
    return (
        f"The fastener passes {len(joint.stack)} layers and {facts.name(part)} is one of them: its "
        "hole has to be there."
    )


def _derive(facts: Facts) -> Iterator[Relation]:
    for joint, step in facts.joint_steps():
        for part in dict.fromkeys(part for part, hole in joint.stack if hole):
            for punch in facts.work.touching(part, StepKind.PUNCH):
                yield _GROUND.before(
                    punch.id,
                    step.id,
                    _text(facts, joint, part),
                    about=(part, joint.id),
                )
    for fit in facts.work.of_kind(StepKind.DRY_FIT):
        for part in _pinned(facts, fit):
            for punch in facts.work.touching(part, StepKind.PUNCH):
                yield _GROUND.before(
                    punch.id,
                    fit.id,
                    f"The pins of the dry fit go through the holes of {facts.name(part)}.",
                    about=(part,),
                )


RULE = Rule(
    code=_GROUND.code,
    name="All layers before their fastener",
    why="A rivet, screw or pin needs every layer of its stack in place, each with its hole "
    "punched. A layer remembered afterwards means drilling the rivet out again.",
    mend="Drill the head away, push the shank out, put the missing layer in, and choose the post "
    "anew: the stack has grown.",
    force=_GROUND.force,
    source=_GROUND.source,
    derive=_derive,
    examples=(
        Example(
            title="A rivet through two plates",
            pattern=sketch(
                sketch_part("upper", holes={"u": (10.0, 10.0)}),
                sketch_part("lower", holes={"l": (10.0, 10.0)}),
                joints=(sketch_rivet("r", "u", "l"),),
            ),
            expects=frozenset(
                {
                    ("punch/upper", "rivet/r"),
                    ("punch/lower", "rivet/r"),
                    ("punch/upper", "dry-fit/piece"),
                    ("punch/lower", "dry-fit/piece"),
                }
            ),
        ),
        Example(
            title="A punched plate that nothing is fastened to",
            pattern=sketch(sketch_part("plate", holes={"h": (10.0, 10.0)})),
        ),
    ),
)
