"""A longer horn changes which joint comes first, and why; nothing else is touched.

The least that a straight tool gets into a round tube is its depth less the radius of the tube, by hand.
"""

from functools import cache
from math import pi

import pytest
from app.drills.drill_sources import asked, tube, with_horn

from armorplan.app.drills.setting import drill_for, solved
from armorplan.app.drills.source import DrillSource
from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.orders.judging import judge_order
from armorplan.practice.drill import DrillKind
from armorplan.rules.reaching import NEEDS
from armorplan.workshop.shop import one_maker


@cache
def collar_with(horn_mm):
    shelf = with_horn(read_shelf(), horn_mm)
    return DrillSource(derived=derive_folder(samples_folder() / "collar", shelf, one_maker("UTC")))


def first_of(source, seed):
    drill = drill_for(source, asked(DrillKind.FIRST, seed, focus="easier-while-open"))
    found = solved(source, drill)
    return found.answer, found.because[0]


def test_a_longer_horn_changes_what_is_right_and_why():
    """Nothing else is touched: the collar, and its horn of 150 mm for one of 250 mm."""
    short, long = collar_with(150.0), collar_with(250.0)
    pairs = [(first_of(short, seed), first_of(long, seed)) for seed in range(8)]
    changed = [(one, other) for one, other in pairs if one[0] != other[0]]
    assert changed
    for (_, before), (_, after) in changed:
        assert before.text != after.text
        numbers = [{n.name: n.value for n in b.exact} for b in (before, after)]
        assert numbers[0]["reach"] < numbers[1]["reach"] == 250.0
        assert "of its 250 mm" in after.text
    # With the short one the outer rivets are dear as well; longer horns leave only the inner ones.
    inner = {other[0][0] for _, other in pairs}
    assert inner == {"buckle_inner", "strap_inner"}
    dear = {one[0][0] for one, _ in pairs}
    assert dear & inner
    assert dear - inner == {"buckle_outer", "strap_outer"}


def test_with_a_longer_horn_the_same_wrong_answer_is_right():
    """A strap 350 mm in, in a tube 280 mm round: with 250 mm it comes first, with 600 mm it can wait."""
    source = tube(250.0)
    drill = drill_for(source, asked(DrillKind.FIRST, 0, focus="reach-before-closed"))
    found = solved(source, drill)
    assert found.answer == ("on",)
    numbers = {number.name: number.value for number in found.because[0].exact}
    radius_mm = 280.0 / 2 / pi
    assert numbers[NEEDS] == pytest.approx(350.0 - radius_mm, abs=1.0)
    assert numbers[NEEDS] > numbers["reach"] == 250.0
    strap = source.derived.work.setting("on").id
    order = [step for step in source.derived.order if step != strap]
    at = max(n for n, step in enumerate(order) if "/rivet/row_" in step) + 1
    late = [*order[:at], strap, *order[at:]]
    for horn_mm, is_right in ((250.0, False), (600.0, True)):
        derived = tube(horn_mm).derived
        assert judge_order(late, derived.order, derived.relations).valid is is_right
