"""How far layers slide in a bend: which holes count, and how much of their spacing is bent."""

from dataclasses import replace
from math import pi, radians

import pytest

from armorplan.geometry.bends.arcs import each_made_for_bent
from armorplan.geometry.bends.slides import layer_slides, slides_by_layers
from armorplan.pattern.joining import FormKind, JointKind, Motion, Route, Seam
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_rivet

ACROSS = ((40.0, 0.0), (40.0, 40.0))
"""An axis down the middle of a sketched part of 80 × 40 mm."""


def layer(name, places=(10.0, 40.0, 70.0), thickness_mm=4.0):
    spots = [place if isinstance(place, tuple) else (place, 20.0) for place in places]
    holes = {f"{name}_{at}": spot for at, spot in enumerate(spots)}
    return replace(sketch_part(name, holes=holes), thickness_mm=thickness_mm)


def rivets(count=3, **more):
    made = (sketch_rivet(f"r_{at}", f"upper_{at}", f"lower_{at}") for at in range(count))
    return tuple(replace(joint, **more) for joint in made)


def bow(*parts, **more):
    form = sketch_form("bow", *(parts or ("upper", "lower")), route=Route.DRY)
    return replace(form, **{"radius_mm": 30.0, "angle_deg": None, **more})


def slides(*forms, upper=None, lower=None, joints=None, **more):
    parts = upper or layer("upper"), lower or layer("lower")
    joints = rivets(len(parts[0].holes)) if joints is None else joints
    return layer_slides(sketch(*parts, joints=joints, forms=forms or (bow(),), **more))


def test_between_neighbours_it_is_the_distance_of_the_middles_over_the_radius():
    (slide,) = slides(bow(axis=ACROSS))
    assert [s.slide_mm for s in slide.spacings] == pytest.approx([4.0, 4.0])
    assert slide.slide_pct == pytest.approx(100 * 4 / 30)
    assert slide.total_mm == pytest.approx(8.0)
    assert slide.joints == ("r_0", "r_1", "r_2")


def test_in_all_it_is_no_more_than_the_distance_of_the_middles_times_the_angle():
    (slide,) = slides(bow(angle_deg=60.0))
    assert slide.total_mm == pytest.approx(4.0 * radians(60.0))


def test_only_what_lies_in_the_bend_slides_where_its_axis_is_known():
    # The bend of 30 mm and 60° takes 31.4 mm: 15.7 mm on either side of the axis.
    axis = ((25.0, 0.0), (25.0, 40.0))
    (slide,) = slides(bow(angle_deg=60.0, axis=axis))
    inside = 25.0 + 15 * pi / 3 - 40.0
    assert [s.slide_mm for s in slide.spacings] == pytest.approx(
        [4.0 / 30 * 30.0, 4.0 / 30 * inside]
    )
    assert slide.between_mm("r_1", "r_2") == pytest.approx(4.0 / 30 * inside)
    assert slide.between_mm("r_2", "r_0") == pytest.approx(slide.total_mm)


def test_washers_hold_the_layers_apart():
    (slide,) = slides(joints=rivets(washer_mm=1.5))
    assert slide.apart_mm == pytest.approx(5.5)


def test_a_row_along_the_axis_does_not_slide():
    (slide,) = slides(bow(axis=((0.0, 20.0), (80.0, 20.0))))
    assert slide.along
    assert (slide.total_mm, slide.slide_pct) == (0.0, 0.0)


def test_two_rows_across_the_bend_have_their_holes_at_the_same_places():
    spots = [(x, y) for y in (10.0, 30.0) for x in (10.0, 40.0, 70.0)]
    (slide,) = slides(upper=layer("upper", spots), lower=layer("lower", spots))
    assert [s.spacing_mm for s in slide.spacings] == pytest.approx([30.0, 30.0])


def test_an_axis_that_lies_over_one_of_the_parts_is_measured_there():
    aside = replace(layer("upper", [(20.0, 210.0), (20.0, 270.0)]), outline=(
        (0.0, 200.0), (40.0, 200.0), (40.0, 280.0), (0.0, 280.0)))  # fmt: skip
    (slide,) = slides(bow(axis=((-5.0, 240.0), (45.0, 240.0))), upper=aside,
        lower=layer("lower", (10.0, 70.0)))  # fmt: skip
    assert slide.total_mm == pytest.approx(8.0)
    assert slide.axis_mm is not None


def test_an_outer_row_longer_by_the_slide_is_made_for_the_bent_state():
    (slide,) = slides(upper=layer("upper", (6.0, 40.0, 74.0)))
    assert slide.wider
    assert slide.wider_mm == pytest.approx(8.0)
    (shorter,) = slides(lower=layer("lower", (6.0, 40.0, 74.0)))
    (alike,) = slides()
    assert not shorter.wider
    assert not alike.wider


def test_layers_shaped_one_by_one_slide_as_well():
    over, under = bow("upper", id="over"), bow("lower", id="under", radius_mm=26.0)
    (slide,) = slides(over, under)
    assert (slide.forms, slide.radius_mm) == (("over", "under"), 26.0)


def test_the_fold_of_one_layer_alone_does_not():
    fold = bow("upper", id="rim", kind=FormKind.FOLD, radius_mm=2.0)
    assert slides(fold, bow("lower", id="under")) == ()
    (slide,) = slides(replace(fold, parts=("upper", "lower")))
    assert slide.radius_mm == 2.0


@pytest.mark.parametrize(
    "more",
    [{"motion": Motion.SLIDING}, {"placed_on_wearer": True}, {"kind": JointKind.LACE}],
    ids=str,
)
def test_joints_that_take_it_up_are_left_out(more):
    assert slides(joints=rivets(**more)) == ()


@pytest.mark.parametrize("form", [bow(kind=FormKind.DISH), bow(route=Route.BY_SEAM)], ids=str)
def test_dished_and_drawn_shapes_are_left_out(form):
    assert slides(form) == ()


def test_seams_that_draw_the_shape_are_left_out():
    seam = Seam(id="row", name="Row", joints=("r_0", "r_1", "r_2"))
    cup = bow(id="cup", kind=FormKind.CLOSURE, route=Route.BY_SEAM, seams=("row",))
    assert slides(bow(), cup, seams=(seam,)) == ()


def test_one_joint_holds_no_row():
    assert slides(joints=rivets(1)) == ()


def test_without_a_radius_only_the_whole_is_known():
    (slide,) = slides(bow(radius_mm=None, angle_deg=180.0))
    assert (slide.slide_pct, slide.total_mm) == (None, pytest.approx(4 * pi))
    (unknown,) = slides(bow(radius_mm=None))
    assert (unknown.slide_pct, unknown.total_mm, unknown.wider) == (None, None, False)


@pytest.mark.parametrize(
    "more", [{"radius_mm": 0.0}, {"angle_deg": 0.0}, {"axis": ((9.0, 9.0), (9.0, 9.0))}], ids=str
)
def test_absurd_numbers_end_nothing(more):
    (slide,) = slides(bow(**more))
    assert slide.total_mm is None or slide.total_mm >= 0


def test_layers_of_no_thickness_do_not_slide():
    (slide,) = slides(upper=layer("upper", thickness_mm=0.0), lower=layer("lower", thickness_mm=0))
    assert slide.total_mm == 0.0


def test_the_greatest_of_several_bends_stands_for_two_layers():
    found = slides_by_layers(
        sketch(
            layer("upper"),
            layer("lower"),
            joints=rivets(),
            forms=(bow(), bow(id="tight", radius_mm=12.0)),
        )
    )
    assert found["upper", "lower"].forms == ("tight",)


HALF_BENT = bow(angle_deg=60.0, axis=ACROSS)
"""Of 30 mm and 60° it takes 31.4 mm: 15.7 mm on either side of the axis at 40 mm."""
LONG_ROW = (-50.0, -20.0, 10.0, 40.0, 70.0, 100.0, 130.0)


def drawn_longer(by_mm):
    """Return places of an outer row whose spacings are longer by so much, its middle in its place."""
    ends = [sum(by_mm[:at]) for at in range(len(by_mm) + 1)]
    return tuple(x + end - ends[-1] / 2 for x, end in zip(LONG_ROW, ends, strict=True))


@pytest.mark.parametrize(
    ("by_mm", "made"),
    [
        ((0.0, 0.0, 2.1, 2.1, 0.0, 0.0), True),
        ((0.4, 0.0, 2.1, 2.1, 0.0, -0.4), True),
        ((0.7,) * 6, False),
        ((2.1, 0.0, 0.0, 0.0, 0.0, 2.1), False),
        ((0.0, 0.0, 1.5, 1.5, 0.0, 0.0), False),
        ((0.0,) * 6, False),
    ],
)
def test_a_row_beyond_its_bend_is_judged_spacing_by_spacing(by_mm, made):
    """d · θ = 4 · π / 3 = 4.2 mm, half of it on either side of the axis (circle geometry)."""
    (slide,) = slides(
        HALF_BENT, upper=layer("upper", drawn_longer(by_mm)), lower=layer("lower", LONG_ROW)
    )
    assert slide.total_mm == pytest.approx(4 * pi / 3)
    assert [s.longer_mm for s in slide.spacings] == pytest.approx(by_mm)
    assert slide.wider is made


def test_many_small_slides_are_not_made_for_the_bend_because_each_alone_is_small():
    assert not each_made_for_bent([0.0] * 10, [0.4] * 10)
    assert each_made_for_bent([0.4] * 10, [0.4] * 10)


def test_the_upper_two_of_three_layers_are_bent_over_the_third():
    """A bend says the radius of its innermost layer: 4 mm over 30 mm are 34 mm for the middle one."""
    layers = layer("upper"), layer("middle"), layer("lower")
    joints = tuple(
        replace(each, stack=(f"upper_{at}", f"middle_{at}", f"lower_{at}"))
        for at, each in enumerate(rivets())
    )
    form = bow("upper", "middle", "lower")
    found = layer_slides(sketch(*layers, joints=joints, forms=(form,)))
    told = {(s.outer, s.inner): (s.radius_mm, s.total_mm) for s in found}
    assert told["middle", "lower"] == (30.0, pytest.approx(60 * 4 / 30))
    assert told["upper", "middle"] == (34.0, pytest.approx(60 * 4 / 34))


def test_without_a_radius_no_spacing_is_told_its_share():
    (slide,) = slides(bow(radius_mm=None, angle_deg=180.0))
    assert [s.slide_mm for s in slide.spacings] == [None, None]
