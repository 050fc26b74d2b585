"""What reasons say: how it is put on, whose parts they are, what a lace passes."""

from dataclasses import replace

import pytest

from armorplan.pattern.joining import Applying, Joint, JointKind
from armorplan.rules.pages import example_facts
from armorplan.rules.registry import rule_named
from armorplan.rules.sketches import sketch, sketch_part, sketch_treatment
from armorplan.rules.trade import one_bath

UPPER = sketch_part("upper", holes={"u1": (10.0, 10.0), "u2": (40.0, 10.0)})
LOWER = sketch_part("lower", holes={"l1": (10.0, 10.0), "l2": (40.0, 10.0)})


def texts(code, pattern):
    rule = rule_named(code)
    assert rule
    return {relation.reason.text for relation in rule.derive(example_facts(pattern))}


def test_many_parts_are_told_by_their_piece():
    names = [f"p{n}" for n in range(5)]
    pattern = sketch(*map(sketch_part, names), treatments=(sketch_treatment("dye", *names),))
    (text,) = texts("dry-before-handling", replace(pattern, joints=()))
    assert text.startswith("5 parts of Piece: wet leather takes every fingerprint")


def test_a_lace_passes_holes_and_no_layers():
    lace = Joint(id="tie", kind=JointKind.LACE, stack=("u1", "l1", "u2", "l2"))
    said = texts("stack-before-joint", sketch(UPPER, LOWER, joints=(lace,)))
    assert "The lace passes 4 holes of Upper and Lower: those of Lower have to be there." in said
    assert not any("layers" in text for text in said)


@pytest.mark.parametrize(
    ("applying", "words"),
    [(Applying.WIPE, "One mixing and one set of cloths do"), (Applying.DIP, "One bath does")],
)
def test_what_is_wiped_goes_into_no_bath(applying, words):
    pattern = one_bath.RULE.examples[0].pattern
    (dip,) = pattern.treatments
    treated = replace(pattern, treatments=(replace(dip, applying=applying),))
    (text,) = texts("one-bath", treated)
    assert text.startswith(f"{words} for all of it")


@pytest.mark.parametrize(
    ("applying", "words"),
    [(Applying.WIPE, "are done one after the other"), (Applying.DIP, "go into the same bath")],
)
def test_a_pair_is_wiped_or_goes_into_one_bath(applying, words):
    oiled = replace(sketch_treatment("oil", "upper"), applying=applying)
    (text,) = texts("pair-shares-baths", sketch(UPPER, treatments=(oiled,), mirrored=True))
    assert text.startswith(f"Left and right {words}")
