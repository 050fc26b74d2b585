"""Paper and card first: a wrong scale or a pinch costs nothing there."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.model import StepKind

_GROUND = Ground(code="paper-before-leather", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    cuts = facts.work.of_kind(StepKind.CUT)
    for mock_up in facts.work.of_kind(StepKind.MOCK_UP):
        for measure in facts.work.of_kind(StepKind.MEASURE):
            if shared(measure, mock_up.parts):
                yield _GROUND.before(
                    measure.id,
                    mock_up.id,
                    "A print that came out at the wrong scale makes a mock-up that proves nothing.",
                    about=measure.parts,
                )
        for cut in cuts:
            if shared(cut, mock_up.parts):
                yield _GROUND.before(
                    mock_up.id,
                    cut.id,
                    f"A pinch or gap found in card costs nothing; {facts.names(cut.parts)} "
                    "once cut stays cut.",
                    about=cut.parts,
                )


RULE = Rule(
    code=_GROUND.code,
    name="Paper and card before the first cut",
    why="Measure the print against a ruler, then try the piece in card over the clothes and "
    "padding it will be worn with, standing and bent. Whatever is wrong shows there for "
    "nothing. Leather that is cut stays cut. Of a pair the left is printed and tried; the right is "
    "its mirror, and waits for the same card.",
    mend="Try the card now, before the next part is cut. What was cut too large can be trimmed; "
    "what was cut too small may still make a smaller lame or a strap keeper.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Two plates of one piece wait for its mock-up, the mock-up for the print",
            pattern=sketch(sketch_part("cuff"), sketch_part("bracer")),
            expects=frozenset(
                {
                    ("measure-print/piece", "mock-up/piece"),
                    ("mock-up/piece", "cut/cuff"),
                    ("mock-up/piece", "cut/bracer"),
                }
            ),
        ),
        Example(
            title="A cuff made left and right: one print and one card do for both",
            pattern=sketch(sketch_part("cuff"), mirrored=True),
            expects=frozenset(
                {
                    ("measure-print/piece", "mock-up/piece"),
                    ("mock-up/piece", "cut/cuff.left"),
                    ("mock-up/piece", "cut/cuff.right"),
                }
            ),
        ),
        Example(title="A pattern with no parts has nothing to cut", pattern=sketch()),
    ),
)
