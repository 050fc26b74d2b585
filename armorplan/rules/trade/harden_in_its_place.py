"""Hot water hardens before the dye, wax after it; both harden a shape that is dry."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.joining import Route
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import COATS, Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_treatment
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(code="harden-in-its-place", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    hardenings = facts.work.of_kind(StepKind.HARDEN)
    ranked = sorted(hardenings, key=facts.is_wax)
    for harden in hardenings:
        for form in facts.work.of_kind(StepKind.FORM):
            yield from _one_then(
                facts,
                form,
                harden,
                "Hardening keeps the shape for good: shape {} first, and let that dry.",
            )
        yield from _wax(facts, harden) if facts.is_wax(harden) else _water(facts, harden)
    for at, first in enumerate(ranked):
        for then in ranked[at + 1 :]:
            yield from _one_then(
                facts, first, then, "Hardened twice: let {} cool and dry in between."
            )


def _water(facts: Facts, harden: Step) -> Iterator[Relation]:
    for coat in facts.first_coats(*COATS):
        yield from _one_then(
            facts,
            harden,
            coat,
            "Heat and hot water move dye and lift finish: harden {} before.",
        )


def _wax(facts: Facts, harden: Step) -> Iterator[Relation]:
    for coat in facts.last_coats(StepKind.DYE, StepKind.OIL):
        yield from _one_then(
            facts,
            coat,
            harden,
            "Through wax nothing gets in any more: dye and oil {} before.",
        )
    for coat in facts.first_coats(StepKind.FINISH):
        yield from _one_then(facts, harden, coat, "Hot wax lifts a finish: wax {} before.")


def _one_then(facts: Facts, first: Step, then: Step, text: str) -> Iterator[Relation]:
    touched = shared(first, then.parts)
    if touched:
        end = facts.end_of(first)
        yield _GROUND.before(end.id, then.id, text.format(facts.names(touched)), about=touched)


_PLATE = sketch_part("plate")
_SHELL = replace(sketch_form("shell", "plate", route=Route.HARDENED), hardening="hot_water")

RULE = Rule(
    code=_GROUND.code,
    name="Hot water before dye, wax after it",
    why="Hardening holds the shape for ever, so the leather is shaped and dry first. Hot water moves "
    "dye and lifts finish, so it comes before both. Wax closes the leather, so dye and oil have to be "
    "in it before; a finish goes on top of the wax, where it holds at all.",
    mend="Hot water after dye: when it is dry, dye it again all over. Dye after wax: only the "
    "surface takes colour; warm it gently, wipe the wax off, and accept a mottled face. A shape that "
    "was hardened wrong cannot be softened again: cut a new plate.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A plate hardened in hot water, then oiled",
            pattern=sketch(
                _PLATE, forms=(_SHELL,), treatments=(sketch_treatment("oil", "plate"),)
            ),
            expects=frozenset(
                {("dry/shell.form", "harden/shell"), ("dry/shell.harden", "oil/oil.coat-1")}
            ),
        ),
        Example(
            title="A plate oiled, hardened with wax, and finished",
            pattern=sketch(
                _PLATE,
                forms=(replace(_SHELL, hardening="wax"),),
                treatments=(sketch_treatment("oil", "plate"), sketch_treatment("finish", "plate")),
            ),
            expects=frozenset(
                {
                    ("dry/shell.form", "harden/shell"),
                    ("dry/oil.coat-1.oil", "harden/shell"),
                    ("dry/shell.harden", "finish/finish.coat-1"),
                }
            ),
        ),
        Example(
            title="A plate that is only shaped damp",
            pattern=sketch(_PLATE, forms=(sketch_form("bow", "plate"),)),
        ),
    ),
)
