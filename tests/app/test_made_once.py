"""A joint made once on a shell that is made on both sides: all say the same of what is set before it."""

from dataclasses import replace

import pytest

from armorplan.app.derived import Derived, derive_build
from armorplan.app.reach_between import both_ways
from armorplan.app.reach_track import reach_track
from armorplan.app.set_before import set_before
from armorplan.assembly.model import Side
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Standing
from armorplan.pattern.joining import Seam
from armorplan.pattern.parts import PartKind
from armorplan.pattern.pattern import Piece
from armorplan.rules.reach_sides import set_on, sides_in
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.workshop.shop import one_maker

DEEP = tuple(20.0 + 36.0 * n for n in range(20))


def stave(part_id, **holes):
    edges = {f"{part_id}_fore_{n}": (150.0, y) for n, y in enumerate(DEEP)}
    edges |= {f"{part_id}_back_{n}": (10.0, y) for n, y in enumerate(DEEP)}
    outline = ((0.0, 0.0), (160.0, 0.0), (160.0, 724.0), (0.0, 724.0))
    return replace(sketch_part(part_id, holes=edges | holes), outline=outline)


@pytest.fixture(scope="module")
def build() -> Derived:
    """A middle plate with a strap on it, and wings on the left and on the right that close it."""
    middle, wing = stave("middle", p=(80.0, 350.0)), replace(stave("wing"), piece="sides")
    strap = sketch_part("strap", kind=PartKind.STRAP, holes={"s": (8.0, 20.0)})
    ways = {"x": ("middle_fore", "wing_back"), "y": ("wing_fore", "middle_back")}
    rows = {
        row: [sketch_rivet(f"{row}{n}", f"{here}_{n}", f"{there}_{n}") for n in range(len(DEEP))]
        for row, (here, there) in ways.items()
    }
    seams = tuple(
        Seam(id=row, name=f"{row} row", joints=tuple(each.id for each in held))
        for row, held in rows.items()
    )
    joints = (*rows["x"], *rows["y"], sketch_rivet("on", "s", "p"))
    pattern = sketch(middle, wing, strap, joints=joints, seams=seams)
    pieces = (*pattern.pieces, Piece(id="sides", name="Sides", mirrored=True))
    built = derive_build(
        replace(pattern, pieces=pieces), read_shelf(), one_maker("UTC"), build="b"
    )
    return in_order(built)


def in_order(built):
    """Return the build with its order changed: the left wing, the right wing, then the strap."""

    def rank(step):
        joints = built.work.sets(built.work.step(step))
        sides = [built.assembly.joint(each).side for each in joints]
        if not sides:
            return 0
        return {Side.LEFT: 1, Side.RIGHT: 2, Side.SINGLE: 3}[sides[0]]

    order = tuple(sorted(built.order, key=rank))
    place = {step: at for at, step in enumerate(order)}
    return replace(built, sequence=replace(built.sequence, order=order), place=place)


def after(build, side):
    """Return how many steps of the order are done once a side's last joint is set."""
    done = [
        at
        for at, step in enumerate(build.order, start=1)
        if any(
            build.assembly.joint(each).side is side
            for each in build.work.sets(build.work.step(step))
        )
    ]
    return max(done)


def test_with_one_wing_on_the_strap_meets_nothing_as_set_with_both_all(build):
    once = {"on"}
    assert set_before(build, after(build, Side.LEFT), Side.SINGLE) - once == frozenset()
    both = set_before(build, after(build, Side.RIGHT), Side.SINGLE)
    assert both == {f"{row}{n}" for row in "xy" for n in range(len(DEEP))}
    assert set_before(build, after(build, Side.LEFT), Side.LEFT) == both


def test_the_slider_and_the_answer_to_which_first_stand_alike_all_along_the_order(build):
    track, reach = reach_track(build), reach_of(build.pattern, build.shelf)
    told = []
    for at, stop in enumerate(track.stops):
        frame = track.frame(at)
        (strap,) = (each for each in frame.joints if each.id == "on")
        made = set_before(build, build.place[stop.step], Side.SINGLE) - {"on"}
        assert strap.margin == margin(reach.net, "on", made, reach.bench)
        told.append(strap.margin.standing)
    assert {told[0], told[-1]} == {Standing.FLAT, Standing.CANNOT}


def test_after_both_wings_it_is_out_of_reach_after_one_it_is_not(build):
    on = build.work.setting("on").id
    last = {side: build.order[after(build, side) - 1] for side in (Side.LEFT, Side.RIGHT)}
    assert both_ways(build, on, [last[Side.RIGHT]]).after.standing is Standing.CANNOT
    assert both_ways(build, on, [last[Side.LEFT]]).before.standing is Standing.FLAT


def test_a_joint_is_set_where_the_last_of_what_a_side_meets_is(build):
    sided = sides_in(build.assembly)
    place = {"x0.left": 1, "x0.right": 5, "on": 3, "x1.left": 2}
    assert set_on(sided, "x0", Side.SINGLE, place) == 5
    assert set_on(sided, "x0", Side.LEFT, place) == 1
    assert set_on(sided, "on", Side.RIGHT, place) == 3
    assert set_on(sided, "x1", Side.SINGLE, place) is None
