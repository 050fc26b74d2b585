"""Left and right are laid out together, on one hide."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.model import StepKind

_GROUND = Ground(code="pair-from-one-hide", force=Force.USUAL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for pair in facts.pairs(StepKind.LAY_OUT):
        yield _GROUND.together(
            frozenset(step.id for step in pair),
            "Left and right come from one hide, each the other's mirror: laid out side by side, two "
            "lefts are seen before they are cut.",
        )


RULE = Rule(
    code=_GROUND.code,
    name="Lay out a pair side by side",
    why="Hides differ in colour, firmness and stretch, and the two of a pair should agree in all "
    "three. Lying side by side they also show the classic mistake, two lefts, while it is still chalk.",
    mend="Before it is cut nothing is lost: lay the other side beside it. Of two lefts already "
    "cut, one has to be cut again; the other may serve the next pair.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A cuff made left and right",
            pattern=sketch(sketch_part("cuff"), mirrored=True),
            expects=frozenset({("lay-out/piece | lay-out/piece", "")}),
        ),
        Example(title="A cuff made once", pattern=sketch(sketch_part("cuff"))),
    ),
)
