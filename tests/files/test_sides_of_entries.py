"""On which sides what joins, threads, shapes and holds is made, and where there is none."""

import pytest
from files.every_word import errors, with_words
from files.test_single_to_pair import JOINT, THREAD, found


def codes(read):
    return [f.code for f in read.findings]


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("entry", [JOINT, THREAD])
def test_one_side_of_a_pair_may_join_a_single_part(entry, side):
    assert found(entry + f'made_on = "{side}"\n').pattern is not None


def test_the_remedy_names_made_on_only_where_it_can_be_written():
    (joint,) = errors(found(JOINT))
    assert 'made_on = "left"' in joint.remedy
    form = '[forms.f]\nkind = "bend"\nparts = ["plate", "wing"]\nroute = "dry"\n'
    (fault,) = errors(found(form))
    assert "made_on" not in fault.remedy


LEFT_ONLY = (
    '[joints.left_only]\nkind = "glue"\nlayers = ["lantern_loop", "buckle_tab"]\n'
    '[seams.one_sided]\nname = "one"\njoints = ["left_only"]\n[seams.cop_row]'
)
RIGHT_TAB = ("skived = true", 'made_on = "right"')


def apart(*changes):
    return {
        f.place.key: f.text for f in errors(with_words(*changes)) if f.code == "no-common-side"
    }


def test_a_joint_that_names_the_side_its_part_is_not_made_on():
    told = apart(('"plate_loop"]\n', '"plate_loop"]\nmade_on = "right"\n'))
    assert told == {
        "joints.loop_fix": "'loop_fix' is made on no side: 'lantern_loop' is made on the left, "
        'its own made_on is "right".'
    }


def test_parts_of_unlike_sides_in_one_joint_are_told_once():
    # The seam of that joint is not told as well.
    told = apart(("[seams.cop_row]", LEFT_ONLY), RIGHT_TAB)
    assert told == {
        "joints.left_only": "'left_only' is made on no side: 'lantern_loop' is made on the left, "
        "'buckle_tab' is made on the right."
    }


def test_a_form_drawn_by_a_seam_of_the_other_side():
    told = apart(
        ("[seams.cop_row]", LEFT_ONLY),
        ('parts = ["cop"]\nroute = "by_seam"\nseams = ["cop_row"]',
         'parts = ["boss"]\nroute = "by_seam"\nseams = ["one_sided"]'),
        ('tooling = "a lantern"', 'made_on = "right"'),
    )  # fmt: skip
    assert list(told) == ["forms.cop_shut"]


def test_what_is_made_on_the_left_alone_needs_no_word():
    # The loop is made on the left only, and so is what holds it.
    assert errors(with_words()) == []


RIGHT_SHUT = (
    '[joints.right_shut]\nkind = "glue"\nlayers = ["boss", "cop"]\nmade_on = "right"\n'
    "[seams.cop_row]"
)


def test_hardware_held_by_a_joint_of_the_other_side():
    read = with_words(
        ('held_by = ["buckle_shut_1", "buckle_shut_2"]', 'held_by = ["right_shut"]'),
        ("skived = true", 'made_on = "left"'),
        ("[seams.cop_row]", RIGHT_SHUT),
    )  # fmt: skip
    told = [f.place.key for f in errors(read) if f.code == "no-common-side"]
    assert told == ["hardware.thigh_buckle"]
