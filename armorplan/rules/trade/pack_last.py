"""What is packed was inspected, all of it."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.parts import Harness, Piece
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.model import StepKind

_GROUND = Ground(code="pack-last", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for pack in facts.work.of_kind(StepKind.PACK):
        for inspect in facts.work.of_kind(StepKind.INSPECT):
            if shared(inspect, pack.parts):
                yield _GROUND.before(
                    inspect.id,
                    pack.id,
                    "In its cloth and box nobody sees a sharp edge or a leaning rivet any more.",
                )


_PLATE = sketch(sketch_part("plate"))

RULE = Rule(
    code=_GROUND.code,
    name="Pack last",
    why="Packing ends the work: labelled, in an oiled cloth, with spare rivets and a card on its care. "
    "Whatever was not inspected by then is found by the wearer.",
    mend="Unpack it and look at it; it takes a few minutes.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A plate",
            pattern=_PLATE,
            expects=frozenset({("inspect/piece", "pack/piece")}),
        ),
        Example(
            title="A piece of a harness is packed with the others",
            pattern=replace(
                _PLATE,
                pieces=(Piece(id="piece", name="Piece"),),
                harnesses=(Harness(id="arm", name="Arm", pieces=("piece",)),),
            ),
            expects=frozenset({("inspect/piece", "pack/arm"), ("inspect/arm", "pack/arm")}),
        ),
        Example(title="Without parts there is nothing to pack", pattern=sketch()),
    ),
)
