"""What the page of shapes tells of reach: tubes and cones in numbers, and each fault by its code."""

from dataclasses import replace
from math import pi

import pytest
from geometry.reach.net_sketches import box_at, rows_between

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.measuring import reach_measures
from armorplan.kernel.findings import Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.choosing import settled
from armorplan.pattern.joining import Seam
from armorplan.rules.reach_sketches import sketch_cone, sketch_tube
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.workshop.shelf import ToolEntry

SHELF = sketch_shelf()
DEEP = (20.0, 130.0, 240.0, 350.0, 460.0, 570.0, 680.0)
SHORT = (20.0, 110.0, 190.0, 280.0)


def told(pattern, shelf=SHELF):
    return {measure.id: measure for measure in reach_measures(pattern, shelf)}


def codes(pattern, shelf=SHELF):
    return {f.code for m in reach_measures(pattern, shelf) for f in m.findings}


def tooled(**changes):
    return replace(SHELF, tools=(replace(SHELF.tools[0], **changes),))


def test_a_tube_has_two_mouths_as_wide_as_its_edge_over_pi():
    shell = told(sketch_tube(long_mm=300.0, spots_mm=SHORT, strap_mm=150.0))["reach:shell:plate"]
    assert shell.verdict == "two mouths, 89 and 89 mm wide"
    wide = [each.value for each in shell.figures if "wide" in each.name]
    assert wide == pytest.approx([280.0 / pi] * 2, rel=0.005)  # closed form: opening = P / π
    assert [mark.label for mark in shell.marks if mark.label] == ["mouth 89 mm"] * 2


@pytest.mark.parametrize(
    ("long_mm", "spots_mm", "verdict"),
    [
        (300.0, SHORT, "easy until back row is shut"),
        (560.0, SHORT, "at the end of reach once back row is shut"),
        (700.0, DEEP, "cannot be set once back row is shut"),
    ],
)
def test_what_sits_in_the_middle_of_a_tube_is_told_by_its_length(long_mm, spots_mm, verdict):
    spots = spots_mm if long_mm != 560.0 else (20.0, 150.0, 280.0, 410.0, 540.0)
    found = told(sketch_tube(long_mm=long_mm, spots_mm=spots, strap_mm=long_mm / 2))
    seats = found["reach:seats:plate"]
    assert (seats.title, seats.verdict) == ("Strap on Plate", verdict)
    (along,) = [each for each in seats.figures if each.name.startswith("way in")]
    assert along.value == pytest.approx(long_mm / 2, rel=0.005)  # closed form: half its length
    assert not seats.findings
    assert {mark.label for mark in seats.marks} >= {f"{long_mm / 2:.0f} mm"}


def test_every_number_says_how_it_was_come_by():
    for measure in reach_measures(
        sketch_cone(deep_mm=350.0, angle_deg=60.0, spots_mm=SHORT), SHELF
    ):
        assert measure.topic == "reach"
        assert measure.text.endswith(".")
        assert all(each.formula and each.source for each in measure.figures)


def test_flat_plates_of_no_row_stand_in_one_line():
    plain = sketch(
        sketch_part("one", holes={"a": (20.0, 20.0)}),
        sketch_part("strap", holes={"s": (8.0, 20.0)}),
        joints=(sketch_rivet("on", "s", "a"),),
    )
    assert all(not measure.findings for measure in told(plain).values())


def test_a_horn_too_thick_for_every_opening_is_told_in_any_order():
    pattern = sketch_tube(long_mm=700.0, spots_mm=DEEP, strap_mm=None)
    found = [
        finding
        for measure in reach_measures(pattern, tooled(opening_mm=200.0))
        for finding in measure.findings
    ]
    assert {each.code for each in found} == {"reach-nothing-gets-there"}
    assert all(each.severity is Severity.WARNING for each in found)
    assert "tools.toml" in found[0].remedy
    assert "reach-nothing-gets-there" not in codes(pattern)


def test_a_tool_that_gets_in_nowhere_is_told():
    pattern = sketch_tube(long_mm=300.0, spots_mm=SHORT, strap_mm=None)
    assert "reach-zero" in codes(pattern, tooled(reach_mm=0.0))
    assert "reach-zero" not in codes(pattern)


def test_a_fastener_that_no_tool_closes_is_told_with_its_joints():
    pattern = sketch_tube(long_mm=300.0, spots_mm=SHORT, strap_mm=None)
    lacking = tooled(serves=("screw",))
    (finding,) = told(pattern, lacking)["reach:tools"].findings
    assert finding.code == "reach-no-tool"
    assert set(finding.about) == {f"row_{n}" for n in range(4)}
    assert codes(pattern, replace(SHELF, tools=())) == set()
    assert isinstance(lacking.tools[0], ToolEntry)


def _two(order):
    one = sketch_part("one", holes={f"a{n}": (10.0 + 20.0 * n, 20.0) for n in range(4)})
    bent = {"b0": (10.0, 10.0), "b1": (30.0, 30.0), "b2": (50.0, 10.0), "b3": (70.0, 30.0)}
    two = sketch_part("two", holes=bent)
    joints = tuple(sketch_rivet(f"j{n}", f"a{n}", f"b{n}") for n in range(4))
    seam = Seam(id="row", name="row", joints=tuple(f"j{n}" for n in order))
    return sketch(one, two, joints=joints, seams=(seam,))


def test_a_seam_listed_so_that_it_crosses_itself_is_told():
    assert "seam-crosses-itself" not in codes(_two((0, 1, 2, 3)))
    crossed = sketch(
        sketch_part(
            "one",
            holes={"a0": (10.0, 10.0), "a1": (70.0, 30.0), "a2": (70.0, 10.0), "a3": (10.0, 30.0)},
        ),
        sketch_part(
            "two",
            holes={"b0": (10.0, 10.0), "b1": (70.0, 30.0), "b2": (70.0, 10.0), "b3": (10.0, 30.0)},
        ),
        joints=tuple(sketch_rivet(f"j{n}", f"a{n}", f"b{n}") for n in range(4)),
        seams=(Seam(id="row", name="row", joints=("j0", "j1", "j2", "j3")),),
    )
    assert "seam-crosses-itself" in codes(crossed)


def test_three_plates_in_one_row_are_told_once():
    parts = [
        sketch_part(name, holes={f"{name}{n}": (10.0 + 20.0 * n, 8.0) for n in range(3)})
        for name in ("a", "b", "c")
    ]
    joints = tuple(sketch_rivet(f"j{n}", f"a{n}", f"b{n}", f"c{n}") for n in range(3))
    seam = Seam(id="row", name="row", joints=("j0", "j1", "j2"))
    found = [
        f
        for m in reach_measures(sketch(*parts, joints=joints, seams=(seam,)), SHELF)
        for f in m.findings
        if f.code == "seam-three-edges"
    ]
    assert len(found) == 1
    assert found[0].about[0] == "row"


def two_row_tube(long_mm, spots_mm):
    """Return a tube of two plates, 60 mm apart from row to row on each: 120 mm round."""

    def plate(name):
        left = {f"{name}l{n}": (10.0, y) for n, y in enumerate(spots_mm)}
        right = {f"{name}r{n}": (70.0, y) for n, y in enumerate(spots_mm)}
        outline = ((0.0, 0.0), (80.0, 0.0), (80.0, long_mm), (0.0, long_mm))
        return replace(sketch_part(name, holes=left | right), outline=outline)

    joints = tuple(
        sketch_rivet(f"{seam}_{n}", f"front{one}{n}", f"back{other}{n}")
        for seam, one, other in (("near", "l", "r"), ("far", "r", "l"))
        for n in range(len(spots_mm))
    )
    seams = tuple(
        Seam(
            id=name, name=f"{name} row", joints=tuple(f"{name}_{n}" for n in range(len(spots_mm)))
        )
        for name in ("near", "far")
    )
    return sketch(plate("front"), plate("back"), joints=joints, seams=seams)


def test_a_horn_too_short_for_two_rivets_in_the_middle_of_a_tube_is_told():
    """Closed form: round, 120 mm give a width of 120 / π. Of the two middle rivets the last lies

    200 mm from either mouth, so a straight tool needs 200 less half that width. Of the rest of its own
    row nothing is set: 9 / 16 of the way to the next, 106.9 mm off, it gapes 0.35 times that, and
    squashed 48.6 mm, so through the open row a horn of 48.5 needs 106.9 less that width: the less.
    Between two rivets set it gapes 0.35 × 95 mm, and squashed 43: too little for it.
    """
    pattern, needed = two_row_tube(400.0, (10.0, 200.0, 390.0)), 190.0 * 9 / 16 - 120.0 / pi
    (finding,) = [
        each
        for m in told(pattern, tooled(reach_mm=60.0, opening_mm=48.5)).values()
        for each in m.findings
    ]
    assert finding.code == "reach-nothing-gets-there"
    assert set(finding.about) == {"near_1", "far_1"}
    (least,) = [int(word) for word in finding.remedy.split() if word.isdigit()]
    assert least == pytest.approx(needed, rel=0.005)
    assert finding.text.startswith(
        "No order sets all of 'far_1' and 'near_1': whichever of them is"
    )
    assert f"a horn of at least {least} mm" in finding.remedy
    # A horn of just that length is no more said to be too short, one of 4 mm less is.
    assert codes(pattern, tooled(reach_mm=float(least), opening_mm=48.5)) == {"reach-not-sure"}
    assert codes(pattern, tooled(reach_mm=least - 4.0, opening_mm=48.5)) == {
        "reach-nothing-gets-there"
    }


def test_the_shapes_are_told_alike_whatever_the_tools():
    """A horn too short for any order says nothing of the leather: mouths, girths and words stay."""
    pattern = two_row_tube(400.0, (10.0, 200.0, 390.0))
    short, long = (
        told(pattern, tooled(reach_mm=mm, opening_mm=48.5))["reach:shell:front"]
        for mm in (60.0, 250.0)
    )
    assert short.findings
    assert not long.findings
    assert short.text.startswith(long.text)
    assert (short.verdict, short.figures) == (long.verdict, long.figures)
    assert "curves inwards" not in short.text


def test_where_a_shell_may_curve_inwards_its_wall_may_be_in_the_way():
    shelf = read_shelf()
    collar = settled(read_pattern(read_folder(samples_folder() / "collar"), shelf).pattern)
    found = told(collar, shelf)
    deep, near = found["reach:row:front_plate_row"], found["reach:row:front_rim_row"]
    hedge = "look whether its wall stands in a straight tool's way"
    assert hedge in deep.text
    assert hedge not in near.text
    (along,) = [each for each in deep.figures if each.name.startswith("way in")]
    assert "its wall may stand in a straight tool's way" in along.formula
    tube = told(sketch_tube(long_mm=300.0, spots_mm=SHORT, strap_mm=150.0))
    assert not [m for m in tube.values() if "wall" in m.text + str(m.figures)]


def test_a_plate_laid_on_another_is_told_flat_and_of_no_mouth():
    spots = {f"{k}{n}": (10.0 + 180.0 * k, 20.0 + 30.0 * n) for k in (0, 1) for n in range(5)}
    over, under = (
        replace(
            sketch_part(name, holes={f"{name}{h}": at for h, at in spots.items()}),
            outline=((0.0, 0.0), (200.0, 0.0), (200.0, 160.0), (0.0, 160.0)),
        )
        for name in ("over", "under")
    )
    joints = tuple(sketch_rivet(f"r{h}", f"over{h}", f"under{h}") for h in spots)
    seams = tuple(
        Seam(id=f"s{k}", name=f"row {k}", joints=tuple(f"r{k}{n}" for n in range(5)))
        for k in (0, 1)
    )
    shell = told(sketch(over, under, joints=joints, seams=seams))["reach:shell:over"]
    assert shell.verdict == "flat, reached from any edge"
    assert "lie flat" in shell.text
    assert not shell.figures
    assert not shell.findings


def test_with_rivets_closer_by_the_short_horn_goes_in_between_them():
    spots = (20.0, 80.0, 140.0, 200.0, 260.0, 320.0, 380.0)
    assert not codes(two_row_tube(400.0, spots), tooled(reach_mm=90.0)) - {"reach-not-sure"}


def scale_tube(around=5, down=4):
    """Return a tube of small plates, each riveted to its neighbours."""
    edge, far = [(6.0, 16.0), (6.0, 40.0)], [(50.0, 16.0), (50.0, 40.0)]
    top, foot = ([(y, x) for x, y in side] for side in (edge, far))
    spots = [(x, y) for y in range(down) for x in range(around)]
    rows = {f"r{x}{y}_": (f"p{x}{y}", far, f"p{(x + 1) % around}{y}", edge) for x, y in spots}
    rows |= {
        f"d{x}{y}_": (f"p{x}{y}", foot, f"p{x}{y + 1}", top) for x, y in spots if y + 1 < down
    }
    return rows_between({f"p{x}{y}": box_at(0.0, 0.0, 56.0, 56.0) for x, y in spots}, rows)


def test_where_more_rows_shut_a_joint_in_than_are_told_this_is_said():
    pattern = scale_tube()
    reach = reach_of(pattern, SHELF)
    assert reach.cut_short
    said = "More rows shut it in than can be told here"
    told = [each for each in reach_measures(pattern, SHELF) if said in each.text]
    assert told
    assert all(reach.cut_short.intersection(each.about) for each in told)
    bare = two_row_tube(400.0, (20.0, 200.0, 380.0))
    assert not reach_of(bare, SHELF).cut_short
    assert not any(said in each.text for each in reach_measures(bare, SHELF))
