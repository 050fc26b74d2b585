"""What cannot be right in a pattern is told once, with how to mend it, and the rest is reckoned."""

from dataclasses import replace
from math import cos, pi, sin

import pytest

from armorplan.app.between_rows import between_row
from armorplan.app.derived import derive_build
from armorplan.app.why_between import Answer
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.measuring import reach_measures
from armorplan.geometry.reach.strays import put_right, strays_of
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.joining import Form, FormKind, Route, Seam
from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Force
from armorplan.rules.reach_sketches import sketch_tube
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.workshop.shop import one_maker

SHELF = read_shelf()


@pytest.fixture(scope="module")
def cop():
    return read_pattern(read_folder(samples_folder() / "elbow_cop"), SHELF).pattern


def findings(pattern, shelf=SHELF):
    return [each for m in reach_measures(pattern, shelf) for each in m.findings]


def moved(pattern, joints, *, into, at):
    """Return a pattern with joints taken out of their seam and listed by another, from a place on."""
    seams = []
    for seam in pattern.seams:
        kept = [joint for joint in seam.joints if joint not in joints]
        if seam.id == into:
            kept[at:at] = joints
        seams.append(replace(seam, joints=tuple(kept)))
    return replace(pattern, seams=tuple(seams))


def test_three_edges_in_one_seam_are_told_with_the_row_the_joints_belong_to(cop):
    wrong = moved(cop, ["right_row_1", "right_row_2"], into="left_row", at=0)
    (finding,) = findings(wrong)
    assert finding.code == "seam-three-edges"
    assert finding.text.startswith(
        "Left row joins three edges: numbers 1 and 2 right petal, numbers 3 to 9 left petal. "
        "Do 'right_row_1' and 'right_row_2' belong to right row?"
    )
    assert "[seams.left_row]" in finding.remedy
    assert "[seams.right_row]" in finding.remedy


@pytest.mark.parametrize(
    ("joints", "at"),
    [
        (["right_row_1", "right_row_2"], 0),
        (["right_row_2", "right_row_1"], 0),
        (["right_row_7"], 7),
        (["right_row_6", "right_row_7"], 3),
    ],
)
def test_what_is_listed_in_the_wrong_seam_is_reckoned_in_its_row(cop, joints, at):
    wrong = moved(cop, joints, into="left_row", at=at)
    right, found = reach_of(cop, SHELF), reach_of(wrong, SHELF)
    assert found.net == right.net
    assert found.bars == right.bars
    assert found.runs == right.runs


def test_a_row_that_goes_on_over_the_next_plate_is_no_fault():
    """The top row holds the upper lame with three rivets and the lower with one; the lower has a row

    of its own at its other edge. The one rivet lies with the top row, not with that.
    """
    tops, lows = [(20.0 + 20.0 * n, 8.0) for n in range(4)], [(80.0, 60.0), (100.0, 60.0)]
    long = {f"l{n}": spot for n, spot in enumerate([*tops, *lows])}
    upper = {f"u{n}": spot for n, spot in enumerate(tops[:3])}
    lower = {f"w{n}": spot for n, spot in enumerate([tops[3], *lows])}
    held = [*upper, *lower]
    pattern = sketch(
        sketch_part("long", holes=long),
        sketch_part("upper", holes=upper),
        sketch_part("lower", holes=lower),
        joints=tuple(sketch_rivet(f"j{n}", f"l{n}", hole) for n, hole in enumerate(held)),
        seams=(
            Seam(id="top", name="top row", joints=("j0", "j1", "j2", "j3")),
            Seam(id="low", name="low row", joints=("j4", "j5")),
        ),
    )
    assert not list(strays_of(pattern))


def test_the_samples_list_no_stray_joint(cop):
    names = ("collar", "three_lames", "arm_harness")
    others = [read_pattern(read_folder(samples_folder() / name), SHELF).pattern for name in names]
    for pattern in (cop, *others):
        assert not list(strays_of(pattern))
        assert put_right(pattern) is pattern


def pillow(*, dished=False):
    """Two discs of 105 mm, the one drawn turned over, riveted all round, a strap in the middle of one."""
    count, ring_mm = 24, 105.0
    turns = [2.0 * pi * n / count for n in range(count)]
    front = {
        f"f{n}": (150 + ring_mm * cos(t), 150 + ring_mm * sin(t)) for n, t in enumerate(turns)
    }
    back = {f"b{n}": (150 - ring_mm * cos(t), 150 + ring_mm * sin(t)) for n, t in enumerate(turns)}
    edge = [2.0 * pi * n / 96 for n in range(96)]
    outline = tuple((150 + 115.0 * cos(t), 150 + 115.0 * sin(t)) for t in edge)
    plates = [
        replace(sketch_part(name, holes=holes), outline=outline)
        for name, holes in (("front", front | {"mid": (150.0, 150.0)}), ("back", back))
    ]
    strap = sketch_part("strap", kind=PartKind.STRAP, holes={"s": (8.0, 20.0)})
    rim = tuple(sketch_rivet(f"rim_{n}", f"f{n}", f"b{n}") for n in range(count))
    seam = Seam(id="rim", name="rim row", joints=tuple(joint.id for joint in rim))
    dish = Form(
        id="dish", kind=FormKind.DISH, route=Route.DAMP, parts=("front", "back"), radius_mm=150.0
    )
    return sketch(
        *plates,
        strap,
        joints=(*rim, sketch_rivet("on", "s", "mid")),
        seams=(seam,),
        forms=(dish,) if dished else (),
    )


@pytest.mark.parametrize("dished", [False, True])
def test_a_shape_with_no_opening_is_told_once_with_the_first_rivet_out_of_reach(dished):
    """A gap of the last row is 0.35 of the way to the nearest rivet set wide, hands and horns need 25 mm:

    of 24 rivets 27.5 mm apart the last two leave no more than 9.6 mm, the one before 19 mm.
    """
    pattern = pillow(dished=dished)
    told = {measure.id: measure for measure in reach_measures(pattern, SHELF)}
    (finding,) = [each for each in findings(pattern) if each.code.startswith("reach-no")]
    assert finding.code == "reach-no-opening"
    first = finding.text.partition("is the first that no tool gets in behind")[0].split("'")[-2]
    assert first in {"rim_21", "rim_22"}
    for way_out in ("screw posts", "lace", "blind fasteners", "a gap"):
        assert way_out in finding.remedy
    assert f"'{first}'" in finding.remedy
    assert f"'{first}'" in told["reach:row:rim"].verdict


def test_what_sits_in_a_shape_with_no_opening_is_set_before_its_row():
    pattern = pillow()
    told = {measure.id: measure for measure in reach_measures(pattern, SHELF)}
    assert told["reach:seats:front"].verdict == "cannot be set once rim row is shut"
    build = derive_build(pattern, SHELF, one_maker(), build="a")
    row = between_row(build, "on", "row:rim")
    assert (row.answer, row.force) == (Answer.MUST, Force.CANNOT)
    place = {step: at for at, step in enumerate(build.order)}
    last = max(at for step, at in place.items() if "/rim_" in step)
    assert next(at for step, at in place.items() if step.endswith("rivet/on")) < last


TUBE = sketch_tube(
    long_mm=600.0, spots_mm=tuple(20.0 + 56.0 * n for n in range(11)), strap_mm=300.0
)


def changed(tool_id, **changes):
    """Return the shelf with one of its tools changed; of ``None`` all."""
    tools = (
        replace(tool, **changes)
        if tool_id in {None, tool.id} and tool.reach_mm is not None
        else tool
        for tool in SHELF.tools
    )
    return replace(SHELF, tools=tuple(tools))


@pytest.mark.parametrize(
    ("shelf", "code", "mend"),
    [
        (changed("horn_anvil", reach_mm=0.0), "reach-zero", "say so as reach_mm in tools.toml"),
        (
            changed(None, serves=("screw",)),
            "reach-no-tool",
            "Say reach_mm and opening_mm of a tool",
        ),
    ],
)
def test_tools_that_get_in_nowhere_or_close_nothing_are_told_once(shelf, code, mend):
    (finding,) = findings(TUBE, shelf)
    assert finding.code == code
    assert mend in finding.remedy
    told = {measure.id: measure for measure in reach_measures(TUBE, shelf)}
    right = {measure.id: measure for measure in reach_measures(TUBE, SHELF)}
    assert told["reach:shell:plate"] == right["reach:shell:plate"]
    assert {"reach:row:row", "reach:seats:plate"} <= told.keys()


def test_a_row_longer_than_any_reach_is_told_where_no_order_sets_it():
    """Each rivet lets the horn in by the open row beside it: from one end on all of 3 m can be set.

    A tool of 160 mm goes into no mouth of 89 mm; squashed 1.15 times, the row gapes as wide 397 mm
    from the last rivet set, which is 397 - 280 / π = 308 mm to get in at least: none does.
    """
    spots = tuple(20.0 + 49.0 * n for n in range(61))
    tube = sketch_tube(long_mm=2980.0, spots_mm=spots, strap_mm=None)
    assert not findings(tube)
    (row,) = [m for m in reach_measures(tube, SHELF) if m.id == "reach:row:row"]
    assert row.verdict == "cannot be set once the rest of back row is set"
    (finding,) = findings(tube, changed(None, opening_mm=160.0))
    assert finding.code == "reach-nothing-gets-there"
    assert "a tool that goes in through a narrower opening" in finding.remedy
    (shell,) = [m for m in reach_measures(tube, SHELF) if m.id == "reach:shell:plate"]
    assert shell.verdict.startswith("two mouths")
