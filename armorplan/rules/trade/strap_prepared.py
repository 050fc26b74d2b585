"""Straps are ready before they are wanted."""

from collections.abc import Iterator

from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import COATS, Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet, sketch_treatment
from armorplan.steps.model import SETS_JOINT, StepKind

_GROUND = Ground(code="strap-prepared-before-use", force=Force.SPOIL)
_USES = (StepKind.FORM_DRY, StepKind.MOUNT, StepKind.THREAD, StepKind.DRY_FIT, *SETS_JOINT)
_WET = (StepKind.CASE, *COATS)


def _derive(facts: Facts) -> Iterator[Relation]:
    for prepare in facts.work.of_kind(StepKind.PREPARE_STRAP):
        strap = prepare.parts[0]
        for step in facts.work.touching(strap, *_WET):
            yield _GROUND.before(
                prepare.id,
                step.id,
                f"A tip rounded or an end skived later shows raw, undyed leather on "
                f"{facts.name(strap)}.",
                about=(strap,),
            )
        for step in facts.work.touching(strap, *_USES):
            yield _GROUND.before(
                prepare.id,
                step.id,
                f"{facts.name(strap)} can be skived, rounded and checked for length only while "
                "it is loose.",
                about=(strap,),
            )


RULE = Rule(
    code=_GROUND.code,
    name="Straps ready before they are wanted",
    why="A strap is skived, rounded and checked for length while it is loose, flat and undyed. On"
    " the armour the tool no longer reaches it, and after the dye every cut shows raw.",
    mend="Round and skive what can be reached, and touch it up with dye. A strap that is too long "
    "is shortened by a hole; one that is too short is cut anew, since a strap pieced together"
    " does not carry.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A strap riveted to a plate",
            pattern=sketch(
                sketch_part("strap", kind=PartKind.STRAP, holes={"s": (8.0, 20.0)}),
                sketch_part("plate", holes={"p": (8.0, 8.0)}),
                joints=(sketch_rivet("r", "s", "p"),),
            ),
            expects=frozenset(
                {
                    ("prepare-strap/strap", "dry-fit/piece"),
                    ("prepare-strap/strap", "rivet/r"),
                }
            ),
        ),
        Example(
            title="A dyed strap",
            pattern=sketch(
                sketch_part("strap", kind=PartKind.STRAP),
                treatments=(sketch_treatment("dye", "strap"),),
            ),
            expects=frozenset({("prepare-strap/strap", "dye/dye.coat-1")}),
        ),
        Example(
            title="A strap that nothing fastens yet",
            pattern=sketch(sketch_part("strap", kind=PartKind.STRAP)),
        ),
    ),
)
