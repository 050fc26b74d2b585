"""For whom a drawing was made: what is guessed, what is written, and that it fits the reader."""

import pytest
from app.bringing.small_drawing import box, drawing, hole
from app.bringing.test_questions import SHELF, asked, tables

from armorplan.app.bringing.answering import Fact, answered, begun, with_fact
from armorplan.app.bringing.limbs import LIMBS
from armorplan.app.bringing.questions import open_questions

GREAVE = (
    box("greave", 0, 0, 280, 340),
    hole("g_1", 20, 170),
    hole("g_2", 36, 170),
    box("calf strap", 0, 400, 230, 22),
    hole("s_1", 10, 411),
    hole("s_2", 26, 411),
    box("keeper", 300, 400, 60, 15),
)


@pytest.fixture(scope="module")
def greave():
    return begun(drawing(*GREAVE, name="left leg.svg"))


def test_names_tell_the_limb_and_the_middle_of_adults_is_noted_as_a_guess(greave):
    assert asked(greave)["limb"].suggested == "shin"
    made = tables(greave)
    assert "guess" in made["drawn_for"]["calf_girth"]["notes"]
    plates, straps = made["scalings"]["shin_plates"], made["scalings"]["shin_round"]
    assert plates["parts"] == ["greave"]
    assert plates["around"] == straps["around"] == "calf_girth"
    assert plates["along"] in made["drawn_for"]
    assert straps["parts"] == ["calf_strap"], "a keeper keeps its size"
    assert "along" not in straps


def test_the_catalogue_has_the_measures_that_every_limb_follows():
    known = {measure.id for measure in SHELF.measures}
    assert {limb.around for limb in LIMBS} <= known
    assert {limb.along[0] for limb in LIMBS if limb.along} <= known


def test_measures_may_be_typed(greave):
    typed = answered(answered(greave, "drawn_for", "each"), "drawn_for:calf_girth", "431,5")
    assert tables(typed)["drawn_for"]["calf_girth"] == {"mm": 431.5}


def test_nobody_yet_writes_nothing_of_it(greave):
    free = answered(greave, "limb", "none")
    assert "drawn_for" not in asked(free)
    assert not {"drawn_for", "scalings"} & set(tables(free))


def test_pieces_may_be_for_unlike_limbs():
    two = begun(drawing(*GREAVE, box("band", 400, 0, 300, 70), name="set.svg"))
    two = with_fact(two, "band", Fact.PIECE, "collar")
    made = tables(two)
    assert {"neck_girth", "calf_girth"} <= set(made["drawn_for"])
    other = answered(two, "limbs", "each")
    limbs = [q.id for q in open_questions(other, SHELF) if q.id.startswith("limb:")]
    assert len(limbs) == 2
    assert "neck_girth" not in tables(answered(two, "limbs", "none")).get("drawn_for", {})


@pytest.mark.parametrize(
    ("wide", "high", "limb"),
    [(300, 95, "neck"), (240, 220, "forearm"), (500, 330, "thigh")],
)
def test_size_tells_a_limb_where_no_name_does(wide, high, limb):
    """A plate three quarters round: 400, 320 and 670 mm are a neck, a forearm and a thigh, padded."""
    alone = begun(drawing(box("path1", 0, 0, wide, high), name="0001.svg"))
    assert asked(alone)["limb"].suggested == limb
