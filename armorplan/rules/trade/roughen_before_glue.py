"""Glue faces are roughened after the finish is dry, and before the glue."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_glue, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind

_GROUND = Ground(code="roughen-before-glue", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for roughen in facts.work.of_kind(StepKind.ROUGHEN):
        for finish in facts.last_coats(StepKind.FINISH):
            touched = shared(finish, roughen.parts)
            if touched:
                yield _GROUND.before(
                    facts.end_of(finish).id,
                    roughen.id,
                    f"Finish runs into open fibres and seals them: finish {facts.names(touched)}, and "
                    "let that dry, before the glue face is opened.",
                    about=touched,
                )
        for joint in roughen.joints:
            glue = facts.work.setting(joint)
            if glue is not None:
                yield _GROUND.before(
                    roughen.id,
                    glue.id,
                    "Grain and finish are smooth and closed, and glue holds on fibres only: both "
                    f"faces are roughened first, of {facts.names(roughen.parts)}.",
                    about=(*roughen.parts, joint),
                )


_PATCHED = sketch(
    sketch_part("patch"),
    sketch_part("plate"),
    joints=(sketch_glue("g", "patch", "plate"),),
    treatments=(sketch_treatment("finish", "plate"),),
)

RULE = Rule(
    code=_GROUND.code,
    name="Roughen before gluing",
    why="Glue has to get hold of fibres. The grain is a smooth skin and a finish is a second one, so "
    "both faces are opened with a rasp or coarse paper after the finish is dry, within the line that "
    "the upper layer will cover.",
    mend="Pull it apart while the glue is fresh, or warm it gently and open it from a corner. Rub the "
    "old glue off, roughen both faces, and glue again.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A patch on the grain of a finished plate",
            pattern=_PATCHED,
            expects=frozenset(
                {("dry/finish.coat-1.finish", "roughen/g"), ("roughen/g", "glue/g")}
            ),
        ),
        Example(
            title="Two plates glued flesh to flesh",
            pattern=sketch(
                sketch_part("upper"),
                replace(sketch_part("lower"), grain_out=False),
                joints=(sketch_glue("g", "upper", "lower"),),
            ),
        ),
    ),
)
