"""Tooling wants a hard, flat back; a shaped part has none."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part
from armorplan.steps.model import StepKind

_GROUND = Ground(code="tool-before-form", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for tool in facts.work.of_kind(StepKind.TOOL):
        part = tool.parts[0]
        for form in facts.work.touching(part, StepKind.FORM, StepKind.FORM_DRY):
            starts = facts.work.casing_for(form.id) or form
            yield _GROUND.before(
                tool.id,
                starts.id,
                f"Tooling {facts.name(part)} needs a flat, hard back, which it no longer has "
                "once it is shaped.",
                about=(part,),
            )


RULE = Rule(
    code=_GROUND.code,
    name="Tool before forming",
    why="Stamps and swivel knife need the part flat on a hard slab. A shaped part rocks under "
    "them, and the blows flatten it again.",
    mend="Undyed and not hardened, it can be damped, flattened, tooled and shaped once more. "
    "Otherwise only light lines can still be pressed in, over a backing cut to its curve.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A tooled petal that is shaped damp is cased again for it only after tooling",
            pattern=sketch(
                sketch_part("petal", tooling="lantern"), forms=(sketch_form("bow", "petal"),)
            ),
            expects=frozenset({("tool/petal", "case/bow.form")}),
        ),
        Example(
            title="A plain petal that is shaped",
            pattern=sketch(sketch_part("petal"), forms=(sketch_form("bow", "petal"),)),
        ),
    ),
)
