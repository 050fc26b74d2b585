"""What was dipped is watched as soon as it has dripped, before it is dry to the touch."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import COATS, Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_bath, sketch_part, sketch_treatment
from armorplan.steps.model import Step, StepKind
from armorplan.steps.windows import first_turn_min

_GROUND = Ground(code="watch-after-drip", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for coat in facts.work.of_kind(*COATS):
        watch = facts.watch_over(coat)
        if watch is None:
            continue
        most = _most_min(facts, coat)
        turned = (
            f"within {most} min of the end of the dripping"
            if most
            else "as soon as it has dripped"
        )
        yield _GROUND.before(
            _dripped(facts, coat).id,
            watch.id,
            f"{facts.names(coat.parts)}: drops and runs dry as streaks, so the first turn comes "
            f"{turned}, then one every {watch.every_min} min.",
            about=coat.parts,
            numbers=(Quantity(name="most wait", value=most, unit="min"),),
            lags=(0, most),
        )


def _most_min(facts: Facts, coat: Step) -> int:
    """Return the most minutes a dipped coat hangs after its dripping before its first turn."""
    entry = facts.shelf.treatment(coat.treatment or "")
    dry = facts.work.drying_of(coat.id)
    if entry is None or dry is None or dry.drying is None:
        return 0
    return first_turn_min(facts.room, entry, dry.drying.body)


def _dripped(facts: Facts, coat: Step) -> Step:
    drips = (s for s in facts.work.following(coat.id) if s.kind is StepKind.DRIP)
    return next(drips, coat)


RULE = Rule(
    code=_GROUND.code,
    name="Turn and wipe what was dipped",
    why="A dipped finish runs down and gathers at the lowest edge. Turned, and wiped with a lint-free "
    "cloth every few minutes until it no longer runs, it dries even; left alone it dries in streaks "
    "and drops. Left and right are watched in one go only where the second is out of the bath before "
    "the first has to be turned; else the one is dipped and watched to its end, and then the other.",
    mend="Wipe what is still wet. A streak that has dried is rubbed flat with a fine pad, when all "
    "is dry, and goes under another thin coat all over.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A plate dipped in a finish that streaks",
            pattern=sketch(sketch_part("plate"), treatments=(sketch_bath("lacquer", "plate"),)),
            expects=frozenset({("drip/lacquer.coat-1.finish", "watch/lacquer.coat-1.finish")}),
        ),
        Example(
            title="Left and right of a cuff are each watched as soon as they have dripped",
            pattern=sketch(
                sketch_part("cuff"), treatments=(sketch_bath("lacquer", "cuff"),), mirrored=True
            ),
            expects=frozenset(
                {
                    ("drip/lacquer.left.coat-1.finish", "watch/lacquer.left.coat-1.finish"),
                    ("drip/lacquer.right.coat-1.finish", "watch/lacquer.right.coat-1.finish"),
                }
            ),
        ),
        Example(
            title="The same finish wiped on",
            pattern=sketch(
                sketch_part("plate"), treatments=(sketch_treatment("lacquer", "plate"),)
            ),
        ),
    ),
)
