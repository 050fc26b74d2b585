"""Each piece is ready before the pieces are hung together."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.parts import Harness, Piece
from armorplan.pattern.pattern import Pattern
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, SLOWER, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.model import StepKind
from armorplan.steps.naming import piece_name

_GROUND = Ground(code="piece-before-harness", force=Force.EASIER)
_HANGING = (StepKind.THREAD, StepKind.DRY_FIT)
"""What begins the hanging; every joint between the pieces waits for the dry fit."""


def _derive(facts: Facts) -> Iterator[Relation]:
    hanging = [step for step in facts.work.of_kind(*_HANGING) if facts.in_harness(step)]
    for fit in facts.work.of_kind(StepKind.FIT):
        if facts.in_harness(fit):
            continue
        name = piece_name(facts.assembly, fit.piece, fit.side)
        for step in hanging:
            touched = shared(fit, step.parts)
            if touched:
                yield _GROUND.before(
                    fit.id,
                    step.id,
                    f"With other pieces hanging from {name}, every rivet and every trial means "
                    "lifting them all.",
                    about=touched,
                    price_min=SLOWER * fit.minutes,
                )


def _harness(*, hung: bool) -> Pattern:
    cop = sketch_part("cop", holes={"c": (10.0, 10.0)})
    collar = replace(sketch_part("collar", holes={"k": (30.0, 10.0)}), piece="other")
    plain = sketch(cop, collar, joints=(sketch_rivet("hang", "c", "k"),))
    return replace(
        plain,
        pieces=(*plain.pieces, Piece(id="other", name="Other piece")),
        harnesses=(Harness(id="arm", name="Arm", pieces=("piece", "other")),) if hung else (),
    )


RULE = Rule(
    code=_GROUND.code,
    name="Each piece before the harness",
    why="A piece that is riveted, fitted and right by itself is hung on its neighbours in minutes. "
    "Whatever is still to be done on it afterwards is done with all of them on the bench.",
    mend="Lay the whole harness out flat, with the piece to be worked on at the edge of the bench, or "
    "open the straps that hold it and take it off.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Two pieces riveted together to a harness",
            pattern=_harness(hung=True),
            expects=frozenset({("fit/piece", "dry-fit/arm"), ("fit/other", "dry-fit/arm")}),
        ),
        Example(title="Two pieces that hang in no harness", pattern=_harness(hung=False)),
    ),
)
