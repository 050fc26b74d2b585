"""What is to be looked for at a trial is looked for there, and before what it could still change."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.wearing import CheckTime, FitCheck
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.model import SETS_JOINT, Step, StepKind

_GROUND = Ground(code="check-before-it-is-late", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for check in facts.work.of_kind(StepKind.CHECK):
        trial = facts.trial_of(check)
        if trial is None:
            continue
        yield _GROUND.before(
            trial.id,
            check.id,
            f"It is looked for while this goes on: {_lowered(trial.title)}.",
            about=check.parts,
        )
        for late in _too_late(facts, trial, check):
            yield _GROUND.before(
                check.id,
                late.id,
                "It is checked first: what that finds can be put right before, and hardly afterwards.",
                about=check.parts,
            )


def _lowered(title: str) -> str:
    return title[:1].lower() + title[1:]


def _too_late(facts: Facts, trial: Step, check: Step) -> Iterator[Step]:
    """Yield the steps after which what a check finds is hard to change."""
    if trial.kind is StepKind.FIT:
        for inspect in facts.work.of_kind(StepKind.INSPECT):
            if (inspect.piece, inspect.side) == (trial.piece, trial.side):
                yield inspect
        return
    is_card = trial.kind is StepKind.MOCK_UP
    kinds = (StepKind.LAY_OUT, StepKind.CUT) if is_card else tuple(SETS_JOINT)
    late = {s.id: s for part in check.parts for s in facts.work.touching(part, *kinds)}
    for step in late.values():
        # A harness is tried on when its pieces are riveted: only its own joints are open.
        is_open = step.piece == trial.piece or not facts.in_harness(trial)
        if is_open and not (step.joints and facts.opens_again(step)):
            yield step


_UPPER = sketch_part("upper", holes={"u": (10.0, 10.0)})
_LOWER = sketch_part("lower", holes={"l": (30.0, 10.0)})
_JOINED = sketch(_UPPER, _LOWER, joints=(sketch_rivet("r", "u", "l"),))


def _check(when: CheckTime) -> FitCheck:
    return FitCheck(id="bends", name="the elbow bends fully", piece="piece", when=when)


RULE = Rule(
    code=_GROUND.code,
    name="Look before it is too late",
    why="A pinch found in card is mended with scissors, as long as nothing is drawn on the hide; one "
    "found at the dry fit by moving a pin. "
    "Found after the rivets, it costs the rivets. So what has to be looked for at a trial is looked "
    "for there, and whatever would make it permanent waits.",
    mend="Look for it now, as it is. If something is wrong, take out the fewest fasteners that let it "
    "move, put it right with pins, and set them again.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Whether the elbow bends, looked for at the dry fit",
            pattern=replace(_JOINED, fit_checks=(_check(CheckTime.DRY_FIT),)),
            expects=frozenset({("dry-fit/piece", "check/bends"), ("check/bends", "rivet/r")}),
        ),
        Example(
            title="The same, looked for in card",
            pattern=replace(_JOINED, fit_checks=(_check(CheckTime.MOCK_UP),)),
            expects=frozenset(
                {
                    ("mock-up/piece", "check/bends"),
                    ("check/bends", "lay-out/piece"),
                    ("check/bends", "cut/upper"),
                    ("check/bends", "cut/lower"),
                }
            ),
        ),
        Example(
            title="The same, looked for at the last fit",
            pattern=replace(_JOINED, fit_checks=(_check(CheckTime.FIT),)),
            expects=frozenset({("fit/piece", "check/bends"), ("check/bends", "inspect/piece")}),
        ),
        Example(title="Nothing is to be looked for", pattern=_JOINED),
    ),
)
