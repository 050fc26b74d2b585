"""All wet work is done and dry before a fastener goes in."""

from collections.abc import Iterator

from armorplan.kernel.units import span_words
from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import COATS, Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import (
    sketch,
    sketch_glue,
    sketch_part,
    sketch_rivet,
    sketch_treatment,
)
from armorplan.steps.model import SETS_JOINT, Step, StepKind

_GROUND = Ground(code="wet-before-hardware", force=Force.SPOIL)
_OF_METAL = (StepKind.RIVET, StepKind.SCREW, StepKind.MOUNT)


def _why(wet: Step, step: Step, names: str) -> str:
    metal = step.kind in _OF_METAL
    if wet.kind not in COATS:
        return (
            f"On iron the wet leather of {names} turns blue-black"
            if metal
            else f"Wetting {names} loosens what holds it"
        )
    if metal:
        return f"Under metal no brush reaches {names}, and finish spots the metal"
    return f"Once {names} is held fast, no brush reaches its covered face"


def _derive(facts: Facts) -> Iterator[Relation]:
    for wet, dry in facts.wet_before_handling():
        if wet.kind is StepKind.GLUE:
            continue
        for step in facts.work.of_kind(StepKind.MOUNT, *SETS_JOINT):
            touched = shared(step, dry.parts)
            if touched:
                yield _GROUND.before(
                    dry.id,
                    step.id,
                    f"{_why(wet, step, facts.names(touched))}: '{wet.title.split(':')[0]}' first, then "
                    f"{span_words(dry.minutes)} of drying.",
                    about=(*touched, *step.joints),
                    numbers=(Quantity(name="drying", value=dry.minutes, unit="min"),),
                )


RULE = Rule(
    code=_GROUND.code,
    name="Wet work before hardware",
    why="No brush reaches under a head, a strap or a lining. Dye and finish spot the metal, and "
    "wet leather on iron turns blue-black. So every bath is over and dry before the first "
    "fastener, buckle or lining goes on.",
    mend="Mask the metal, work dye or finish in with a fine brush as far as it reaches, and wipe "
    "the heads at once. Blue-black spots are lightened with a weak acid made for leather: "
    "follow its label.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Two dyed plates and the rivet through them",
            pattern=sketch(
                sketch_part("upper", holes={"u": (10.0, 10.0)}),
                sketch_part("lower", holes={"l": (10.0, 10.0)}),
                joints=(sketch_rivet("r", "u", "l"),),
                treatments=(sketch_treatment("dye", "upper", "lower"),),
            ),
            expects=frozenset({("dry/dye.coat-1.dye", "rivet/r")}),
        ),
        Example(
            title="A lining is glued in when the plate's finish has dried",
            pattern=sketch(
                sketch_part("plate"),
                sketch_part("lining", kind=PartKind.LINING),
                joints=(sketch_glue("g", "plate", "lining"),),
                treatments=(sketch_treatment("finish", "plate"),),
            ),
            expects=frozenset({("dry/finish.coat-1.finish", "glue/g")}),
        ),
        Example(
            title="Raw leather is riveted as it is",
            pattern=sketch(
                sketch_part("upper", holes={"u": (10.0, 10.0)}),
                sketch_part("lower", holes={"l": (10.0, 10.0)}),
                joints=(sketch_rivet("r", "u", "l"),),
            ),
        ),
    ),
)
