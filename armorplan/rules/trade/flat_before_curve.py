"""Curving by hand comes after the finish, and after the flat rivets where that is easier."""

from collections.abc import Iterator

from armorplan.pattern.joining import Route
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, SLOWER, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_rivet
from armorplan.steps.model import StepKind

_GROUND = Ground(code="flat-rivets-before-curve", force=Force.EASIER)


def _derive(facts: Facts) -> Iterator[Relation]:
    for curve in facts.work.of_kind(StepKind.FORM_DRY):
        for joint, step in facts.joint_steps():
            hammered = step.kind is StepKind.RIVET and not joint.closes_on_itself
            if hammered and set(joint.parts) <= set(curve.parts):
                yield _GROUND.before(
                    step.id,
                    curve.id,
                    f"On the flat bench the anvil lies square under {facts.names(joint.parts)}; "
                    "once curved, the rivet is set on a slope.",
                    about=(*joint.parts, joint.id),
                    price_min=SLOWER * step.minutes,
                )


_UPPER = sketch_part("upper", holes={"u": (10.0, 10.0)})
_LOWER = sketch_part("lower", holes={"l": (10.0, 10.0)})

RULE = Rule(
    code=_GROUND.code,
    name="Rivet flat, then curve",
    why="A rivet is set fastest and straightest on a flat bench. Where the layers can still be "
    "bent together afterwards, set it flat first. Nothing forbids the other order.",
    mend="Set it over a curved anvil or the end of a round bar, with the head square to the blow, "
    "and have someone hold the piece.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Two layers curved by hand together",
            pattern=sketch(
                _UPPER,
                _LOWER,
                joints=(sketch_rivet("r", "u", "l"),),
                forms=(sketch_form("bow", "upper", "lower", route=Route.DRY),),
            ),
            expects=frozenset({("rivet/r", "curve-by-hand/bow")}),
        ),
        Example(
            title="A joint to a part that is not curved along with it",
            pattern=sketch(
                _UPPER,
                _LOWER,
                joints=(sketch_rivet("r", "u", "l"),),
                forms=(sketch_form("bow", "upper", route=Route.DRY),),
            ),
        ),
    ),
)
