"""Whatever is closed, and however, what reach forbids leaves an order, or it is told what is at fault."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from armorplan.assembly.expand import assemble
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.measuring import reach_measures
from armorplan.pattern.joining import JointKind, Seam
from armorplan.pattern.parts import MadeOn, PartKind
from armorplan.relations.conflict import find_conflict
from armorplan.relations.weighing import binding
from armorplan.rules.registry import derive_all
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.deriving import derive_steps

SHELF = sketch_shelf()
TOLD = {"reach-nothing-gets-there", "reach-no-opening"}
SIDES = ("left", "right", "top", "bottom")
KINDS = (JointKind.RIVET, JointKind.RIVET, JointKind.RIVET, JointKind.LACE, JointKind.SCREW)
IN_MM = 8.0


def spots(side, size, count):
    """Holes along one edge of a plate, clear of its corners."""
    wide, high = size
    along = high if side in ("left", "right") else wide
    at = [20.0 + (along - 40.0) * n / (count - 1) for n in range(count)]
    if side in ("left", "right"):
        x = IN_MM if side == "left" else wide - IN_MM
        return [(x, y) for y in at]
    y = IN_MM if side == "top" else high - IN_MM
    return [(x, y) for x in at]


def plate(part_id, size, holes, made_on):
    wide, high = size
    outline = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    return replace(sketch_part(part_id, holes=holes), outline=outline, made_on=made_on)


@some.composite
def closed_shapes(draw):
    """Tubes of staves, pouches, stacks of layers and overlays, of several sizes and fastenings.

    Every other plate may be swollen, so that two that are held all round are a pillow.
    """
    size = draw(some.tuples(*[some.sampled_from([90.0, 160.0, 300.0, 700.0])] * 2))
    swell = draw(some.sampled_from([1.0, 1.4]))
    sizes = [size if n % 2 == 0 else (swell * size[0], swell * size[1]) for n in range(4)]
    count = draw(some.integers(2, 4))
    shape = draw(some.sampled_from(["tube", "pouch", "pouch", "stack", "chain"]))
    plates = draw(some.integers(1, 4)) if shape == "tube" else draw(some.integers(2, 3))
    held = draw(
        some.lists(
            some.sampled_from(SIDES),
            min_size=draw(some.sampled_from([1, 4])),
            max_size=4,
            unique=True,
        )
    )
    lines = {
        "tube": [(n, "right", (n + 1) % plates, "left") for n in range(plates)],
        "pouch": [(0, side, 1, side) for side in held],
        "stack": [(n, side, n + 1, side) for n in range(plates - 1) for side in held],
        "chain": [(n, "right", n + 1, side) for n in range(plates - 1) for side in held[:2]],
    }[shape]
    holes, joints, seams = {n: {} for n in range(plates)}, [], []
    for at, (one, edge, other, opposite) in enumerate(lines):
        kind = draw(some.sampled_from(KINDS))
        ids = [f"j{at}_{n}" for n in range(count)]
        for n, id_ in enumerate(ids):
            holes[one][f"{id_}_a"] = spots(edge, sizes[one], count)[n]
            holes[other][f"{id_}_b"] = spots(opposite, sizes[other], count)[n]
            joints.append(replace(sketch_rivet(id_, f"{id_}_a", f"{id_}_b"), kind=kind))
        if draw(some.booleans()):
            seams.append(Seam(id=f"s{at}", name=f"row {at}", joints=tuple(ids)))
    strapped = draw(some.integers(0, plates - 1))
    holes[strapped]["p"] = (sizes[strapped][0] / 2, sizes[strapped][1] / 2)
    joints.append(sketch_rivet("on", "s", "p"))
    joints = draw(some.permutations(joints)) if draw(some.booleans()) else joints
    mirrored = draw(some.booleans())
    sides = some.sampled_from(
        [MadeOn.BOTH, MadeOn.BOTH, MadeOn.LEFT] if mirrored else [MadeOn.BOTH]
    )
    parts = [plate(f"p{n}", sizes[n], holes[n], draw(sides)) for n in range(plates)]
    strap = sketch_part("strap", kind=PartKind.STRAP, holes={"s": (8.0, 20.0)})
    pattern = sketch(*parts, strap, joints=tuple(joints), seams=tuple(seams))
    pieces = tuple(replace(each, mirrored=mirrored) for each in pattern.pieces)
    return replace(pattern, pieces=pieces)


REACHES_MM = some.sampled_from([0.0, 20.0, 90.0, 250.0])
OPENINGS_MM = some.sampled_from([0.0, 35.0, 90.0])


def leaves_an_order(pattern, reach_mm, opening_mm):
    tool = replace(SHELF.tools[0], reach_mm=reach_mm, opening_mm=opening_mm)
    shelf = replace(SHELF, tools=(tool, *SHELF.tools[1:]))
    assembly = assemble(pattern, shelf, build="b")
    work = derive_steps(assembly, shelf)
    relations = derive_all(assembly, work, shelf).relations
    return find_conflict(tuple(step.id for step in work.steps), binding(relations)) == ()


@settings(max_examples=10, deadline=None)
@given(closed_shapes(), REACHES_MM, OPENINGS_MM)
def test_what_reach_forbids_leaves_an_order(pattern, reach_mm, opening_mm):
    assert leaves_an_order(pattern, reach_mm, opening_mm)


@pytest.mark.long
@settings(max_examples=400, deadline=None)
@given(closed_shapes(), REACHES_MM, OPENINGS_MM)
def test_what_reach_forbids_leaves_an_order_in_many_shapes(pattern, reach_mm, opening_mm):
    assert leaves_an_order(pattern, reach_mm, opening_mm)


def check_told(pattern):
    reach = reach_of(pattern, SHELF)
    at_fault = {
        id_
        for id_, shell in reach.net.shells.items()
        if shell.rims and shell.hollow and not reach.drawn.shells[id_].hollow
    }
    if at_fault:
        codes = {each.code for m in reach_measures(pattern, SHELF) for each in m.findings}
        assert codes & TOLD


@settings(max_examples=12, deadline=None)
@given(closed_shapes())
def test_a_shell_that_no_order_sets_is_told(pattern):
    check_told(pattern)


@pytest.mark.long
@settings(max_examples=300, deadline=None)
@given(closed_shapes())
def test_a_shell_that_no_order_sets_is_told_in_many_shapes(pattern):
    check_told(pattern)
