"""The order of a pair: what is made left and right stands side by side; builds are settled."""

from dataclasses import replace

from armorplan.app.derived import derive_build
from armorplan.pattern.joining import Route
from armorplan.pattern.options import Choice, Option
from armorplan.pattern.parts import MadeOn
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import (
    sketch,
    sketch_form,
    sketch_part,
    sketch_rivet,
    sketch_treatment,
)
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

UPPER = sketch_part("upper", holes={"u": (10.0, 10.0)})
LOWER = sketch_part("lower", holes={"l": (10.0, 10.0)}, bevelled=True)


def order_of(*parts, **tables):
    pattern = replace(sketch(*parts, mirrored=True), **tables)
    derived = derive_build(pattern, sketch_shelf(), one_maker(), build="b")
    return [derived.work.step(step) for step in derived.order]


def test_left_and_right_of_a_part_are_cut_one_after_the_other():
    cuts = [s.parts[0] for s in order_of(UPPER, LOWER) if s.kind is StepKind.CUT]
    assert cuts == ["upper.left", "upper.right", "lower.left", "lower.right"]


def test_coats_joints_and_forms_of_both_sides_stand_together():
    steps = order_of(
        UPPER,
        LOWER,
        joints=(sketch_rivet("a", "u", "l"),),
        forms=(sketch_form("bow", "upper", route=Route.DAMP),),
        treatments=(sketch_treatment("dye", "upper", "lower", coats=2),),
    )
    for kind in (StepKind.FORM, StepKind.DYE, StepKind.RIVET, StepKind.DRY_FIT, StepKind.FIT):
        sides = [step.side.value for step in steps if step.kind is kind]
        assert sides == ["left", "right"] * (len(sides) // 2), kind


def test_drying_follows_its_step_and_casing_goes_before():
    steps = order_of(UPPER, forms=(sketch_form("bow", "upper"),))
    damp = [s for s in steps if s.kind in (StepKind.CASE, StepKind.FORM, StepKind.DRY)]
    # Cased together, since both can be shaped in their window; nobody waits for one to dry first.
    assert [(s.kind, s.side.value) for s in damp] == [
        (kind, side)
        for kind in (StepKind.CASE, StepKind.FORM, StepKind.DRY)
        for side in ("left", "right")
    ]


def test_a_part_named_like_a_side_keeps_its_own_place():
    left, right = (sketch_part(name) for name in ("flap.left", "flap.right"))
    cuts = [s.parts[0] for s in order_of(left, right) if s.kind is StepKind.CUT]
    assert cuts == ["flap.left.left", "flap.left.right", "flap.right.left", "flap.right.right"]


def test_what_one_side_has_alone_stands_with_its_kind():
    loop = replace(sketch_part("loop"), made_on=MadeOn.RIGHT)
    cuts = [s.parts[0] for s in order_of(loop, UPPER) if s.kind is StepKind.CUT]
    assert sorted(cuts) == ["loop.right", "upper.left", "upper.right"]


def test_a_build_has_only_what_its_choices_leave():
    boss = replace(sketch_part("boss"), only_with=("look.decorated",))
    choices = (Choice(id="decorated", name="Decorated"), Choice(id="plain", name="Plain"))
    option = Option(id="look", name="Look", choices=choices, chosen="plain")
    pattern = replace(sketch(UPPER, boss), options=(option,))
    derived = derive_build(pattern, sketch_shelf(), one_maker(), build="b")
    assert [part.id for part in derived.pattern.parts] == ["upper"]
    assert all("boss" not in step.parts for step in derived.work.steps)
