"""Posts as measures: the window, the choice, the maker's own, how the joint moves, the section."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import box, part, pattern, rivet, shelf

from armorplan.files.catalogue import read_shelf
from armorplan.geometry.measures import Topic
from armorplan.geometry.posts.measuring import post_measures
from armorplan.geometry.stacks import joint_post
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import JointKind, Motion
from armorplan.workshop.constants import Constant, Constants

SHIPPED = read_shelf()


def _sketch(*thick_mm, holes=3, diameter_mm=3.5, **joint):
    layers = [
        replace(
            part(
                f"p{n}",
                box(90.0, 60.0),
                {f"h{n}_{k}": (20.0 + 20.0 * k, 30.0) for k in range(holes)},
                diameter_mm=diameter_mm,
            ),
            thickness_mm=mm,
        )
        for n, mm in enumerate(thick_mm)
    ]
    joints = tuple(
        replace(rivet(f"j{k}", *(p.holes[k].id for p in layers)), **joint) for k in range(holes)
    )
    return pattern(*layers, joints=joints)


def _measure(sketch, on=None):
    (found,) = post_measures(sketch, on or shelf())
    return found


def test_joints_alike_share_a_measure_with_its_figures_and_a_section():
    """Two layers of 3.2 mm: 6.4, pinched 7.5 % 5.92 mm; the cap's window 5.92 to 8.92 mm."""
    found = _measure(_sketch(3.2, 3.2))
    assert (found.id, found.topic, found.verdict) == ("posts:j0", Topic.POSTS, "post 6 mm")
    assert found.severity is None
    assert found.title == "3 × Cap rivet: p0 on p1"
    assert found.about == ("j0", "j1", "j2", "p0", "p1")
    values = {f.name: (round(f.value, 3), f.unit) for f in found.figures}
    assert values == {
        "stack": (6.4, "mm"),
        "pinched stack": (5.92, "mm"),
        "shortest post that holds": (5.92, "mm"),
        "longest post that holds": (8.92, "mm"),
        "post": (6.0, "mm"),
    }
    by_name = {f.name: f for f in found.figures}
    assert by_name["pinched stack"].formula == "6.4 × (1 - 7.5 / 100) = 5.92 mm"
    assert "common practice" in by_name["pinched stack"].source
    assert [(layer.name, round(layer.thick_mm, 3)) for layer in found.picture.layers] == [
        ("p0", 2.96),
        ("p1", 2.96),
    ]
    assert (found.picture.post_mm, found.picture.foot) == (6.0, "cap")


def test_washers_are_a_layer_of_the_section_that_is_not_pinched():
    found = _measure(_sketch(3.2, 3.2, washer_mm=1.2))
    washer = found.picture.layers[-1]
    assert (washer.thick_mm, washer.kind) == (1.2, "washer")
    turning = _measure(_sketch(3.2, 3.2, washer_mm=1.2, motion=Motion.TURNING))
    assert [layer.kind for layer in turning.picture.layers] == ["plate", "washer", "plate"]
    thick_mm = sum(layer.thick_mm for layer in found.picture.layers)
    pinched = next(f for f in found.figures if f.name == "pinched stack")
    assert thick_mm == pytest.approx(pinched.value)
    assert pinched.formula == "(7.6 - 1.2) × (1 - 7.5 / 100) + 1.2 = 7.12 mm"


@pytest.mark.parametrize(
    ("fastener", "foot"),
    [
        ("double_cap_9", "cap"),
        ("tubular_9", "bent"),
        ("bifurcated_8", "bent"),
        ("copper_burr_2_8", "burr"),
    ],
)
def test_what_is_on_the_inside_is_drawn_as_it_is(fastener, foot):
    entry = SHIPPED.fastener(fastener)
    sketch = _sketch(3.2, 3.2, fastener=fastener, diameter_mm=entry.hole_mm)
    assert _measure(sketch, SHIPPED).picture.foot == foot


def test_how_far_leather_is_pinched_is_the_maker_s_to_say():
    """7.2 mm of leather are 6.12 mm pinched by 15 %, and 5.76 mm by 20 %."""
    soft = Constants(pinch=Constant(value=15.0, unit="%", name="pinch", source="my own trial"))
    told = _measure(_sketch(3.6, 3.6), replace(shelf(), constants=soft))
    assert told.verdict == "post 8 mm"
    harder = Constants(pinch=Constant(value=20.0, unit="%", name="pinch", source="my own trial"))
    hard = _measure(_sketch(3.6, 3.6), replace(shelf(), constants=harder))
    assert hard.verdict == "post 6 mm"
    assert "my own trial" in {f.source for f in hard.figures}


@pytest.mark.parametrize(
    ("own_mm", "code", "off"),
    [(4.0, "post-too-short", "1.9 mm too short"), (10.0, "post-too-long", "1.1 mm too long")],
)
def test_a_post_that_the_maker_names_is_held_against_the_window(own_mm, code, off):
    found = _measure(_sketch(3.2, 3.2, post_mm=own_mm))
    (finding,) = found.findings
    assert (finding.code, finding.severity) == (code, Severity.WARNING)
    assert f"the {own_mm:g} mm post is {off}: Cap rivet needs 5.9 to 8.9 mm" in finding.text
    assert finding.remedy == "Take the 6 mm post (post_mm)."
    assert found.verdict == f"post {own_mm:g} mm, {off}"
    assert finding.about == ("j0", "j1", "j2")


def test_one_size_short_of_what_is_on_sale_is_found_for_every_fastener():
    """The next shorter post on sale never reaches through, but for the copper that is cut off."""
    for entry in SHIPPED.fasteners:
        kind = JointKind(entry.kind)
        motion = Motion.TURNING if entry.motion == "turning" else Motion.FIXED
        given = {"fastener": entry.id, "kind": kind, "motion": motion}
        sketch = _sketch(3.2, 3.2, holes=1, diameter_mm=entry.hole_mm, **given)
        post = joint_post(sketch, SHIPPED, sketch.joints[0])
        shorter = [mm for mm in entry.lengths_mm if mm < post.window_mm[0] - 0.06]
        if shorter:
            short = replace(sketch, joints=(replace(sketch.joints[0], post_mm=max(shorter)),))
            codes = [f.code for f in _measure(short, SHIPPED).findings if "hole" not in f.code]
            assert codes == ["post-too-short"], entry.id


def test_an_own_post_that_holds_is_sound_though_nobody_sells_it():
    found = _measure(_sketch(3.2, 3.2, post_mm=7.3))
    assert (found.verdict, found.findings) == ("post 7.3 mm", ())
    assert found.figures[-1].source == "the maker's own"


def test_own_posts_stand_in_a_group_of_their_own():
    sketch = _sketch(3.2, 3.2)
    first, *others = sketch.joints
    mixed = replace(sketch, joints=(replace(first, post_mm=8.0), *others))
    assert [m.verdict for m in post_measures(mixed, shelf())] == ["post 8 mm", "post 6 mm"]


def _screwed(fastener, motion, **joint):
    entry = SHIPPED.fastener(fastener)
    given = {"fastener": fastener, "kind": JointKind.SCREW, "motion": motion, **joint}
    sketch = _sketch(4.3, 4.3, holes=1, diameter_mm=entry.hole_mm, **given)
    return [f for m in post_measures(sketch, SHIPPED) for f in m.findings]


def test_no_post_fits_and_the_smaller_change_is_offered_first():
    """8.6 mm of which 0.6 are washers: 8 x 0.925 + 0.6 = 8.0 mm pinched, and 0.2 to 0.5 of play."""
    entry = SHIPPED.fastener("screw_post_turning")
    given = {"fastener": entry.id, "kind": JointKind.SCREW, "motion": Motion.TURNING}
    sketch = _sketch(4.0, 4.0, holes=1, diameter_mm=entry.hole_mm, washer_mm=0.6, **given)
    (finding,) = _measure(sketch, SHIPPED).findings
    assert finding.code == "no-post-length"
    assert finding.remedy == (
        "Take 0.2 mm off the washers (washer_mm) for the 8 mm post, or add 1.2 mm more washers "
        "(washer_mm) for the 9.5 mm post; or choose another fastener."
    )
    for washer_mm, post in ((0.4, "post 8 mm"), (1.8, "post 9.5 mm")):
        joints = (replace(sketch.joints[0], washer_mm=washer_mm),)
        assert _measure(replace(sketch, joints=joints), SHIPPED).verdict == post


def test_a_joint_that_turns_on_a_post_that_clamps_is_told():
    """Fixed: 0 to -0.5 mm, so that it clamps; turning: 0.2-0.5 mm, or a washer (from memory)."""
    (found,) = _screwed("screw_post_fixed", Motion.TURNING)
    assert (found.code, found.severity) == ("fastener-wrong-motion", Severity.WARNING)
    assert "it has to move, but Screw post, clamping clamps" in found.text
    assert "washer_mm" in found.remedy
    washed = _screwed("screw_post_fixed", Motion.TURNING, washer_mm=1.2)
    assert "fastener-wrong-motion" not in {f.code for f in washed}


def test_a_fixed_joint_on_a_post_that_turns_is_told():
    sketch = _screwed("screw_post_turning", Motion.FIXED)
    (found,) = [f for f in sketch if f.code == "fastener-wrong-motion"]
    assert "leaves 0.2 to 0.5 mm of play" in found.text
    turning = _screwed("screw_post_turning", Motion.TURNING)
    assert "fastener-wrong-motion" not in {f.code for f in turning}


@pytest.mark.parametrize(
    ("motion", "wide_mm", "found"),
    [
        (Motion.FIXED, 3.5, 0),
        (Motion.FIXED, 4.3, 2),
        (Motion.TURNING, 4.3, 0),
        (Motion.TURNING, 3.3, 2),
        (Motion.TURNING, 4.8, 2),
    ],
)
def test_a_hole_is_snug_where_fixed_and_half_a_millimetre_wider_where_it_turns(
    motion, wide_mm, found
):
    """Common practice, no source; from memory. Within 0.6 mm nothing is said."""
    sketch = _sketch(3.2, 3.2, diameter_mm=wide_mm, motion=motion, holes=1)
    sizes = [m for m in post_measures(sketch, shelf()) if m.id.startswith("holes:")]
    assert len(sizes) == found
    for measure in sizes:
        (finding,) = measure.findings
        assert finding.code == "hole-wrong-size"
        assert len(measure.marks) == 1
    if motion is Motion.TURNING and sizes:
        assert sizes[0].findings[0].remedy.startswith("Draw it 4.0 mm wide")


def test_a_hole_four_millimetres_from_an_edge_is_shown_where_to_go():
    plate = part("plate", box(90.0, 60.0), {"near": (4.0, 30.0), "far": (45.0, 30.0)})
    (found,) = post_measures(pattern(plate), shelf())
    (finding,) = found.findings
    assert (finding.code, found.verdict) == ("hole-near-edge", "1 near an edge")
    span, move = found.marks
    assert (span.spots, span.label) == (((0.0, 30.0), (4.0, 30.0)), "4.0 mm")
    (_, (x, y)) = move.spots
    assert (move.kind.value, move.label) == ("move", "3.0 mm")
    assert (x, y) == pytest.approx((7.0, 30.0))


def test_a_hole_right_on_the_edge_is_moved_inward_too():
    plate = part("plate", box(90.0, 60.0), {"on": (0.0, 30.0)})
    (found,) = post_measures(pattern(plate), shelf())
    (x, _) = found.marks[1].spots[1]
    assert x > 0


@pytest.mark.parametrize(("thick_mm", "post"), [(4.0, 8.0), (3.95, 8.0), (3.7, None)])
def test_a_post_that_is_too_long_by_less_than_a_stack_is_known_is_taken(thick_mm, post):
    """A stack of 8 mm, 7.4 mm pinched, asks for 7.6 to 7.9 mm: the 8 mm post of the shops holds it."""
    screw = {"kind": JointKind.SCREW, "motion": Motion.TURNING, "fastener": "screw_post_turning"}
    sketch = _sketch(thick_mm, 4.0, diameter_mm=5.0, **screw)
    (found,) = (m for m in post_measures(sketch, SHIPPED) if m.id == "posts:j0")
    codes = [finding.code for finding in found.findings]
    assert (codes, found.verdict) == (
        ([], f"post {post:g} mm") if post else (["no-post-length"], "no post on sale fits")
    )
    if post is None:
        assert "the nearest on sale 6.4 and 8 mm" in found.findings[0].text


def test_a_post_of_the_maker_s_own_that_is_too_short_gets_no_such_grace():
    screw = {"kind": JointKind.SCREW, "motion": Motion.TURNING, "fastener": "screw_post_turning"}
    for post_mm, codes in ((8.0, []), (7.5, ["post-too-short"]), (8.2, ["post-too-long"])):
        sketch = _sketch(4.0, 4.0, diameter_mm=5.0, post_mm=post_mm, **screw)
        (found,) = (m for m in post_measures(sketch, SHIPPED) if m.id == "posts:j0")
        assert [finding.code for finding in found.findings] == codes
