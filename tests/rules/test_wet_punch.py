"""A wet part is not put under a mallet (common practice, no source): it is punched before or dry."""

from dataclasses import replace

import pytest

from armorplan.orders.sequence import one_order
from armorplan.pattern.own_work import Overruling, OwnKind, OwnRelation
from armorplan.relations.model import Before
from armorplan.rules.pages import example_facts
from armorplan.rules.registry import derive_all
from armorplan.rules.sketches import sketch, sketch_part, sketch_treatment
from armorplan.steps.model import STEP_RANK

PLATE = sketch_part("plate", holes={"a": (10.0, 10.0)})
STRAP = sketch_part("strap", holes={"b": (10.0, 10.0)})
DYED = sketch(PLATE, STRAP, treatments=(sketch_treatment("dye", "plate", coats=2),))
FLAT = Overruling(id="flat", rule="punch-flat", note="Marked through the dyed cop.")


def late(*first, then="punch/plate", force="would spoil"):
    """Say that a punching comes after steps."""
    return tuple(
        OwnRelation(id=f"late_{at}", kind=OwnKind.BEFORE, step=step, others=(then,), force=force)
        for at, step in enumerate(first)
    )


def built(*own):
    """The pairs told of handling before drying, all reasons of them, and an order."""
    facts = example_facts(replace(DYED, own_relations=own, overrulings=(FLAT,) if own else ()))
    relations = derive_all(facts.assembly, facts.work, facts.shelf, facts.room).relations
    told = [r for r in relations if isinstance(r, Before)]
    told = [r for r in told if r.reason.rule == "dry-before-handling" and "punch/" in r.then]
    rank = {step.id: STEP_RANK[step.kind] for step in facts.work.steps}
    order = one_order([*rank], relations, key=rank.__getitem__).order
    return told, [step.split("/", 3)[3] for step in order]


def test_a_part_punched_before_its_dye_waits_for_nothing():
    told, order = built()
    assert not told
    assert order.index("punch/plate") < order.index("dye/dye.coat-1")


@pytest.mark.parametrize("coat", ["dye.coat-1", "dye.coat-2"])
def test_a_part_that_the_maker_punches_after_a_coat_is_dry_by_then(coat):
    told, order = built(*late(f"dye/{coat}"))
    wanted = [f"dye/{coat}", f"dry/{coat}.dye", "punch/plate"]
    assert [one for one in order if one in wanted] == wanted
    (last,) = [r for r in told if r.first.endswith(f"dry/{coat}.dye")]
    assert last.then.endswith("punch/plate")
    assert last.reason.about == ("plate",)
    assert "under the mallet" in last.reason.text


def test_another_part_is_punched_while_the_dyed_one_dries():
    told, _ = built(*late("dye/dye.coat-1", then="punch/strap"))
    assert not told


def test_what_only_steers_makes_nothing_wait():
    own = replace(late("dye/dye.coat-1", force="easier")[0], price_min=1.0)
    assert not built(own)[0]
