"""Straps find their places on the wearer, at the dry fit."""

from collections.abc import Iterator

from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.model import SETS_JOINT, Step, StepKind

_GROUND = Ground(code="strap-places-after-fit", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for mark in facts.work.of_kind(StepKind.MARK):
        yield from _fit_to_mark(facts, mark)
        yield from _mark_to_joints(facts, mark)
        for punch in facts.work.of_kind(StepKind.PUNCH_MARKED):
            if (punch.piece, punch.side) == (mark.piece, mark.side):
                yield from _through_punch(facts, mark, punch)


def _fit_to_mark(facts: Facts, mark: Step) -> Iterator[Relation]:
    for fit in facts.work.of_kind(StepKind.DRY_FIT):
        if (fit.piece, fit.side) == (mark.piece, mark.side):
            yield _GROUND.before(
                fit.id,
                mark.id,
                "Where a strap has to sit differs with each wearer and shows only at the dry fit.",
                about=mark.parts,
            )


def _mark_to_joints(facts: Facts, mark: Step) -> Iterator[Relation]:
    for joint in mark.joints:
        step = facts.work.setting(joint)
        if step is not None:
            yield _GROUND.before(
                mark.id,
                step.id,
                "It is fastened where the wearer needs it: marked first.",
                about=step.parts,
            )


def _through_punch(facts: Facts, mark: Step, punch: Step) -> Iterator[Relation]:
    part = punch.parts[0]
    yield _GROUND.before(
        mark.id,
        punch.id,
        f"The holes in {facts.name(part)} are where the wearer needs them: marked first.",
        about=(part,),
    )
    for step in facts.work.touching(part, *SETS_JOINT):
        if set(step.joints) & set(mark.joints):
            yield _GROUND.before(
                punch.id,
                step.id,
                f"The marked hole in {facts.name(part)} has to be punched first.",
                about=(part, *step.joints),
            )


_STRAP = sketch_part("strap", kind=PartKind.STRAP, holes={"s": (8.0, 20.0)})
_PLATE = sketch_part("plate", holes={"p": (8.0, 8.0)})

RULE = Rule(
    code=_GROUND.code,
    name="Strap places after the fit",
    why="A strap placed from the drawing pinches or slips on half of all wearers. Its place is "
    "marked on the wearer at the dry fit, over the padding, and punched then.",
    mend="Plug the wrong hole with a glued disc of leather, or cover it with a larger cap and a "
    "washer, and punch beside it: not nearer than twice the hole.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A strap placed on the wearer",
            pattern=sketch(
                _STRAP, _PLATE, joints=(sketch_rivet("r", "s", "p", placed_on_wearer=True),)
            ),
            expects=frozenset(
                {
                    ("dry-fit/piece", "mark-on-the-wearer/piece"),
                    ("mark-on-the-wearer/piece", "rivet/r"),
                    ("mark-on-the-wearer/piece", "punch-marked-holes/plate"),
                    ("punch-marked-holes/plate", "rivet/r"),
                }
            ),
        ),
        Example(
            title="A strap whose place the pattern gives",
            pattern=sketch(_STRAP, _PLATE, joints=(sketch_rivet("r", "s", "p"),)),
        ),
    ),
)
