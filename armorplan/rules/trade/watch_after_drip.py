"""What was dipped is watched as soon as it has dripped, left and right in one go."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import COATS, Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_bath, sketch_part, sketch_treatment
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(code="watch-after-drip", force=Force.SPOIL)
SLACK_MIN = 5
"""So long it may hang before the first turn (common practice, no source)."""


def _derive(facts: Facts) -> Iterator[Relation]:
    for watch in facts.work.of_kind(StepKind.WATCH):
        for coat in _watched(facts, watch):
            first, most = _dripped(facts, coat), SLACK_MIN
            if coat.id != watch.after and watch.after is not None:
                most += facts.work.step(watch.after).minutes
            yield _GROUND.before(
                first.id,
                watch.id,
                f"{facts.names(coat.parts)}: drops and runs dry as streaks, so the first turn comes "
                f"within {most} min of the end of the dripping, then one every {watch.every_min} min.",
                about=coat.parts,
                numbers=(Quantity(name="most wait", value=most, unit="min"),),
                lags=(0, most),
            )


def _watched(facts: Facts, watch: Step) -> Iterator[Step]:
    """Yield the dipped coats that one watch is over."""
    for coat in facts.work.of_kind(*COATS):
        if coat.batch_key == watch.batch_key and set(coat.parts) <= set(watch.parts):
            yield coat


def _dripped(facts: Facts, coat: Step) -> Step:
    drips = (s for s in facts.work.following(coat.id) if s.kind is StepKind.DRIP)
    return next(drips, coat)


RULE = Rule(
    code=_GROUND.code,
    name="Turn and wipe what was dipped",
    why="A dipped finish runs down and gathers at the lowest edge. Turned, and wiped with a lint-free "
    "cloth every few minutes until it no longer runs, it dries even; left alone it dries in streaks "
    "and drops. One watch does for left and right, so both are dipped one right after the other.",
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
            title="Left and right of a cuff are watched in one go",
            pattern=sketch(
                sketch_part("cuff"), treatments=(sketch_bath("lacquer", "cuff"),), mirrored=True
            ),
            expects=frozenset(
                {
                    ("drip/lacquer.left.coat-1.finish", "watch/lacquer.right.coat-1.finish"),
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
