"""All wet work is done and dry before a fastener goes in."""

from collections.abc import Iterator

from armorplan.kernel.units import span_words
from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet, sketch_treatment
from armorplan.steps.model import StepKind

_GROUND = Ground(code="wet-before-hardware", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for wet, dry in facts.wet_ends():
        if wet.kind is StepKind.GLUE:
            continue
        wetted = frozenset(dry.parts)
        for joint, step in facts.joint_steps():
            shared = tuple(p for p in joint.parts if p in wetted)
            if shared:
                yield _GROUND.before(
                    dry.id,
                    step.id,
                    f"Under a fastener no brush reaches {facts.names(shared)}, and the metal "
                    f"stains wet leather: {wet.title.split(':')[0].lower()} first, then "
                    f"{span_words(dry.minutes)} of drying.",
                    about=(*shared, joint.id),
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
            title="Raw leather is riveted as it is",
            pattern=sketch(
                sketch_part("upper", holes={"u": (10.0, 10.0)}),
                sketch_part("lower", holes={"l": (10.0, 10.0)}),
                joints=(sketch_rivet("r", "u", "l"),),
            ),
        ),
    ),
)
