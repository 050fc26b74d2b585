"""What the shapes tell as rows: with the sides of the build put in."""

from dataclasses import replace

import pytest

from armorplan.app.derived import Derived, derive_build
from armorplan.app.opening import derive_folder
from armorplan.app.shape_rows import ShapeRow, shape_rows
from armorplan.app.spoken_of import SpokenOf
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

SHELF = read_shelf()
SHOP = one_maker("UTC")


def _sample(name: str) -> Derived:
    return derive_folder(samples_folder() / name, SHELF, SHOP)


def _mirrored(derived: Derived) -> Derived:
    """The same pattern with every piece made left and right."""
    pattern = derived.pattern
    pieces = tuple(replace(piece, mirrored=True) for piece in pattern.pieces)
    return derive_build(replace(pattern, pieces=pieces), SHELF, SHOP, build="pair-1")


@pytest.fixture(scope="module")
def pair() -> Derived:
    return _mirrored(_sample("three_lames"))


def _measure(**more) -> Measure:
    known = {"id": "rows:one", "topic": Topic.ROWS, "title": "row", "verdict": "meet", "text": "."}
    return Measure(**(known | more))


def _row(derived: Derived, measure: Measure) -> ShapeRow:
    (row,) = shape_rows(replace(derived, shapes=(measure,)), SpokenOf(derived))
    return row


def test_a_plain_id_of_a_pair_stands_for_both_sides(pair):
    part, joint = pair.pattern.parts[0].id, pair.pattern.joints[0].id
    row = _row(pair, _measure(about=(part, joint)))
    assert row.parts == (f"{part}.left", f"{part}.right")
    assert row.joints == (f"{joint}.left", f"{joint}.right")
    setting = [pair.work.setting(each) for each in row.joints]
    assert row.steps == tuple(step.id for step in setting)


def test_ids_with_a_side_stand_for_that_side_alone(pair):
    part, joint = f"{pair.pattern.parts[0].id}.left", f"{pair.pattern.joints[0].id}.right"
    lit = SpokenOf(pair).light((part, joint))
    assert (lit.parts, lit.joints) == ((part,), (joint,))


def test_a_hole_lights_its_part_and_the_joint_through_it(pair):
    joint = pair.assembly.joints[0]
    lit = SpokenOf(pair).light((joint.stack[0][1],))
    sides = {each.id for each in pair.assembly.joints if each.joint.id == joint.joint.id}
    assert joint.stack[0][0] in lit.parts
    assert set(lit.joints) == sides


def test_a_seam_lights_all_its_joints_unless_some_are_named_beside_it():
    derived = _sample("elbow_cop")
    seam = derived.pattern.seams[0]
    spoken = SpokenOf(derived)
    assert spoken.light((seam.id,)).joints == seam.joints
    assert spoken.light((seam.id, *seam.joints[2:4])).joints == seam.joints[2:4]


def test_a_form_lights_its_parts_and_the_steps_that_make_it(pair):
    form = pair.pattern.forms[0]
    lit = SpokenOf(pair).light((form.id,))
    assert set(lit.parts) == {f"{p}.{side}" for p in form.parts for side in ("left", "right")}
    kinds = {pair.work.step(step).kind for step in lit.steps}
    assert kinds <= {StepKind.FORM, StepKind.FORM_DRY, StepKind.HARDEN}
    assert len(lit.steps) >= 2


def test_a_form_that_a_seam_makes_lights_the_seam():
    derived = _sample("elbow_cop")
    form = next(form for form in derived.pattern.forms if form.seams)
    lit = SpokenOf(derived).light((form.id,))
    sewn = [s.joints for s in derived.pattern.seams if s.id in form.seams]
    assert set(lit.joints) == {joint for joints in sewn for joint in joints}
    assert all(derived.work.step(step).joints for step in lit.steps)


def test_a_piece_lights_its_parts_and_a_step_itself(pair):
    piece, step = pair.pattern.pieces[0].id, pair.work.steps[0].id
    spoken = SpokenOf(pair)
    assert len(spoken.light((piece,)).parts) == 2 * len(
        [p for p in pair.pattern.parts if p.piece == piece]
    )
    assert spoken.light((step,)).steps == (step,)


def test_what_nobody_knows_lights_nothing(pair):
    lit = SpokenOf(pair).light(("nobody", ""))
    assert (lit.parts, lit.joints, lit.steps) == ((), (), ())


def test_the_gravest_finding_gives_the_row_its_severity(pair):
    told = [
        Finding(code="row-misfit", severity=severity, text=".", remedy=".", about=())
        for severity in (Severity.NOTE, Severity.ERROR, Severity.WARNING)
    ]
    assert _row(pair, _measure(findings=tuple(told))).severity == "error"
    assert _row(pair, _measure()).severity == ""


def test_the_session_makes_them_once(bench):
    assert bench.session.shapes() is bench.session.shapes()
    assert [row.id for row in bench.session.shapes()] == [
        measure.id for measure in bench.session.derived.shapes
    ]


@pytest.mark.parametrize("sample", ["elbow_cop", "collar", "three_lames", "arm_harness"])
def test_every_finding_about_something_lights_something(sample):
    derived = _mirrored(_sample(sample))
    spoken = SpokenOf(derived)
    for row in shape_rows(derived, spoken):
        assert row.parts or row.joints, row.id
