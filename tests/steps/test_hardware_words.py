"""Buckles, rings, loops and studs in their own words; folded layers; straps that close round nothing."""

from dataclasses import replace

import pytest
from steps.made_steps import SOURCE, full_shelf, only, square, work_of

from armorplan.pattern.joining import Form, FormKind, Joint, JointKind, Route
from armorplan.pattern.parts import PartKind
from armorplan.pattern.wearing import HardwareUse
from armorplan.rules.sketches import sketch_rivet
from armorplan.steps.model import StepKind
from armorplan.steps.naming import lowered
from armorplan.workshop.shelf import HardwareEntry

STRAP = square("tab", kind=PartKind.STRAP, holes={"s1": (8.0, 20.0), "s2": (40.0, 20.0)})
COP = square(
    "cop", kind=PartKind.COP, holes={"c1": (8.0, 20.0), "c2": (70.0, 20.0), "c3": (40.0, 20.0)}
)
FOLD = Form(id="turn", kind=FormKind.FOLD, parts=("tab",), route=Route.DRY)


def put_on(name, kind, *, held_by=(), count=1, forms=()):
    """The step that puts on hardware of this name and kind."""
    entry = HardwareEntry(id="it", name=name, kind=kind, strap_mm=20.0, source=SOURCE)
    use = HardwareUse(id="it", use="it", part="tab", held_by=held_by, count=count)
    return only(
        work_of(
            STRAP,
            joints=(sketch_rivet("fold", "s1", "s2"),),
            forms=forms,
            hardware=(use,),
            shelf=replace(full_shelf(), hardware=(entry,)),
        ),
        StepKind.MOUNT,
    )


@pytest.mark.parametrize(
    ("name", "kind", "title"),
    [
        (
            "Buckle with one tongue, 20 mm",
            "buckle",
            "Put the 20 mm buckle with one tongue on the Tab",
        ),
        ("Round ring, closed, 10 mm", "ring", "Put the 10 mm round ring on the Tab"),
        ("D-ring, 25 mm", "loop", "Put the 25 mm D-ring on the Tab"),
        ("Button stud, 6 mm head, straps to 20 mm", "stud", "Fix the button stud to the Tab"),
    ],
)
def test_each_kind_has_its_own_title(name, kind, title):
    assert put_on(name, kind).title == title


def test_several_are_counted():
    assert (
        put_on("Round ring, 10 mm", "ring", count=2).title == "Put 2 × 10 mm round ring on the Tab"
    )


def test_a_buckle_speaks_of_its_fold_and_its_tongue():
    said = "Before the fold is shut; mind which way the tongue points."
    assert put_on("Buckle, 20 mm", "buckle", held_by=("fold",)).detail == said
    assert put_on("Buckle, 20 mm", "buckle", forms=(FOLD,)).detail == said
    assert put_on("Buckle, 20 mm", "buckle").detail == "Mind which way the tongue points."


def test_a_stud_speaks_of_neither():
    detail = put_on("Button stud, 6 mm head", "stud", forms=(FOLD,)).detail
    assert "fold" not in detail
    assert "tongue" not in detail


def test_a_fold_with_a_buckle_in_it_is_pinned_and_one_without_is_not():
    use = HardwareUse(id="it", use="buckle", part="tab")
    with_it = only(work_of(STRAP, forms=(FOLD,), hardware=(use,)), StepKind.FORM_DRY)
    without = only(work_of(STRAP, forms=(FOLD,)), StepKind.FORM_DRY)
    assert "pinned" in with_it.detail
    assert "pinned" not in without.detail


@pytest.mark.parametrize(
    ("stack", "words"),
    [
        (("s1", "s2", "c1"), "Tab folded, on Cop;"),
        (("c1", "c2", "s1"), "Cop on itself, on Tab;"),
        (("s1", "c1"), "Tab on Cop;"),
        (("s1", "s2"), "Tab folded;"),
    ],
)
def test_a_layer_that_is_passed_twice_is_named_once(stack, words):
    work = work_of(STRAP, COP, joints=(sketch_rivet("r", *stack),), mirrored=True)
    assert all(step.detail.startswith(words) for step in work.of_kind(StepKind.RIVET))


def test_a_strap_that_closes_round_nothing_is_not_measured_on_the_wearer():
    detail = only(work_of(STRAP), StepKind.PREPARE_STRAP).detail
    assert detail == "Skive the ends and round the tip."


def test_a_lace_names_its_holes():
    lace = Joint(id="l", kind=JointKind.LACE, stack=("s1", "c1", "s2", "c2"), fastener="lace")
    detail = only(work_of(STRAP, COP, joints=(lace,)), StepKind.LACE).detail
    assert detail.startswith("Through 4 holes of Tab and Cop")


def test_words_inside_a_sentence_begin_small_unless_they_are_initials():
    assert [lowered(w) for w in ("Buckle", "D-ring", "PVA glue", "x", "")] == [
        "buckle",
        "D-ring",
        "PVA glue",
        "x",
        "",
    ]
