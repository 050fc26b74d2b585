"""What an order somebody wrote costs: joint by joint, as the row stands in it."""

import pytest

from armorplan.app.between_rows import between_row
from armorplan.app.derived import derive_build
from armorplan.app.effort_judged import cost_words
from armorplan.app.judged_order import judged_order
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.units import about_words
from armorplan.rules.reach_sketches import sketch_cone
from armorplan.workshop.shop import one_maker

SPOTS = (30.0, 80.0, 130.0, 180.0, 230.0)


@pytest.fixture
def deep_cop():
    pattern = sketch_cone(deep_mm=250.0, angle_deg=90.0, spots_mm=SPOTS)
    return derive_build(pattern, read_shelf(), one_maker(), build="a")


def turned(derived):
    """Return the chosen order with the row of the cone set from its other end."""
    row = [step for step in derived.order if "/rivet/row_" in step]
    back = iter(reversed(row))
    return [next(back) if step in row else step for step in derived.order]


def test_a_row_from_its_rim_costs_what_the_answer_to_which_of_two_says(deep_cop):
    last_by_rim = next(s for s in reversed(turned(deep_cop)) if "/rivet/row_" in s)
    first_by_rim = next(s for s in turned(deep_cop) if "/rivet/row_" in s)
    cost = judged_order(deep_cop, turned(deep_cop)).cost
    told = between_row(deep_cop, last_by_rim, first_by_rim)
    assert cost.more_min > 1
    assert cost.more_min == pytest.approx(told.price_min, abs=0.01)


def test_it_says_which_row_and_that_its_other_end_takes_less(deep_cop):
    cost = judged_order(deep_cop, turned(deep_cop)).cost
    lead, line = cost_words(cost, {step.id: step.title for step in deep_cop.work.steps})
    assert f"about {about_words(cost.more_min)} more" in lead
    row = [deep_cop.work.step(s).title for s in turned(deep_cop) if "/rivet/row_" in s]
    assert f"for '{row[0]}' to '{row[-1]}', set one by one in this order" in line
    assert "from its other end it takes so much less" in line


def test_loaded_first_the_way_along_the_row_costs_nothing(deep_cop):
    (row,) = judged_order(deep_cop, turned(deep_cop)).cost.dearest
    (group,) = deep_cop.effort.rows.values()
    assert row.loaded_less_min == pytest.approx(
        group.minutes.one_by_one_min + row.minutes - group.minutes.loaded_min, abs=0.02
    )


def test_the_chosen_order_costs_nothing_more(deep_cop):
    cost = judged_order(deep_cop, deep_cop.order).cost
    assert cost.more_min == pytest.approx(0.0, abs=0.01)
    assert not cost.dearest
