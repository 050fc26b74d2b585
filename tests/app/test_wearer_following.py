"""What follows which measure: read from a draft, written into it, comments and other tables kept."""

from dataclasses import replace

import pytest

from armorplan.app.draft import Bench, Refused, drafted
from armorplan.app.wearer_following import following_of, suggested_mm, with_following
from armorplan.files.catalogue import read_shelf
from armorplan.files.source import read_folder
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.shop import one_maker

SHELF = read_shelf()
COP = drafted(
    read_folder(samples_folder() / "elbow_cop"),
    Bench(shelf=SHELF, shop=one_maker("UTC")),
    is_hasty=True,
)


def test_what_is_not_changed_leaves_the_text_alone():
    assert with_following(COP, following_of(COP)).text == COP.text


def test_a_part_turned_to_another_measure_leaves_its_scaling_and_comments_stay():
    wanted = following_of(COP).turned(["petal_left", "boss"], around="biceps_girth")
    wanted = replace(wanted, drawn_mm={**wanted.drawn_mm, "biceps_girth": 380.5})
    made = with_following(COP, wanted)
    scalings = {one.id: one for one in made.pattern.scalings}
    assert scalings["cup"].parts == ("petal_middle", "petal_right")
    assert scalings["upper_arm_length_biceps_girth"].parts == ("petal_left",)
    assert scalings["biceps_girth"].parts == ("boss",)
    assert {one.id: one.mm for one in made.pattern.drawn_for}["biceps_girth"] == 380.5
    assert "# As wide as its buckle, whoever wears it" in made.text
    assert following_of(made) == wanted
    # The way back, too: a scaling that lost its last part is gone.
    back = with_following(made, following_of(COP))
    assert following_of(back).parts == following_of(COP).parts
    assert {one.id for one in back.pattern.scalings} == {"cup", "closing"}


def test_a_scaling_without_parts_goes():
    made = with_following(COP, following_of(COP).turned(["closing_strap"], around=""))
    assert [one.id for one in made.pattern.scalings] == ["cup"]


def test_what_only_gets_longer_has_no_height():
    turned = following_of(COP).turned(["closing_strap", "boss"], along="upper_arm_length")
    heights = {one.id: one.along for one in turned.parts}
    assert (heights["closing_strap"], heights["boss"]) == ("", "upper_arm_length")


@pytest.mark.parametrize(
    ("drawn", "said"),
    [
        ({}, "Say how many mm Calf girth was"),
        ({"calf_girth": 4.0}, "Calf girth cannot be 4 mm; write it from 20 to 3000 mm."),
        ({"calf_girth": float("nan")}, "cannot be nan mm"),
    ],
)
def test_a_measure_without_a_sound_value_is_refused(drawn, said):
    wanted = following_of(COP).turned(["boss"], around="calf_girth")
    made = with_following(COP, replace(wanted, drawn_mm={**wanted.drawn_mm, **drawn}))
    assert isinstance(made, Refused)
    assert said in made.words


def test_the_middle_of_adults_is_suggested_with_what_is_usual_over_padding():
    # ANSUR II medians of the calf: women 372, men 392 mm; 25 to 40 mm of padding (common practice).
    assert suggested_mm(SHELF.measure("calf_girth")) == pytest.approx(382 + 32.5, abs=0.6)
    assert suggested_mm(SHELF.measure("elbow_girth")) is None
