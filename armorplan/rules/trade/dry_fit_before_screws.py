"""Screws and laces of a piece are set for good after its dry fit."""

from collections.abc import Iterator

from armorplan.pattern.joining import Joint, JointKind
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.model import StepKind

_GROUND = Ground(code="dry-fit-before-screws", force=Force.USUAL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for fit in facts.work.of_kind(StepKind.DRY_FIT):
        for joint in fit.joints:
            step = facts.work.setting(joint)
            if step and facts.opens_again(step) and not facts.in_harness(step):
                yield _GROUND.before(
                    fit.id,
                    step.id,
                    "On pins it is opened and shifted in a moment; with its lock or its knot it is "
                    "set once, after the dry fit.",
                    about=step.parts,
                )


_UPPER = sketch_part("upper", holes={"u": (10.0, 10.0)})
_LOWER = sketch_part("lower", holes={"l": (10.0, 10.0)})

RULE = Rule(
    code=_GROUND.code,
    name="Screws and laces after the dry fit",
    why="At the dry fit a temporary pin does for every joint. A screw post is set once, with its "
    "washers and a drop of thread lock, and a lace is tied once, when nothing is shifted any more. "
    "Both open again, so nothing is spoilt where one of them is set earlier.",
    mend="Leave it for the dry fit, if it moves freely. Take it out if a hole has to move, and put "
    "fresh thread lock on it afterwards.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A screw post of a piece",
            pattern=sketch(
                _UPPER,
                _LOWER,
                joints=(
                    Joint(id="s", kind=JointKind.SCREW, stack=("u", "l"), fastener="screw_post"),
                ),
            ),
            expects=frozenset({("dry-fit/piece", "screw/s")}),
        ),
        Example(
            title="A rivet waits for a stronger reason",
            pattern=sketch(_UPPER, _LOWER, joints=(sketch_rivet("r", "u", "l"),)),
        ),
    ),
)
