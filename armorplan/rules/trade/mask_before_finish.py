"""Faces that will be glued are masked before oil and finish, on leather that is dry."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_glue, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind

_GROUND = Ground(code="mask-before-finish", force=Force.SPOIL)
_WET = (StepKind.TOOL, StepKind.FORM, StepKind.HARDEN, StepKind.DYE)
_SEALS = {
    StepKind.OIL: "Oil soaks in and keeps the glue off the fibres",
    StepKind.FINISH: "Glue holds the finish, and the finish comes off",
    StepKind.HARDEN: "No glue holds on wax",
}


def _derive(facts: Facts) -> Iterator[Relation]:
    waxed = [step for step in facts.work.of_kind(StepKind.HARDEN) if facts.is_wax(step)]
    sealing = (*facts.first_coats(StepKind.OIL, StepKind.FINISH), *waxed)
    for mask in facts.work.of_kind(StepKind.MASK):
        for wet in facts.last_coats(*_WET):
            touched = shared(wet, mask.parts)
            if touched and wet not in waxed:
                yield _GROUND.before(
                    facts.end_of(wet).id,
                    mask.id,
                    "Tape does not hold on damp leather, and pulls off dye that is not dry: let "
                    f"{facts.names(touched)} dry first.",
                    about=touched,
                )
        for seal in sealing:
            touched = shared(seal, mask.parts)
            if touched:
                yield _GROUND.before(
                    mask.id,
                    seal.id,
                    f"{_SEALS[seal.kind]}: the glue face of {facts.names(touched)} stays free of it "
                    "under tape.",
                    about=(*touched, *mask.joints),
                )


RULE = Rule(
    code=_GROUND.code,
    name="Mask glue faces before oil and finish",
    why="Oil keeps glue off the fibres. A finish lies on the leather like a skin: glue put on it holds "
    "the skin, and the first pull lifts both. So whatever will be glued is covered with tape before "
    "the oil, and stays covered until the last coat of finish is dry. It goes on when the dye is dry "
    "enough for tape to hold.",
    mend="Wipe oil out with a degreaser made for leather, and let it dry. Strip the finish from the glue face with its own solvent, with gloves and air, roughen the "
    "face down to the fibres, and try the glue on it in one corner first.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A plate that is dyed, oiled and finished, and gets a glued patch",
            pattern=sketch(
                sketch_part("patch"),
                sketch_part("plate"),
                joints=(sketch_glue("g", "patch", "plate"),),
                treatments=(
                    sketch_treatment("dye", "plate"),
                    sketch_treatment("oil", "plate"),
                    sketch_treatment("finish", "plate"),
                ),
            ),
            expects=frozenset(
                {
                    ("dry/dye.coat-1.dye", "mask/g"),
                    ("mask/g", "oil/oil.coat-1"),
                    ("mask/g", "finish/finish.coat-1"),
                }
            ),
        ),
        Example(
            title="A patch on a plate that gets neither oil nor finish",
            pattern=sketch(
                sketch_part("patch"),
                sketch_part("plate"),
                joints=(sketch_glue("g", "patch", "plate"),),
            ),
        ),
    ),
)
