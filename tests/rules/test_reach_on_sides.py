"""What reach forbids holds only where the row is set, on that side, for good, by tools that are known."""

from dataclasses import replace
from math import inf

import pytest

from armorplan.assembly.expand import assemble
from armorplan.geometry.reach.bench import bench_of
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.measuring import reach_measures
from armorplan.geometry.reach.model import Standing
from armorplan.pattern.joining import JointKind, Seam
from armorplan.pattern.one_side import on_side
from armorplan.pattern.parts import MadeOn, PartKind
from armorplan.relations.model import Force
from armorplan.rules import reach_sides, reaching
from armorplan.rules.facts import Facts
from armorplan.rules.reach_sides import views_of
from armorplan.rules.reach_sketches import sketch_tube
from armorplan.rules.registry import derive_all
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.deriving import derive_steps
from armorplan.workshop.shelf import ToolEntry
from armorplan.workshop.shop import one_maker

SHELF = sketch_shelf()
DEEP = (20.0, 130.0, 240.0, 350.0, 460.0, 570.0, 680.0)
TUBE = sketch_tube(long_mm=700.0, spots_mm=DEEP, strap_mm=350.0)
ROW = tuple(f"row_{n}" for n in range(len(DEEP)))
BY_REACH = frozenset({"reach-before-closed", "row-from-deep-end"})


def relations(pattern, shelf=SHELF):
    assembly = assemble(pattern, shelf, build="b")
    return derive_all(assembly, derive_steps(assembly, shelf), shelf).relations


def barred_steps(pattern, shelf=SHELF):
    return {r.first for r in relations(pattern, shelf) if r.reason.rule in BY_REACH}


def changed(pattern, ids, **changes):
    joints = (replace(each, **changes) if each.id in ids else each for each in pattern.joints)
    return replace(pattern, joints=tuple(joints))


def stave(part_id, other, **holes):
    """A plate of 160 x 700 mm with a row of holes along each long edge."""
    edges = {f"{part_id}_{other}_{n}": (150.0, y) for n, y in enumerate(DEEP)}
    edges |= {f"{part_id}_back_{n}": (10.0, y) for n, y in enumerate(DEEP)}
    outline = ((0.0, 0.0), (160.0, 0.0), (160.0, 700.0), (0.0, 700.0))
    return replace(sketch_part(part_id, holes=edges | holes), outline=outline)


def two_staves(made_on=None):
    """A tube of two plates in a mirrored piece, a strap in the middle of the first."""
    one, other = stave("a", "fore", p=(80.0, 350.0)), stave("c", "fore")
    if made_on is not None:
        other = replace(other, made_on=made_on)
    strap = sketch_part("strap", kind=PartKind.STRAP, holes={"s": (8.0, 20.0)})
    ways = {"x": ("a_fore", "c_back"), "y": ("c_fore", "a_back")}
    rows = {
        row: [sketch_rivet(f"{row}{n}", f"{here}_{n}", f"{there}_{n}") for n in range(len(DEEP))]
        for row, (here, there) in ways.items()
    }
    seams = tuple(
        Seam(id=row, name=f"{row} row", joints=tuple(each.id for each in held))
        for row, held in rows.items()
    )
    joints = (*rows["x"], *rows["y"], sketch_rivet("on", "s", "p"))
    return mirrored(sketch(one, other, strap, joints=joints, seams=seams))


def test_both_sides_of_a_pair_are_barred_where_both_are_whole():
    firsts = barred_steps(two_staves())
    assert {"b/piece/left/rivet/on.left", "b/piece/right/rivet/on.right"} <= firsts


@pytest.mark.parametrize(("made_on", "side"), [(MadeOn.LEFT, "left"), (MadeOn.RIGHT, "right")])
def test_a_plate_made_on_one_side_bars_nothing_on_the_other(made_on, side):
    found = [r for r in relations(two_staves(made_on)) if r.reason.rule in BY_REACH]
    assert found
    assert all(f"/{side}/" in step for r in found for step in (r.first, *r.of))


def mirrored(pattern):
    return replace(pattern, pieces=tuple(replace(each, mirrored=True) for each in pattern.pieces))


def with_cuff():
    """A tube on both sides of the wearer; on the right a cuff goes round one of its mouths."""
    plate, *others = TUBE.parts
    spots = tuple((60.0 + 45.0 * n, 12.0) for n in range(5))
    holes = [
        sketch_part(part, holes={f"{part}{n}": spot for n, spot in enumerate(spots)}).holes
        for part in ("plate", "cuff")
    ]
    cuff = replace(
        sketch_part("cuff"), outline=plate.outline, holes=holes[1], made_on=MadeOn.RIGHT
    )
    joints = tuple(sketch_rivet(f"c{n}", f"plate{n}", f"cuff{n}") for n in range(5))
    return mirrored(
        replace(
            TUBE,
            parts=(replace(plate, holes=(*plate.holes, *holes[0])), *others, cuff),
            joints=(*TUBE.joints, *joints),
            seams=(*TUBE.seams, Seam(id="c", name="cuff row", joints=tuple(j.id for j in joints))),
        )
    )


def said_on(side, pattern):
    """What reach says of the steps of a side, by the rule, the step and its numbers."""
    return {
        (r.reason.rule, r.first, r.of, r.reason.numbers)
        for r in relations(pattern)
        if r.reason.rule in reaching.BY_REACH and f"/{side}/" in r.first
    }


def test_each_side_is_reckoned_with_the_parts_that_are_made_there():
    cuffed = with_cuff()
    left = on_side(cuffed, MadeOn.LEFT)
    assert [part.id for part in left.parts] == ["plate", "strap"]
    assert [seam.id for seam in left.seams] == ["row"]
    assert on_side(cuffed, MadeOn.RIGHT) is cuffed
    assert said_on("left", cuffed) == said_on("left", mirrored(TUBE)) != set()
    both = replace(
        cuffed, parts=tuple(replace(part, made_on=MadeOn.BOTH) for part in cuffed.parts)
    )
    assert said_on("right", cuffed) == said_on("right", both)
    assert said_on("left", cuffed) != said_on("left", both)


@pytest.mark.parametrize("kind", [JointKind.LACE, JointKind.SCREW])
def test_a_row_that_opens_again_costs_its_undoing_and_forbids_nothing(kind):
    pattern = changed(TUBE, ROW, kind=kind, fastener="")
    assert any("rivet/on" in first for first in barred_steps(TUBE))
    assert not any("rivet/on" in first for first in barred_steps(pattern))
    (told,) = [
        r
        for r in relations(pattern)
        if r.reason.rule == "easier-while-open" and r.first.endswith("rivet/on")
    ]
    assert told.reason.force is Force.EASIER
    assembly = assemble(pattern, SHELF, build="b")
    work = derive_steps(assembly, SHELF)
    once_min = sum(work.setting(joint).minutes for joint in ROW)
    assert told.reason.price_min == pytest.approx(2 * once_min)
    assert "opens again" in told.reason.text


@pytest.mark.parametrize(("screw", "is_barred"), [("row_0", True), ("row_3", False)])
def test_a_screw_opens_a_row_only_where_the_horn_then_goes_in(screw, is_barred):
    # The strap lies 360 mm in, the horn is 250 mm long and goes in from 77 mm beside a rivet on: by
    # row_0 no more than 33 mm below the mouth, which lets in nothing.
    spots_mm = tuple(10.0 + 100.0 * n for n in range(8))
    tube = sketch_tube(long_mm=720.0, spots_mm=spots_mm, strap_mm=360.0)
    pattern = changed(tube, {screw}, kind=JointKind.SCREW, fastener="")
    assert any("rivet/on" in first for first in barred_steps(pattern)) == is_barred
    dearer = [
        r.reason.price_min
        for r in relations(pattern)
        if r.reason.rule == "easier-while-open" and r.first.endswith("rivet/on")
    ]
    work = derive_steps(assemble(pattern, SHELF, build="b"), SHELF)
    undone = [] if is_barred else [2 * work.setting(screw).minutes]
    assert dearer == undone


def test_rows_that_only_let_a_tool_in_opened_together_forbid_nothing_either(monkeypatch):
    pattern = two_staves()
    rows = frozenset(joint.id for joint in pattern.joints if joint.id != "on")
    screwed = changed(pattern, rows, kind=JointKind.SCREW, fastener="")
    tried = reaching.margin

    def both_wanted(net, joint, made, bench):
        found = tried(net, joint, made, bench)
        return found if made.isdisjoint(rows) else replace(found, standing=Standing.CANNOT)

    monkeypatch.setattr(reaching, "margin", both_wanted)
    assert any("rivet/on" in first for first in barred_steps(pattern))
    assert not any("rivet/on" in first for first in barred_steps(screwed))


def test_a_laced_row_is_never_out_of_reach():
    needle = ToolEntry(
        id="needle", name="Needle", serves=("lace",), source="-", reach_mm=20.0, opening_mm=40.0
    )
    shelf = replace(SHELF, tools=(*SHELF.tools, needle))
    bare = sketch_tube(long_mm=700.0, spots_mm=DEEP, strap_mm=None)
    pattern = changed(bare, ROW, kind=JointKind.LACE, fastener="")
    assert barred_steps(pattern, shelf) == set()
    found = {each.code for m in reach_measures(pattern, shelf) for each in m.findings}
    assert found.isdisjoint({"reach-nothing-gets-there", "reach-no-tool"})


def test_a_tool_that_works_from_outside_stops_what_cannot_be_done():
    blind = ToolEntry(id="blind", name="Blind setter", serves=("rivet",), source="-", outside=True)
    known = replace(SHELF, tools=(*SHELF.tools, blind))
    assert barred_steps(TUBE, known) == set() != barred_steps(TUBE)


def test_a_tool_whose_reach_is_not_known_stops_what_cannot_be_done_and_is_told_once():
    own = ToolEntry(id="own", name="Own setter", serves=("rivet",), source="-")
    shelf = replace(SHELF, tools=(*SHELF.tools, own))
    assert barred_steps(TUBE, shelf) == set()
    assert "on" in bench_of(TUBE, shelf).unsure
    told = [each for m in reach_measures(TUBE, shelf) for each in m.findings]
    (unknown,) = [each for each in told if each.code == "reach-unknown"]
    assert "'Own setter'" in unknown.text
    drill = replace(own, takes_out=True)
    shelf = replace(SHELF, tools=(*SHELF.tools, drill))
    assert barred_steps(TUBE, shelf) == barred_steps(TUBE)
    assert not any(
        each.code == "reach-unknown" for m in reach_measures(TUBE, shelf) for each in m.findings
    )


def test_a_fastener_whose_foot_is_not_known_is_never_called_cannot():
    horn = replace(SHELF.tools[0], feet=("burr",), reach_mm=900.0, id="long")
    shelf = replace(SHELF, tools=(*SHELF.tools, horn))
    pattern = changed(TUBE, {*ROW, "on"}, fastener="")
    assert bench_of(pattern, shelf).unsure == {*ROW, "on"}
    reach = reach_of(pattern, shelf)
    assert reach.bars
    assert all(bar.after.standing < Standing.CANNOT for bar in (*reach.bars, *reach.own_bars))
    assert all(bar.after.effort < inf for bar in reach.bars)


@pytest.mark.parametrize("ids", [{"on"}, {"row_3"}])
def test_what_is_placed_on_the_wearer_is_never_called_cannot(ids):
    pattern = changed(TUBE, ids, placed_on_wearer=True)
    assert not any("rivet/on" in first for first in barred_steps(pattern))
    assert any("rivet/on" in first for first in barred_steps(TUBE))


def test_a_shell_that_no_order_sets_is_told_and_bars_nothing():
    wide = replace(SHELF, tools=(replace(SHELF.tools[0], opening_mm=120.0), *SHELF.tools[1:]))
    reach = reach_of(TUBE, wide)
    assert not reach.drawn.shells["plate"].hollow
    assert reach.net.shells["plate"].hollow
    assert barred_steps(TUBE, wide) == set()
    found = {each.code for m in reach_measures(TUBE, wide) for each in m.findings}
    assert "reach-nothing-gets-there" in found


def test_what_both_hands_see_is_looked_up_without_comparing_whole_drawings(monkeypatch):
    assembly = assemble(two_staves(), SHELF, build="b")
    facts = Facts(
        assembly=assembly,
        work=derive_steps(assembly, SHELF),
        shelf=SHELF,
        room=one_maker("UTC").room,
    )
    seen = views_of(facts)
    monkeypatch.setattr(reach_sides, "reach_of", None)
    assert all(views_of(each) is seen for each in (facts, replace(facts, work=facts.work)))
    with pytest.raises(TypeError):
        views_of(replace(facts, shelf=replace(SHELF)))
