"""Overlaps and turned edges are skived on dry, loose leather."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import COATS, Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet, sketch_treatment
from armorplan.steps.model import SETS_JOINT, StepKind

_GROUND = Ground(code="skive-before-wet", force=Force.SPOIL)
_LATER = (StepKind.CASE, *COATS, StepKind.FORM_DRY, StepKind.DRY_FIT, *SETS_JOINT)


def _derive(facts: Facts) -> Iterator[Relation]:
    for skive in facts.work.of_kind(StepKind.SKIVE):
        part = skive.parts[0]
        name = facts.name(part)
        for step in facts.work.touching(part, *_LATER):
            if facts.in_harness(step):
                continue
            if step.kind is StepKind.CASE:
                text = f"Wet leather drags and tears under the skiving knife: skive {name} dry."
            elif step.kind in COATS:
                text = f"Skived later, {name} shows raw leather where the dye was taken off again."
            elif step.kind is StepKind.FORM_DRY:
                text = f"Only a thinned {name} bends sharply; over a curve the knife cuts through."
            else:
                text = f"{name} can be laid flat under the skiving knife only while it is loose."
            yield _GROUND.before(skive.id, step.id, text, about=(part,))


_SKIVED = replace(sketch_part("plate", holes={"p": (10.0, 10.0)}), skived=True)

RULE = Rule(
    code=_GROUND.code,
    name="Skive while dry, flat and loose",
    why="A skiving knife takes a long thin shaving from dry leather that lies flat on a hard slab. "
    "It drags in wet leather, takes the colour off dyed leather, and reaches nothing between layers.",
    mend="Thin what can be reached with a rasp or coarse paper, against dust with mask and extraction, "
    "and touch it up with dye. A fold that stays too thick is grooved on the flesh side to half.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A skived plate that is oiled and riveted",
            pattern=sketch(
                _SKIVED,
                sketch_part("lame", holes={"l": (30.0, 10.0)}),
                joints=(sketch_rivet("r", "p", "l"),),
                treatments=(sketch_treatment("oil", "plate"),),
            ),
            expects=frozenset(
                {
                    ("skive/plate", "oil/oil.coat-1"),
                    ("skive/plate", "dry-fit/piece"),
                    ("skive/plate", "rivet/r"),
                }
            ),
        ),
        Example(
            title="A plate left at its full thickness",
            pattern=sketch(sketch_part("plate"), treatments=(sketch_treatment("oil", "plate"),)),
        ),
    ),
)
