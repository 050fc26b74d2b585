"""Shape, then dye, then oil, then finish, each on what the one before left dry."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.kernel.units import span_words
from armorplan.pattern.joining import FormKind, Route
from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import COATS, Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_treatment
from armorplan.steps.model import STEP_RANK, StepKind

_GROUND = Ground(code="dye-oil-finish", force=Force.SPOIL)
_WHY = {
    (StepKind.TOOL, StepKind.DYE): "tooling needs casing, and water after dye moves the colour",
    (StepKind.FORM, StepKind.DYE): "wetting it again for shaping would move the colour",
    (StepKind.DYE, StepKind.OIL): "dye strips oil, and oil underneath keeps dye out",
    (StepKind.DYE, StepKind.FINISH): "a finish seals the pores and no dye gets in any more",
    (StepKind.OIL, StepKind.FINISH): "oil cannot get in through a finish, and lifts it",
    (StepKind.FORM, StepKind.OIL): "wetting it again would wash the oil about",
    (StepKind.FORM, StepKind.FINISH): "no water gets through a finish, and bending cracks it",
    (StepKind.TOOL, StepKind.FINISH): "no stamp bites through a finish",
    (StepKind.FORM, StepKind.CASE): "a shape that is still damp is lost when it is wetted again",
    (StepKind.DYE, StepKind.DYE): "two dyes that meet wet run into each other",
}
_STRAIGHT = "across a bend no straight fold can be laid"
_OTHERWISE = "what comes after seals the leather or wets it again"


def _places(facts: Facts) -> dict[str, tuple[int, bool, int]]:
    """Return where wet works stand: by kind, folds first, and else as the pattern lists them.

    A casing stands where the form it serves stands.
    """
    listed = {step.id: at for at, step in enumerate(facts.work.steps)}
    folds = _folds(facts)
    found = {}
    for step in facts.work.of_kind(StepKind.TOOL, StepKind.FORM, *COATS):
        found[step.id] = (STEP_RANK[step.kind], step.id not in folds, listed[step.id])
        casing = facts.work.casing_for(step.id)
        if casing is not None:
            found[casing.id] = found[step.id]
    return found


def _folds(facts: Facts) -> frozenset[str]:
    """Return the steps that fold leather damp, along a straight line."""
    folds = (form for form in facts.assembly.forms if form.form.kind is FormKind.FOLD)
    found = (facts.step_for(StepKind.FORM, form.id) for form in folds)
    return frozenset(step.id for step in found if step)


def _derive(facts: Facts) -> Iterator[Relation]:
    firsts = facts.first_coats(*COATS)
    forms = facts.work.of_kind(StepKind.FORM)
    casings = [case for form in forms if (case := facts.work.casing_for(form.id))]
    place, folds = _places(facts), _folds(facts)
    for step in facts.last_coats(StepKind.TOOL, StepKind.FORM, *COATS):
        dry = facts.work.drying_of(step.id)
        if dry is None:
            continue
        for then in (*firsts, *casings):
            shared = tuple(p for p in step.parts if p in then.parts)
            if shared and place[step.id] < place[then.id]:
                why = _WHY.get((step.kind, then.kind), _OTHERWISE)
                if step.id in folds and then.kind is StepKind.CASE and then.serves not in folds:
                    why = _STRAIGHT
                yield _GROUND.before(
                    dry.id,
                    then.id,
                    f"'{step.title.split(':')[0]}' comes first and dries {span_words(dry.minutes)}: {why}.",
                    about=shared,
                    numbers=(Quantity(name="drying", value=dry.minutes, unit="min"),),
                )


RULE = Rule(
    code=_GROUND.code,
    name="Shape, dye, oil, finish",
    why="Water moves dye, dye strips oil out again, and a finish closes the leather against all "
    "of them. So wet shaping comes first, then dye, then a light oil, then the finish, each "
    "on leather that is dry. Of two damp forms on one part the first dries before the part is cased "
    "for the second, and a straight fold comes before a bend: once the part is bent, there is no "
    "straight line left to fold it along. Forms that are made in one casing are one entry of the "
    "pattern.",
    mend="Dye on oiled leather takes patchily: clean it, let it dry, and lay a second even coat. "
    "Over a finish no dye holds: strip the finish first. A dyed part that was wetted for "
    "shaping has to be dyed again all over, and gets darker.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Dye and finish on one plate",
            pattern=sketch(
                sketch_part("plate"),
                treatments=(
                    sketch_treatment("finish", "plate"),
                    sketch_treatment("dye", "plate", coats=2),
                ),
            ),
            expects=frozenset({("dry/dye.coat-2.dye", "finish/finish.coat-1")}),
        ),
        Example(
            title="A shaped plate is dyed when it has dried",
            pattern=sketch(
                sketch_part("plate"),
                forms=(sketch_form("bow", "plate"),),
                treatments=(sketch_treatment("dye", "plate"),),
            ),
            expects=frozenset({("dry/bow.form", "dye/dye.coat-1")}),
        ),
        Example(
            title="Of two dyes on one plate the second, as the pattern lists them, waits",
            pattern=sketch(
                sketch_part("plate"),
                treatments=(
                    sketch_treatment("dye", "plate"),
                    replace(sketch_treatment("dye", "plate"), id="trim_dye"),
                ),
            ),
            expects=frozenset({("dry/dye.coat-1.dye", "dye/trim_dye.coat-1")}),
        ),
        Example(
            title="Two damp bends of one plate follow each other as the pattern lists them",
            pattern=sketch(
                sketch_part("plate"),
                forms=(sketch_form("bow", "plate"), sketch_form("flare", "plate")),
            ),
            expects=frozenset({("dry/bow.form", "case/flare.form")}),
        ),
        Example(
            title="A straight fold is made before the bend, though the pattern lists it after it",
            pattern=sketch(
                sketch_part("lame"),
                forms=(
                    sketch_form("bow", "lame"),
                    replace(sketch_form("rim", "lame", route=Route.WET_FOLD), kind=FormKind.FOLD),
                ),
            ),
            expects=frozenset({("dry/rim.form", "case/bow.form")}),
        ),
        Example(
            title="A rim folded wet is finished when it has dried",
            pattern=sketch(
                sketch_part("lame"),
                forms=(sketch_form("rim", "lame", route=Route.WET_FOLD),),
                treatments=(sketch_treatment("finish", "lame"),),
            ),
            expects=frozenset({("dry/rim.form", "finish/finish.coat-1")}),
        ),
        Example(
            title="Dye on one plate does not wait for the finish of another",
            pattern=sketch(
                sketch_part("plate"),
                sketch_part("lame"),
                treatments=(
                    sketch_treatment("dye", "plate"),
                    sketch_treatment("finish", "lame"),
                ),
            ),
        ),
    ),
)
