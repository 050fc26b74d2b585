"""What was roughened is glued at once."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.trade import roughen_before_glue
from armorplan.steps.model import StepKind

_GROUND = Ground(code="glue-at-once", force=Force.USUAL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for roughen in facts.work.of_kind(StepKind.ROUGHEN):
        for joint in roughen.joints:
            glue = facts.work.setting(joint)
            if glue is not None:
                yield _GROUND.together(
                    frozenset((roughen.id, glue.id)),
                    f"Open fibres take up dust and the grease of hands: {facts.names(roughen.parts)} "
                    "are glued as soon as they are roughened.",
                    about=(*roughen.parts, joint),
                )


RULE = Rule(
    code=_GROUND.code,
    name="Glue as soon as it is roughened",
    why="A fresh rough face holds best. Left lying, it gathers dust and is touched, and both keep "
    "glue off.",
    mend="Brush the dust off, or go over both faces once more, and then glue.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A patch on a finished plate",
            pattern=roughen_before_glue.RULE.examples[0].pattern,
            expects=frozenset({("glue/g | roughen/g", "")}),
        ),
        Example(
            title="Two plates glued flesh to flesh",
            pattern=roughen_before_glue.RULE.examples[-1].pattern,
        ),
    ),
)
