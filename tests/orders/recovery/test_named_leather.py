"""What went wrong, by the names that a maker, a drawing or the command line gives it."""

import pytest
from orders.recovery.build_scenes import derived_sample, named, sample_scene

from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.recovery.amiss import amiss_of, implied_by
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.orders.recovery.named_leather import holes_named
from armorplan.orders.recovery.salvaging import feasible, told_of
from armorplan.steps.model import StepKind

COP, PAIR = "elbow_cop", "three_lames"
SAMPLES = (COP, PAIR, "collar")
WRONG_HOLE, ROW_OFF, TWO_ALIKE = (
    MistakeKind.WRONG_HOLE,
    MistakeKind.ROW_OFF,
    MistakeKind.TWO_ALIKE,
)


def amiss(name, kind, *about, **told):
    (found,) = amiss_of(sample_scene(name), (Mistake(kind=kind, about=about, **told),))
    return found


@pytest.mark.parametrize("name", SAMPLES)
def test_every_hole_is_found_by_its_part_with_and_without_its_side(name):
    assembly = derived_sample(name).assembly
    for part in assembly.parts:
        for hole in part.part.holes:
            is_it = ((part.id, hole.id),)
            assert holes_named(assembly, f"{part.id}/{hole.id}") == is_it
            assert holes_named(assembly, f"{part.id}/{part.side.tag(hole.id)}") == is_it


@pytest.mark.parametrize("name", SAMPLES)
def test_every_joint_and_row_is_a_hole_of_something(name):
    scene = sample_scene(name)
    assembly = scene.facts.assembly
    for seam in assembly.seams:
        assert len(amiss(name, ROW_OFF, seam.id).holes) >= len(seam.joints)
    for joint in assembly.joints:
        if any(hole for _, hole in joint.stack):
            assert amiss(name, WRONG_HOLE, joint.id).holes


@pytest.mark.parametrize(
    ("kind", "about", "told"),
    [
        (WRONG_HOLE, "petal_left", "is a part, not a hole. Write which hole of it: petal_left/"),
        (WRONG_HOLE, "petal_left/h3", "Left petal has no hole 'h3'. Its holes: petal_left/left_1"),
        (WRONG_HOLE, "nix", "Write a hole as PART/HOLE, such as petal_left/left_1"),
        (ROW_OFF, "boss", "'boss' is a part, and in no row. Rows of this build: left_row"),
        (ROW_OFF, "petal_left", "'petal_left' is a part, not a row. Write its row: left_row"),
        (ROW_OFF, "left_row_1", "'left_row_1' is a joint, not a row. Write its row: left_row"),
        (ROW_OFF, "nix", "No row of this build is called 'nix'. Rows: left_row, right_row"),
        (TWO_ALIKE, "boss", "Turned over, boss is the same: it has no hand"),
    ],
)
def test_what_is_named_wrongly_says_what_is_meant(kind, about, told):
    with pytest.raises(ArmorplanError, match=told):
        amiss(COP, kind, about)


@pytest.mark.parametrize(
    ("kind", "about", "told"),
    [
        (WRONG_HOLE, "cop/cop_upper_near", r"both sides. Name which: cop.left/.* or cop.right/"),
        (WRONG_HOLE, "upper_fold", r"Name which: upper_fold.left or upper_fold.right"),
        (ROW_OFF, "upper_tab_row", r"Name which: upper_tab_row.left or upper_tab_row.right"),
    ],
)
def test_of_a_pair_the_side_is_asked(kind, about, told):
    with pytest.raises(ArmorplanError, match=told):
        amiss(PAIR, kind, about)


def test_a_lame_may_have_a_hand_though_its_piece_has_no_sides():
    assert amiss("collar", TWO_ALIKE, "front_lame").parts == ("front_lame",)


def test_a_petal_with_its_slots_amid_its_height_has_none():
    with pytest.raises(ArmorplanError, match="Turned over, left petal is the same"):
        amiss(COP, TWO_ALIKE, "petal_left")


def test_a_wrong_colour_takes_the_coats_and_all_before_them_as_done():
    scene = sample_scene(COP)
    found = (amiss(COP, MistakeKind.WRONG_COLOUR, "petal_left", darker=False),)
    kinds = {scene.step(one).kind for one in implied_by(scene, found)}
    assert {StepKind.CUT, StepKind.FORM, StepKind.DYE} <= kinds
    assert not kinds & {StepKind.FINISH, StepKind.RIVET, StepKind.DRY_FIT}


def test_a_coat_that_was_ticked_says_itself_how_far_it_is():
    scene = sample_scene(COP)
    done = scene.standing(named(COP, "dye/colour.coat-1"), left=())
    found = (amiss(COP, MistakeKind.WRONG_COLOUR, "petal_left"),)
    assert implied_by(scene, found, done) <= done


def test_a_row_away_from_the_edge_is_trimmed_and_one_towards_it_is_not():
    scene, cut = sample_scene(COP), named(COP, "punch/petal_left")
    means = {
        way: {
            each.means
            for each in feasible(scene, amiss(COP, ROW_OFF, "left_row", mm=3.0, way=way), cut)
        }
        for way in ("edge", "in", "along")
    }
    assert "trim" in means["in"]
    assert "trim" not in means["edge"]
    assert "trim" not in means["along"]


def test_a_slot_towards_the_edge_needs_leather_left_and_one_away_from_it_does_not():
    scene, cut = sample_scene(COP), named(COP, "punch/petal_left")

    def is_oval(mm, way):
        found = feasible(scene, amiss(COP, WRONG_HOLE, "left_row_3", mm=mm, way=way), cut)
        return any(each.id == "oval_hole_washer" for each in found)

    assert is_oval(2.0, "edge")
    assert is_oval(5.5, "in")
    assert not is_oval(5.5, "edge")
    assert not is_oval(5.5, "")


def test_what_is_spoilt_at_its_edge_is_cut_true_and_a_spot_is_hidden():
    scene, cut = sample_scene(COP), named(COP, "cut/petal_left")
    found = {
        way: {
            each.id
            for each in feasible(scene, amiss(COP, MistakeKind.SPOILT, "petal_left", way=way), cut)
        }
        for way in ("edge", "face")
    }
    assert found["edge"] == {"cut_edge_true", "spoilt_as_it_is"}
    assert found["face"] == {"hide_under_boss", "spoilt_as_it_is"}


def test_it_is_told_which_way_and_in_the_right_number():
    scene = sample_scene(COP)
    one = amiss(COP, WRONG_HOLE, "left_row_3", mm=2.0, way="edge")
    assert told_of(scene, one).endswith("is out by 2 mm, towards the edge.")
    many = amiss(COP, WRONG_HOLE, "left_row", mm=2.0)
    assert told_of(scene, many) == "7 holes of left petal (left row) are out by 2 mm."
    spot = amiss(COP, MistakeKind.SPOILT, "petal_left", way="face")
    assert told_of(scene, spot) == "Left petal is spoilt on its face."
