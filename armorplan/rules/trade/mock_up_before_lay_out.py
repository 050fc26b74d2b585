"""The hide is laid out with outlines that the card has proved."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.model import StepKind

_GROUND = Ground(code="mock-up-before-lay-out", force=Force.EASIER)


def _derive(facts: Facts) -> Iterator[Relation]:
    for lay_out in facts.work.of_kind(StepKind.LAY_OUT):
        for mock_up in facts.work.of_kind(StepKind.MOCK_UP):
            if shared(mock_up, lay_out.parts):
                yield _GROUND.before(
                    mock_up.id,
                    lay_out.id,
                    f"An outline that changes on the card is drawn on the hide twice: "
                    f"{lay_out.minutes} min of laying out.",
                    price_min=float(lay_out.minutes),
                )


RULE = Rule(
    code=_GROUND.code,
    name="Card mock-up before laying out",
    why="The card mock-up still moves outlines by a few millimetres. Lines already drawn on the "
    "hide then have to be rubbed out and drawn again.",
    mend="Rub the lines out, or cross them out on the flesh side, and draw the changed parts anew; "
    "look whether they still lie clear of scars and of each other.",
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
