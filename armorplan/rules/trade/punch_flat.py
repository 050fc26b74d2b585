"""Holes are punched on the flat, dry part, and before its dye."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import COATS, Facts
from armorplan.rules.model import COMMON_PRACTICE, SLOWER, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_treatment
from armorplan.rules.sliding import slides
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(code="punch-flat", force=Force.EASIER)
_WET = (StepKind.CASE, *COATS)
"""In the order the work passes through them: the holes want to be there before the first."""


def _first_wet(facts: Facts, part: str, kinds: tuple[StepKind, ...]) -> Iterator[Step]:
    """Yield the steps of the first wet kind a part goes through; the others come later anyway."""
    for kind in kinds:
        found = [step for step in facts.work.touching(part, kind) if step.coat <= 1]
        if found:
            yield from found
            return


def _derive(facts: Facts) -> Iterator[Relation]:
    shaped_first: dict[str, set[str]] = {}
    for slide in slides(facts):
        if slide.way.parts_holes:
            shaped_first.setdefault(slide.outer, set()).update(step.id for step in slide.shaping)
    for punch in facts.work.of_kind(StepKind.PUNCH):
        part = punch.parts[0]
        kinds = COATS if part in shaped_first else _WET
        later = shaped_first.get(part, set())
        curved = [s for s in facts.work.touching(part, StepKind.FORM_DRY) if s.id not in later]
        for step in (*_first_wet(facts, part, kinds), *curved):
            yield _GROUND.before(
                punch.id,
                step.id,
                f"Holes in {facts.name(part)} are quickest punched while it is flat and dry, "
                "and then take dye at their edges.",
                about=(part,),
                price_min=SLOWER * punch.minutes,
            )


RULE = Rule(
    code=_GROUND.code,
    name="Punch while flat and dry",
    why="A flat, dry part lies square under the punch, and holes punched before the dye take "
    "colour at their edges. It can be done later, only slower and with raw edges.",
    mend="Back the part with a block cut to its curve, punch from the grain side, and touch the "
    "hole up with dye on a swab.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A dyed plate with a hole",
            pattern=sketch(
                sketch_part("plate", holes={"h": (10.0, 10.0)}),
                treatments=(
                    sketch_treatment("dye", "plate", coats=2),
                    sketch_treatment("finish", "plate"),
                ),
            ),
            expects=frozenset({("punch/plate", "dye/dye.coat-1")}),
        ),
        Example(
            title="A plate without holes",
            pattern=sketch(sketch_part("plate"), treatments=(sketch_treatment("dye", "plate"),)),
        ),
    ),
)
