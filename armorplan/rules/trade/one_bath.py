"""All pieces of one colour go through one bath, and wait together."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.kernel.units import span_words
from armorplan.pattern.parts import Piece
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import COATS, Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_bath, sketch_part, sketch_treatment
from armorplan.steps.model import Step, StepKind
from armorplan.steps.surface_work import is_dipped

_GROUND = Ground(code="one-bath", force=Force.USUAL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for bath in _baths(facts):
        # One piece alone, or its left and right, is told by the rule for pairs.
        if len({step.piece for step in bath}) > 1:
            dry = facts.end_of(bath[0])
            yield _GROUND.together(
                frozenset(step.id for step in bath),
                f"{_shares(bath[0])} for all of it, and one drying of {span_words(dry.minutes)}.",
                about=tuple(part for step in bath for part in step.parts),
            )


def _shares(step: Step) -> str:
    return "One bath does" if is_dipped(step) else "One mixing and one set of cloths do"


def _baths(facts: Facts) -> Iterator[list[Step]]:
    """Yield the coats that one bath does for: one treatment, colour and coat, each part once.

    What is watched as soon as it has dripped is dipped piece by piece, or it dries unwatched.
    """
    watched = {watch.batch_key for watch in facts.work.of_kind(StepKind.WATCH)}
    found: dict[str, list[Step]] = {}
    for step in facts.work.of_kind(*COATS):
        if step.batch_key not in watched:
            found.setdefault(step.batch_key or step.id, []).append(step)
    for bath in found.values():
        parts = [part for step in bath for part in step.parts]
        if len(parts) == len(set(parts)):
            yield bath


_CUFF = sketch_part("cuff")
_COLLAR = replace(sketch_part("collar"), piece="other")
_PIECES = (Piece(id="piece", name="Piece"), Piece(id="other", name="Other piece"))

RULE = Rule(
    code=_GROUND.code,
    name="One bath for all of one colour",
    why="Each bath costs gloves, tray and rags once, and each drying costs a night. Straps, keepers "
    "and pieces of one colour are cut and shaped first and then dyed in one go, from one mixing: so "
    "they match, and all of them dry in the same night. Not so a finish that has to be turned and "
    "wiped as soon as it has dripped: that is dipped piece by piece.",
    mend="Dye what was left over from the same mixing, if there is enough of it, and compare it in "
    "daylight when it is dry; a second coat all over brings two shades together.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A cuff and a collar of one harness, oiled alike",
            pattern=replace(
                sketch(_CUFF, _COLLAR, treatments=(sketch_treatment("oil", "cuff", "collar"),)),
                pieces=_PIECES,
            ),
            expects=frozenset({("oil/oil.other.coat-1 | oil/oil.piece.coat-1", "")}),
        ),
        Example(
            title="A finish that is watched is dipped piece by piece",
            pattern=replace(
                sketch(_CUFF, _COLLAR, treatments=(sketch_bath("lacquer", "cuff", "collar"),)),
                pieces=_PIECES,
            ),
        ),
        Example(
            title="Two parts of one piece share their bath anyway",
            pattern=sketch(
                _CUFF, sketch_part("flap"), treatments=(sketch_treatment("oil", "cuff", "flap"),)
            ),
        ),
    ),
)
