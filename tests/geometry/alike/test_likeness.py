"""Closed cases: copies, offsets, chiral and symmetric shapes; then what must hold for any shape."""

from dataclasses import replace
from math import cos, pi, radians, sin

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity

from armorplan.files.bare_words import likeness_words
from armorplan.geometry.alike.likeness import NEIGHBOURS, TWIN_MM, look_alikes
from armorplan.geometry.alike.outline_fit import Contour
from armorplan.pattern.parts import Hole, Part, PartKind, Slot

PETAL = shapely.Polygon([(0, 0), (60, 4), (88, 40), (70, 90), (20, 110), (-6, 60)])
L_SHAPE = shapely.Polygon([(0, 0), (80, 0), (80, 30), (30, 30), (30, 120), (0, 120)])
STRAP = shapely.box(0, 0, 200, 22)
SQUARE = shapely.box(0, 0, 70, 70)
DISC = shapely.Point(0, 0).buffer(40, quad_segs=64)


def ring(shape):
    return tuple(shape.exterior.coords[:-1])


def part(name, shape, holes=(), slots=()):
    return Part(
        id=name,
        name=name,
        piece="cop",
        kind=PartKind.PLATE,
        outline=ring(shape),
        material="m",
        thickness_mm=3.2,
        holes=tuple(
            Hole(id=f"{name}_{n}", part=name, centre=(x, y), diameter_mm=wide)
            for n, (x, y, wide) in enumerate(holes)
        ),
        slots=tuple(
            Slot(id=f"{name}_s{n}", part=name, outline=ring(s), length_mm=24, width_mm=5)
            for n, s in enumerate(slots)
        ),
    )


def moved(shape, *, turn_deg=0.0, by=(300.0, -40.0), over=False):
    turned = affinity.scale(shape, xfact=-1, origin=(0, 0)) if over else shape
    return affinity.translate(affinity.rotate(turned, turn_deg, origin=(0, 0)), *by)


def alike(one, other, **more):
    (found,) = look_alikes([part("one", one, **more), part("other", other)])
    return found


@pytest.mark.parametrize("turn_deg", [0, 17, 90, 123.4, 180, 271])
@pytest.mark.parametrize("shape", [PETAL, L_SHAPE, STRAP, SQUARE, DISC])
def test_a_turned_copy_is_a_twin(shape, turn_deg):
    found = alike(shape, moved(shape, turn_deg=turn_deg))
    assert found.difference_mm <= 0.02
    assert found.is_twin
    assert not found.mirrored


@pytest.mark.parametrize("turn_deg", [0, 33, 200])
@pytest.mark.parametrize(
    ("shape", "has_hand"),
    [(PETAL, True), (L_SHAPE, True), (STRAP, False), (SQUARE, False), (DISC, False)],
)
def test_a_copy_turned_over_is_a_mirror_twin_if_the_shape_has_a_hand(shape, has_hand, turn_deg):
    found = alike(shape, moved(shape, turn_deg=turn_deg, over=True))
    assert found.difference_mm <= 0.02
    assert found.mirrored is has_hand


@pytest.mark.parametrize("over", [False, True])
@pytest.mark.parametrize("shape", [PETAL, SQUARE, DISC, STRAP])
def test_a_shape_grown_by_two_millimetres_differs_by_two(shape, over):
    """A convex K and K grown by d lie d apart at best (their support functions differ by d)."""
    grown = shape.buffer(2.0, quad_segs=32)
    found = alike(shape, moved(grown, turn_deg=71, over=over))
    assert found.difference_mm == pytest.approx(2.0, abs=0.1)


def test_a_longer_strap_differs_by_half_of_what_it_is_longer():
    found = alike(STRAP, moved(shapely.box(0, 0, 206, 22), turn_deg=10))
    assert found.difference_mm == pytest.approx(3.0, abs=0.1)


def test_one_cut_corner_is_found_where_all_else_is_the_same():
    """The corner of the whole square lies a/√2 from the cut.

    Moved by δ along the diagonal it lies a/√2 - δ from it, but the far corner δ; so half is left.
    """
    cut = shapely.Polygon([(0, 0), (70, 0), (70, 62), (62, 70), (0, 70)])
    found = alike(SQUARE, moved(cut, turn_deg=44))
    assert found.difference_mm == pytest.approx(8 / 2**0.5 / 2, abs=0.1)


def test_what_differs_by_more_than_asked_is_not_alike():
    parts = [part("one", PETAL), part("other", moved(PETAL.buffer(3.0)))]
    assert look_alikes(parts, within_mm=2.0) == ()
    assert len(look_alikes(parts, within_mm=3.2)) == 1


def test_small_parts_are_told_apart_by_less():
    disc = shapely.Point(0, 0).buffer(10, quad_segs=32)
    parts = [part("one", disc), part("other", moved(disc.buffer(2.0)))]
    assert look_alikes(parts) == ()


def test_other_holes_make_another_part():
    holes = [(20.0, 11.0, 4.0), (180.0, 11.0, 4.0)]
    strap = part("one", STRAP, holes)
    off = part("moved", STRAP, [(20.0, 11.0, 4.0), (178.5, 11.0, 4.0)])
    more = part("more", STRAP, [*holes, (100.0, 11.0, 5.0)])
    none = part("none", STRAP)
    found = {(f.first, f.second): f for f in look_alikes([strap, off, more, none])}
    assert all(f.by_holes for f in found.values())
    assert len(found) == 6
    assert found["one", "moved"].difference_mm == pytest.approx(1.5, abs=0.05)
    assert found["one", "more"].difference_mm == pytest.approx(5.0)
    assert found["one", "none"].difference_mm == pytest.approx(4.0)


def test_holes_give_a_symmetric_outline_its_hand():
    holes = [(20.0, 5.0, 4.0), (60.0, 5.0, 4.0), (180.0, 5.0, 4.0)]
    over = [(x, 22.0 - y, wide) for x, y, wide in holes]
    (found,) = look_alikes([part("one", STRAP, holes), part("other", STRAP, over)])
    assert found.mirrored
    assert found.difference_mm <= TWIN_MM
    assert not found.by_holes


def test_holes_tell_the_turn_of_a_disc():
    def spots(turn):
        angles = [radians(turn + a) for a in (0, 90, 200)]
        return [(30 * cos(a), 30 * sin(a), 4.0) for a in angles]

    (found,) = look_alikes([part("one", DISC, spots(0)), part("other", DISC, spots(77.7))])
    assert found.is_twin
    assert not found.mirrored


@pytest.mark.parametrize("begins", range(4))
def test_a_slot_is_the_same_wherever_its_outline_begins(begins):
    slot = ring(shapely.box(50, 8, 74, 13))
    parts = [part("one", STRAP), part("other", STRAP)]
    parts = [
        replace(
            each,
            slots=(Slot(id="s", part=each.id, outline=outline, length_mm=24, width_mm=5),),
        )
        for each, outline in zip(parts, (slot, slot[begins:] + slot[:begins]), strict=True)
    ]
    (found,) = look_alikes(parts)
    assert found.is_twin


def test_a_slot_the_other_way_round_is_another_part():
    lying, standing = shapely.box(88, 8.5, 112, 13.5), shapely.box(97.5, 0.5, 102.5, 21.5)
    parts = [part("one", STRAP, slots=[lying]), part("other", STRAP, slots=[standing])]
    (found,) = look_alikes(parts)
    assert found.by_holes
    assert found.difference_mm > 4


def test_every_pair_of_many_copies_is_told_with_its_hand():
    shapes = [moved(PETAL, turn_deg=20 * n, over=n % 2 == 1) for n in range(6)]
    found = look_alikes([part(f"p{n}", shape) for n, shape in enumerate(shapes)])
    assert len(found) == 15
    assert all(f.is_twin for f in found)
    assert all(f.mirrored == ((int(f.first[1]) + int(f.second[1])) % 2 == 1) for f in found)


def test_parts_without_an_outline_are_left_out():
    assert look_alikes([]) == ()
    empty = part("one", STRAP)
    bare = Part(
        id="bare", name="b", piece="cop", kind=PartKind.PLATE, outline=(), material="m",
        thickness_mm=3.0,
    )  # fmt: skip
    assert look_alikes([empty, bare]) == ()


@st.composite
def stars(draw):
    """A star-shaped outline of 5 to 12 corners, 40 to 90 mm from its middle."""
    radii = draw(st.lists(st.floats(40, 90), min_size=5, max_size=12))
    step = 2 * pi / len(radii)
    spots = [(r * cos(n * step), r * sin(n * step)) for n, r in enumerate(radii)]
    return shapely.Polygon(spots)


POSES = st.tuples(st.floats(0, 360), st.floats(-500, 500), st.floats(-500, 500), st.booleans())


@given(stars(), POSES)
@settings(max_examples=36, deadline=None)
def test_any_copy_is_a_twin_wherever_it_lies(shape, pose):
    turn_deg, x, y, over = pose
    found = alike(shape, moved(shape, turn_deg=turn_deg, by=(x, y), over=over))
    assert found.difference_mm <= 0.03
    assert not found.mirrored or over


@given(stars(), st.floats(0.5, 2.5), st.integers(0, 11), POSES)
@settings(max_examples=18, deadline=None)
def test_a_rigid_movement_changes_nothing(shape, out_mm, corner, pose):
    turn_deg, x, y, over = pose
    spots = list(shape.exterior.coords[:-1])
    corner %= len(spots)
    size = (spots[corner][0] ** 2 + spots[corner][1] ** 2) ** 0.5
    spots[corner] = tuple(v * (1 + out_mm / size) for v in spots[corner])
    other = shapely.Polygon(spots)
    here = alike(shape, other)
    there = alike(shape, moved(other, turn_deg=turn_deg, by=(x, y), over=over))
    assert here.difference_mm <= out_mm + 0.02
    assert there.difference_mm == pytest.approx(here.difference_mm, abs=0.1)


@pytest.mark.long
@given(stars(), st.floats(0.5, 2.5), st.integers(0, 11), POSES)
@settings(max_examples=300, deadline=None)
def test_a_rigid_movement_changes_nothing_in_many_drawings(shape, out_mm, corner, pose):
    test_a_rigid_movement_changes_nothing.hypothesis.inner_test(shape, out_mm, corner, pose)


def test_what_is_counted_is_told_before_what_is_measured():
    holes = [(20.0, 11.0, 4.0), (180.0, 11.0, 4.0)]
    slots = [shapely.box(50 + 30 * n, 8.5, 70 + 30 * n, 13.5) for n in range(3)]
    parts = [
        part("one", STRAP, holes),
        part("moved", STRAP, [(20.0, 11.0, 4.0), (178.5, 11.0, 4.0)]),
        part("slotted", STRAP, holes, slots=slots),
        part("both", STRAP, holes[:1], slots=slots[:1]),
    ]
    words = {(f.first, f.second): f.difference_words for f in look_alikes(parts)}
    assert words["one", "moved"] == "by 1.5 mm"
    assert words["one", "slotted"] == "no slot against 3"
    assert words["slotted", "both"] == "2 holes against 1 and 3 slots against 1"
    (pair,) = look_alikes([parts[2], parts[0]])
    assert likeness_words(pair, "slotted", "one") == (
        "'slotted' and 'one' have one outline; only their holes tell them apart: "
        "3 slots against none"
    )
    (pair,) = look_alikes(parts[:2])
    assert likeness_words(pair, "one", "moved").endswith("tell them apart, by 1.5 mm")


def test_a_slot_that_a_joint_slides_in_counts_as_a_slot():
    holes = [(20.0, 11.0, 4.0), (180.0, 11.0, 4.0)]
    plain, slid = part("one", STRAP, holes), part("other", STRAP, holes)
    first, *others = slid.holes
    slid = replace(slid, holes=(replace(first, travel_mm=9.0, diameter_mm=6.0), *others))
    (found,) = look_alikes([plain, slid])
    assert (found.holes, found.slots) == ((2, 1), (0, 1))


def test_a_copy_is_found_among_many_of_one_outline_with_other_holes():
    """More moulds of one outline than a shape is laid on: the copy of the ninth is its twin."""
    holes = [[(20.0, 11.0, 4.0), (60.0 + 8 * n, 11.0, 4.0)] for n in range(12)]
    parts = [part(f"p{n}", STRAP, at) for n, at in enumerate(holes)]
    copy = part("copy", moved(STRAP, turn_deg=0.0, by=(0.0, 0.0)), holes[8])
    found = {(f.first, f.second): f for f in look_alikes([*parts, copy])}
    assert found["p8", "copy"].is_twin
    assert not found["p8", "copy"].by_holes


@pytest.mark.parametrize("shape", [PETAL, L_SHAPE, STRAP])
@given(POSES, st.floats(0.01, 4.0))
@settings(max_examples=18, deadline=None)
def test_tones_of_hulls_never_differ_by_more_than_the_hulls(shape, pose, out_mm):
    """Parseval's theorem: the sum of squares is the mean square, which the largest bounds."""
    turn_deg, x, y, over = pose
    hull = shape.convex_hull
    grown = moved(hull.buffer(out_mm, quad_segs=32), turn_deg=turn_deg, by=(x, y), over=over)
    one, other = Contour(ring(hull)).tones, Contour(ring(grown)).tones
    assert float(((one - other) ** 2).sum() ** 0.5) <= out_mm + 0.05


def test_every_part_of_a_long_row_of_near_twins_is_among_the_look_alikes():
    """Twenty lames, each 0.3 mm larger than the last: laid on the likest few, none is left out."""
    lames = [moved(PETAL.buffer(0.3 * n), turn_deg=23 * n, over=n % 2 == 1) for n in range(20)]
    found = look_alikes([part(f"p{n}", lame) for n, lame in enumerate(lames)])
    by_pair = {(f.first, f.second): f for f in found}
    for n in range(19):
        pair = by_pair[f"p{n}", f"p{n + 1}"]
        assert pair.difference_mm == pytest.approx(0.3, abs=0.05)
        assert pair.mirrored
    assert len(found) <= 20 * NEIGHBOURS


def test_an_edge_of_kilometres_is_not_taken_apart_into_steps_of_millimetres():
    """The reader takes corners up to 10 m away: 400 teeth of 9 m are 3.6 km of edge."""
    teeth = [(10.0 * k, 9_000.0 if k % 2 else 20.0) for k in range(1, 400)]
    contour = Contour(((0.0, 0.0), *teeth, (4_000.0, 0.0)))
    assert contour.sizes[3] > 3_000_000
    assert len(contour.fine) < 10_000
