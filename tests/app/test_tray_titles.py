"""What trays of several steps are called, and in which order they stand under a heading."""

from dataclasses import replace
from datetime import UTC, datetime

from armorplan.app.bench_states import states_now
from armorplan.app.checklist_rows import ChecklistFacts, checklist_rows
from armorplan.app.derived import derive_build
from armorplan.app.rows import Grouping
from armorplan.ledger.state import derive
from armorplan.pattern.joining import Joint, JointKind
from armorplan.pattern.own_work import OwnStep
from armorplan.pattern.parts import Harness
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import (
    sketch,
    sketch_form,
    sketch_part,
    sketch_rivet,
    sketch_treatment,
)
from armorplan.workshop.shop import one_maker

UPPER = replace(sketch_part("upper", tooling="rope", bevelled=True), burnished=True, skived=True)
LOWER = replace(sketch_part("lower", tooling="wave", bevelled=True), burnished=True, skived=True)
GLUES = tuple(
    Joint(id=name, kind=JointKind.GLUE, layers=("upper", "lower"), fastener="cement")
    for name in ("a", "b")
)


def trays(pattern):
    derived = derive_build(pattern, sketch_shelf(), one_maker(), build="s-1")
    at = datetime(2027, 3, 1, 12, 0, tzinfo=UTC)
    states = states_now(derived, derive(()), at)
    facts = ChecklistFacts(derived=derived, states=states, timers={}, spans={})
    rows = checklist_rows(facts, Grouping.PIECE)
    return [row.title for row in rows if row.id.startswith("tray:")]


def test_every_tray_says_in_words_what_is_done():
    own = tuple(OwnStep(id=i, name=i, piece="piece", wait_min=10) for i in ("one", "two"))
    pattern = replace(
        sketch(
            UPPER,
            LOWER,
            joints=GLUES,
            treatments=(sketch_treatment("finish", "upper", "lower"),),
        ),
        own_steps=own,
    )
    assert set(trays(pattern)) >= {
        "Cut",
        "Skive overlaps",
        "Bevel edges",
        "Burnish edges",
        "Case for tooling",
        "Dry the tooled leather",
        "Mask glue faces",
        "Roughen glue faces",
        "Glue",
        "Your own steps",
    }


def test_leather_is_cased_again_for_forming_and_dries_in_its_shape():
    forms = tuple(sketch_form(f"bow_{part}", part) for part in ("upper", "lower"))
    found = trays(sketch(UPPER, LOWER, forms=forms))
    damp = [t for t in found if t.startswith(("Case", "Tool", "Shape", "Dry"))]
    assert damp == [
        "Case for tooling",
        "Tool",
        "Case for forming",
        "Shape while damp",
        "Dry the damp-formed leather",
    ]


def test_a_harness_has_a_heading_of_its_own():
    joints = (sketch_rivet("hang", "u", "c"),)
    cuff = replace(sketch_part("cuff", holes={"c": (10.0, 10.0)}), piece="arm")
    pattern = sketch(sketch_part("upper", holes={"u": (10.0, 10.0)}), cuff, joints=joints)
    pattern = replace(
        pattern,
        pieces=(*pattern.pieces, replace(pattern.pieces[0], id="arm", name="Arm")),
        harnesses=(Harness(id="leg", name="Whole leg", pieces=("piece", "arm")),),
    )
    derived = derive_build(pattern, sketch_shelf(), one_maker(), build="s-1")
    last = derived.work.step(derived.order[-1])
    assert (last.piece, last.title) == ("leg", "Label and pack Whole leg")
