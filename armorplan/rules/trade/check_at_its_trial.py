"""All checks of a trial are made in one go with it."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.wearing import CheckTime, FitCheck
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.model import StepKind

_GROUND = Ground(code="check-at-its-trial", force=Force.USUAL)


def _derive(facts: Facts) -> Iterator[Relation]:
    found: dict[str, list[str]] = {}
    for check in facts.work.of_kind(StepKind.CHECK):
        trial = facts.trial_of(check)
        if trial is not None:
            found.setdefault(trial.id, []).append(check.id)
    for trial_id, checks in found.items():
        yield _GROUND.together(
            frozenset((trial_id, *checks)),
            "The wearer stands there now, with the piece on: everything is looked at in one go.",
            about=facts.work.step(trial_id).parts,
        )


_PLATE = sketch(sketch_part("plate"))
_CHECK = FitCheck(
    id="sits", name="the rim sits below the elbow", piece="piece", when=CheckTime.FIT
)

RULE = Rule(
    code=_GROUND.code,
    name="Look while the wearer stands there",
    why="Getting someone into armour takes longer than looking. All that is to be looked for at a "
    "trial is looked for in one go, while the piece is on.",
    mend="Put it on again; pins and padding as they were.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Something to look for at the last fit",
            pattern=replace(_PLATE, fit_checks=(_CHECK,)),
            expects=frozenset({("check/sits | fit/piece", "")}),
        ),
        Example(title="Nothing is to be looked for", pattern=_PLATE),
    ),
)
