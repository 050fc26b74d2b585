"""What a machine did not cut through is freed with a knife before anything is done with the part."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import by_machine, sketch, sketch_part
from armorplan.steps.model import StepKind

_GROUND = Ground(code="free-before-use", force=Force.SPOIL)
_HANDLED = (
    *(StepKind.CHAR, StepKind.NUMBER, StepKind.BEVEL, StepKind.SKIVE, StepKind.PUNCH),
    *(StepKind.PREPARE_STRAP, StepKind.CASE, StepKind.TOOL, StepKind.DRY_FIT),
)


def _derive(facts: Facts) -> Iterator[Relation]:
    for free in facts.work.of_kind(StepKind.FREE):
        for part in free.parts:
            for step in facts.work.touching(part, *_HANDLED):
                yield _GROUND.before(
                    free.id,
                    step.id,
                    f"{facts.name(part)} may still hang in the hide where the machine did not get "
                    "through, and tears there when it is pulled: freed with the knife first.",
                    about=(part,),
                )


RULE = Rule(
    code=_GROUND.code,
    name="Free with the knife what the machine left",
    why="No hide is of one thickness, and where it is thicker a beam or a machine's blade does not "
    "get through. A part that is pulled out of the hide then tears along its grain.",
    mend="Cut back to sound leather where the part has room for it. A torn grain can be glued down "
    "under the finish, and shows.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A bevelled plate that a machine cuts",
            pattern=by_machine(sketch(sketch_part("plate", bevelled=True))),
            expects=frozenset(
                {("cut-free/piece", "take-off-char/piece"), ("cut-free/piece", "bevel/plate")}
            ),
        ),
        Example(
            title="A bevelled plate that a knife cuts",
            pattern=sketch(sketch_part("plate", bevelled=True)),
        ),
    ),
)
