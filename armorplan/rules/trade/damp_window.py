"""Cased leather is worked inside a window: not dripping, not yet dry."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind

_GROUND = Ground(code="damp-window", force=Force.SPOIL)


def _words(least: int, most: int | None) -> str:
    if most is None:
        return (
            f"Start at least {least} min after casing, on a usual day in this room: earlier it is "
            "mushy."
        )
    return (
        f"Start {least} to {most} min after casing, on a usual day in this room: earlier it is "
        "mushy, later it no longer takes the shape."
    )


def _derive(facts: Facts) -> Iterator[Relation]:
    for case in facts.work.of_kind(StepKind.CASE):
        served = facts.work.step(case.serves or "")
        least, most = facts.window_min(case, served) or (0, None)
        numbers = [Quantity(name="least wait", value=least, unit="min")]
        if most is not None:
            numbers.append(Quantity(name="most wait", value=most, unit="min"))
        yield _GROUND.before(
            case.id,
            served.id,
            _words(least, most),
            about=case.parts,
            numbers=tuple(numbers),
            lags=(least, most),
        )


RULE = Rule(
    code=_GROUND.code,
    name="Shape cased leather in its window",
    why="Just cased, leather is mushy and takes no sharp line. A while later, when its colour has"
    " come back and it still feels cool, it is just right. Later still it is too dry to take "
    "a shape. How soon and how long depends on how thick the leather is, and on the air in the "
    "shop at that hour: the minutes told are those of a usual day.",
    mend="Too early: wait. Too late: case it again and wait for the colour to come back. Before "
    "dye and hardening nothing is lost by it.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A bend shaped damp",
            pattern=sketch(sketch_part("plate"), forms=(sketch_form("bow", "plate"),)),
            expects=frozenset({("case/bow.form", "form/bow")}),
        ),
        Example(
            title="Dye alone needs no casing",
            pattern=sketch(sketch_part("plate"), treatments=(sketch_treatment("dye", "plate"),)),
        ),
    ),
)
