"""The hide is laid out before the knife goes into it."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.model import StepKind

_GROUND = Ground(code="lay-out-before-cut", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for lay_out in facts.work.of_kind(StepKind.LAY_OUT):
        for part in lay_out.parts:
            for cut in facts.work.touching(part, StepKind.CUT):
                yield _GROUND.before(
                    lay_out.id,
                    cut.id,
                    f"{facts.name(part)} is cut where the hide is firm and free of scars, and with "
                    "its length the right way: all parts find their place on the hide first.",
                    about=(part,),
                )


RULE = Rule(
    code=_GROUND.code,
    name="Lay out the whole piece before cutting",
    why="Plates come from the back and bend, none from the belly, which stretches. Straps run along "
    "the backbone, scars and brands stay out of the bends, and the two of a pair come from one hide. "
    "That works out only with all parts lying on the hide before the first is cut.",
    mend="Lay out what is left before the next cut. A part cut from soft or stretchy leather may "
    "still serve as a trim or a keeper; cut the plate or strap again.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Two plates of one piece",
            pattern=sketch(sketch_part("cuff"), sketch_part("bracer")),
            expects=frozenset({("lay-out/piece", "cut/cuff"), ("lay-out/piece", "cut/bracer")}),
        ),
        Example(title="Without parts there is nothing to lay out", pattern=sketch()),
    ),
)
