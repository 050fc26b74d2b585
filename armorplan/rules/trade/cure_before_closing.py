"""What a coat or a glue has to be fully cured for: closing the shape, wearing it, packing it."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.kernel.units import span_words
from armorplan.pattern.joining import FormKind, Route, Seam
from armorplan.relations.model import Force, Relation
from armorplan.rules.closing import closing_joints, closing_rings
from armorplan.rules.facts import COATS, Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import (
    sketch,
    sketch_bath,
    sketch_form,
    sketch_part,
    sketch_rivet,
    sketch_treatment,
)
from armorplan.rules.trade.dry_before_handling import drying_time
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(code="cure-before-closing", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for cure in facts.work.of_kind(StepKind.CURE):
        entry = facts.shelf.treatment(cure.treatment or "")
        before = entry.cure_before if entry else ()
        if "close" in before:
            yield from _closed(facts, cure)
        if "wear" in before:
            yield from _then(
                facts, cure, _worn(facts, cure), "worn before, it prints and rubs off"
            )
        if "pack" in before:
            packs = facts.work.of_kind(StepKind.PACK)
            yield from _then(facts, cure, packs, "wrapped before, it sticks to its cloth")


def _needs(facts: Facts, cure: Step) -> str:
    entry = facts.shelf.treatment(cure.treatment or "")
    name = entry.name if entry else cure.title
    return f"{name} needs {span_words(cure.minutes)} to cure, on a usual day in this room"


def _then(facts: Facts, cure: Step, steps: tuple[Step, ...], why: str) -> Iterator[Relation]:
    for step in steps:
        parts = shared(cure, step.parts)
        if parts:
            text = f"{facts.names(parts)}: {_needs(facts, cure)}; {why}."
            yield _GROUND.before(
                cure.id, step.id, text, about=parts, numbers=(drying_time(cure, "cure"),)
            )


def _worn(facts: Facts, cure: Step) -> tuple[Step, ...]:
    """Return the fits of what cures; those of a whole harness only where its pieces have none."""
    fits = [fit for fit in facts.work.of_kind(StepKind.FIT) if shared(cure, fit.parts)]
    own = tuple(fit for fit in fits if not facts.in_harness(fit))
    return own or tuple(fits)


def _closed(facts: Facts, cure: Step) -> Iterator[Relation]:
    """Yield what closes a coated part; what comes after a glue waits for its drying already."""
    if facts.work.step(cure.after or "").kind not in COATS:
        return
    for part in cure.parts:
        text = (
            f"{facts.name(part)}: {_needs(facts, cure)}; shut in before, it stays soft and sticks "
            "where layers are pressed together."
        )
        numbers = (drying_time(cure, "cure"),)
        for joint in closing_joints(facts.assembly, part):
            then = facts.work.setting(joint.id)
            if then is not None:
                yield _GROUND.before(
                    cure.id, then.id, text, about=(part, joint.id), numbers=numbers
                )
        for ring in closing_rings(facts.assembly, part):
            if closing := facts.steps_setting(ring):
                yield _GROUND.before_all(
                    cure.id, closing, text, about=(part, *sorted(ring)), numbers=numbers
                )


_PLATE = sketch_part("plate", holes={"p": (10.0, 10.0), "q": (70.0, 10.0)})
_SIDE = sketch_part("side", holes={"s": (30.0, 10.0)})
_SHUT = replace(
    sketch_form("cup", "plate", "side", route=Route.BY_SEAM), kind=FormKind.CLOSURE, seams=("row",)
)
_COATED = (sketch_treatment("lacquer", "plate"),)
_AT_THE_END = frozenset(
    {("cure/lacquer.coat-1.finish", "fit/piece"), ("cure/lacquer.coat-1.finish", "pack/piece")}
)

RULE = Rule(
    code=_GROUND.code,
    name="Cured before it is closed, worn or packed",
    why="A coat is dry to handle long before it is hard. What a treatment has to be cured for stands in "
    "its entry of the catalogue: *close* a shape (a joint that fastens a part to itself, a seam that "
    "the pattern names in a form of kind closure, the last joint of a ring of plates), *wear* it, "
    "*pack* it. Shut in it stays soft; worn it prints; wrapped it sticks to the cloth.",
    mend="Open what opens, unwrap it, and let air to it until it no longer takes a print of a thumb. "
    "A print that has set is rubbed flat with a fine pad and goes under another thin coat.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A coated plate that is riveted to itself, worn and packed",
            pattern=sketch(_PLATE, joints=(sketch_rivet("row_1", "p", "q"),), treatments=_COATED),
            expects=_AT_THE_END | {("cure/lacquer.coat-1.finish", "rivet/row_1")},
        ),
        Example(
            title="A coated plate that a seam draws into a cup",
            pattern=sketch(
                _PLATE,
                _SIDE,
                joints=(sketch_rivet("on_side", "p", "s"),),
                seams=(Seam(id="row", name="Row", joints=("on_side",)),),
                forms=(_SHUT,),
                treatments=(sketch_bath("lacquer", "plate"),),
            ),
            expects=_AT_THE_END | {("cure/lacquer.coat-1.finish", "rivet/on_side")},
        ),
        Example(
            title="A coated plate riveted to its neighbour lies open",
            pattern=sketch(
                _PLATE, _SIDE, joints=(sketch_rivet("on_side", "p", "s"),), treatments=_COATED
            ),
            expects=_AT_THE_END,
        ),
        Example(
            title="A finish that is hard when it is dry",
            pattern=sketch(_PLATE, treatments=(sketch_treatment("finish", "plate"),)),
        ),
    ),
)
