"""The hide is laid out with outlines that the card has proved."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.model import StepKind

_GROUND = Ground(code="mock-up-before-lay-out", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for lay_out in facts.work.of_kind(StepKind.LAY_OUT):
        for mock_up in facts.work.of_kind(StepKind.MOCK_UP):
            if shared(mock_up, lay_out.parts):
                yield _GROUND.before(
                    mock_up.id,
                    lay_out.id,
                    "The card still moves outlines, and an awl's line in the grain does not come "
                    "out again.",
                )


RULE = Rule(
    code=_GROUND.code,
    name="Card mock-up before laying out",
    why="The card mock-up still moves outlines by a few millimetres. Lines are drawn on the grain with "
    "an awl or a silver pen; an awl's line stays for ever, and shows most in the dye.",
    mend="Lay the changed outlines so that the old lines fall into waste or on an edge that is bevelled "
    "off. A line that stays in sight can be hidden under a trim, or tooled over.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A plate",
            pattern=sketch(sketch_part("cuff")),
            expects=frozenset({("mock-up/piece", "lay-out/piece")}),
        ),
        Example(title="Without parts there is nothing to lay out", pattern=sketch()),
    ),
)
