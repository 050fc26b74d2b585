"""Orders by which a tool no longer gets there: each is judged wrong, by the right rule, in numbers.

What is planted: a strap left until its tube is closed, a horn too short for it, a deep cop set from
its rim, a boss riveted on before what lies under it. Trade facts, common practice, no source: straps
go on a cop before its side is closed, a rivet gets harder the deeper it sits. The lengths are plane
geometry: from a mouth of a tube to the middle of its length; of a cone the radius of its sector.
"""

from dataclasses import replace
from math import cos, pi, sin

import pytest
from samples.planted import SHELF
from samples.shapes import Path, Shape
from samples.small_patterns import holes, part, rect, row, work

from armorplan.app.opening import derive_folder
from armorplan.kernel.shipped import samples_folder
from armorplan.practice.ordering import Exercise, judge
from armorplan.relations.model import Force
from armorplan.workshop.shop import one_maker

ROUND_MM, IN_MM = 300.0, 10.0
ON = (
    '\n[joints.strap_on]\nkind = "rivet"\nstack = ["strap_hole", "plate_middle"]\n'
    'fastener = "tubular_9"\n'
)


def tube(long_mm):
    """Return a tube of 280 mm round, drawn lying, with a strap in the middle of its inside."""
    count = 1 + round((long_mm - 40.0) / 62.0)
    along = [20.0 + n * (long_mm - 40.0) / (count - 1) for n in range(count)]
    middle = (("plate_middle", (long_mm / 2, ROUND_MM / 2), 4.0),)
    edges = (
        *holes("plate_near", [(x, IN_MM) for x in along]),
        *holes("plate_far", [(x, ROUND_MM - IN_MM) for x in along]),
    )
    shapes = (
        Shape("plate", rect(long_mm, ROUND_MM), (20.0, 20.0), (*edges, *middle)),
        Shape("strap", rect(80.0, 22.0), (20.0, 360.0), (("strap_hole", (10.0, 11.0), 4.0),)),
    )
    tables = (part("plate"), part("strap", "strap", "strap_leather"))
    return work(shapes, *tables, row("back", "plate_near", "plate_far", count), ON)


def cone(deep_mm, angle_deg, spots_mm):
    """Return a deep cop: a sector closed by a row, its first rivet nearest to the tip."""
    angle = angle_deg * pi / 180

    def at(far_mm, turn, aside_mm=0.0):
        x, y = far_mm * cos(turn), far_mm * sin(turn)
        return x - aside_mm * sin(turn), y + aside_mm * cos(turn)

    outline = Path().move((0.0, 0.0))
    for n in range(25):
        outline.line(at(deep_mm, angle * n / 24))
    edges = (
        *holes("plate_near", [at(far, 0.0, IN_MM / 2) for far in spots_mm]),
        *holes("plate_far", [at(far, angle, -IN_MM / 2) for far in spots_mm]),
    )
    shape = Shape("plate", outline, (150.0, 20.0), edges)
    return work(
        (shape,), part("plate", "cop"), row("side", "plate_near", "plate_far", len(spots_mm))
    )


def derived_from(planted, folder, *, shelf=SHELF):
    planted.read(folder)
    return derive_folder(folder, shelf, one_maker("UTC"))


def setting(derived, *joints):
    return [derived.work.setting(joint).id for joint in joints]


def judged(derived, order):
    return judge(
        Exercise(shown=derived.order),
        order,
        derived.relations,
        name=lambda step: derived.work.step(step).title,
    )


def moved_after(order, step, others):
    """Return an order with one step moved to right after the last of some others."""
    left = [each for each in order if each != step]
    left.insert(1 + max(map(left.index, others)), step)
    return left


def of_rule(derived, code):
    return [relation for relation in derived.relations if relation.reason.rule == code]


def test_a_strap_after_its_tube_is_closed_is_answered_with_depth_and_reach(tmp_path):
    derived = derived_from(tube(660.0), tmp_path)
    (strap,) = setting(derived, "strap_on")
    closing = setting(derived, *(f"back_{n}" for n in range(1, 12)))
    assert judged(derived, derived.order).right
    assert derived.order.index(strap) < max(map(derived.order.index, closing))
    told = judged(derived, moved_after(derived.order, strap, closing))
    assert not told.right
    relation = told.first_break.relation
    assert (relation.reason.rule, relation.first) == ("reach-before-closed", strap)
    assert relation.of == frozenset(closing)
    assert relation.reason.force is Force.CANNOT
    assert "no tool gets to" in told.sentence
    numbers = {quantity.name: quantity.value for quantity in relation.reason.numbers}
    assert numbers["along the leather from the opening"] == pytest.approx(330.0, rel=0.005)
    assert 250 < numbers["a straight tool needs at least"] <= 330
    assert numbers["reach"] == 250
    assert told.repair.moved


def test_a_strap_goes_in_while_the_middle_of_the_row_is_open_and_not_when_its_end_is(tmp_path):
    derived = derived_from(tube(660.0), tmp_path)
    (strap,) = setting(derived, "strap_on")
    row_ = setting(derived, *(f"back_{n}" for n in range(1, 12)))
    free = [step for step in derived.order if step not in (strap, *row_)]
    at = min(map(derived.order.index, (strap, *row_)))

    def with_strap_before(nth):
        run = [*row_[: nth - 1], strap, *row_[nth - 1 :]]
        return judged(derived, (*free[:at], *run, *free[at:]))

    assert with_strap_before(10).right, "the horn goes in where the row is open beyond the ninth"
    told = with_strap_before(11)
    assert not told.right, "62 mm from the tenth rivet the row gapes 22 mm: the horn takes 28"
    assert told.first_break.relation.of < frozenset(row_)
    assert "where the row still gapes" in told.sentence
    assert judged(derived, told.repair.order).right


def with_horn(reach_mm):
    tools = (
        replace(tool, reach_mm=reach_mm) if tool.id == "horn_anvil" else tool
        for tool in SHELF.tools
    )
    return replace(SHELF, tools=tuple(tools))


def test_with_the_horn_of_the_shelf_it_is_only_dearer(tmp_path):
    derived = derived_from(tube(480.0), tmp_path)
    (strap,) = setting(derived, "strap_on")
    assert not of_rule(derived, "reach-before-closed")
    (relation,) = of_rule(derived, "easier-while-open")
    assert relation.first == strap
    assert relation.reason.force is Force.EASIER
    assert relation.reason.price_min > 0
    assert "Nothing forbids it later" in relation.reason.text
    assert "minutes more" in relation.reason.text
    assert judged(derived, moved_after(derived.order, strap, relation.of)).right


def test_a_horn_too_short_makes_of_dearer_cannot(tmp_path):
    derived = derived_from(tube(480.0), tmp_path, shelf=with_horn(150.0))
    (strap,) = setting(derived, "strap_on")
    relation, *by_parts = of_rule(derived, "reach-before-closed")
    row_ = frozenset(setting(derived, *(f"back_{n}" for n in range(1, 9))))
    assert (relation.first, relation.of) == (strap, row_)
    assert {(each.first, each.of < row_) for each in by_parts} == {(strap, True)}
    assert not of_rule(derived, "easier-while-open")
    told = judged(derived, moved_after(derived.order, strap, relation.of))
    assert told.first_break.relation == relation
    assert "160 mm" in relation.reason.text, "the longest that is left: the block in the hand"


def test_a_deep_cop_from_its_rim_is_answered_with_its_deep_end(tmp_path):
    spots = (30.0, 80.0, 130.0, 180.0, 230.0, 280.0, 330.0)
    derived = derived_from(cone(350.0, 60.0, spots), tmp_path)
    row_ = setting(derived, *(f"side_{n}" for n in range(1, len(spots) + 1)))
    assert next(step for step in derived.order if step in row_) == row_[0], "its deep end first"
    free = [step for step in derived.order if step not in row_]
    at = min(map(derived.order.index, row_))
    deep_first, rim_first = ((*free[:at], *run, *free[at:]) for run in (row_, row_[::-1]))
    assert judged(derived, deep_first).right
    told = judged(derived, rim_first)
    assert not told.right
    relation = told.first_break.relation
    assert (relation.reason.rule, relation.first) == ("row-from-deep-end", row_[0])
    assert relation.reason.force is Force.CANNOT
    assert "So the row is not ended there" in told.sentence
    assert "250 mm" in told.sentence


def test_a_shallower_cop_from_its_rim_is_only_dearer(tmp_path):
    spots = (30.0, 80.0, 130.0, 180.0, 230.0)
    derived = derived_from(cone(250.0, 90.0, spots), tmp_path)
    row_ = setting(derived, *(f"side_{n}" for n in range(1, len(spots) + 1)))
    assert not of_rule(derived, "row-from-deep-end")
    dearer = {each.first: each.reason.price_min for each in of_rule(derived, "deep-end-easier")}
    assert dearer[row_[0]] >= dearer[row_[1]] > 0, "the deeper the dearer"
    assert row_[-1] not in dearer
    free = [step for step in derived.order if step not in row_]
    at = min(map(derived.order.index, row_))
    assert judged(derived, (*free[:at], *row_[::-1], *free[at:])).right


def test_a_boss_set_before_the_rivets_under_it_is_answered_with_the_head_it_hides():
    derived = derive_folder(samples_folder() / "elbow_cop", SHELF, one_maker("UTC"))
    inner, *boss = setting(derived, "tab_top", "boss_left", "boss_right")
    told = judged(derived, moved_after(derived.order, inner, boss))
    assert not told.right
    relation = told.first_break.relation
    assert (relation.reason.rule, relation.first) == ("hidden-before-cover", inner)
    assert "no setter reaches that head" in told.sentence


@pytest.mark.parametrize("hole", ["strap_rim", "buckle_outer"])
def test_a_strap_near_the_rim_of_a_cop_may_wait(hole):
    """Common practice, no source: it goes on first; but the anvil reaches it by the mouth."""
    derived = derive_folder(samples_folder() / "elbow_cop", SHELF, one_maker("UTC"))
    (joint,) = [each.id for each in derived.pattern.joints if hole in each.stack]
    (strap,) = setting(derived, joint)
    rows = setting(derived, *(f"{side}_row_{n}" for side in ("left", "right") for n in (1, 4, 7)))
    barred = {each.first for each in of_rule(derived, "reach-before-closed")}
    assert strap not in barred
    late = judged(derived, moved_after(derived.order, strap, rows))
    broken = late.first_break and late.first_break.relation.reason.rule
    assert broken not in {"reach-before-closed", "row-from-deep-end"}
