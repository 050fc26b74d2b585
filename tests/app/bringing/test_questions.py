"""What is asked of a drawing, and what each answer changes."""

import random
import tomllib
from dataclasses import replace

import pytest
from app.bringing.small_drawing import BAND, box, drawing, hole, line, wing
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.app.bringing.answering import (
    Fact,
    answered,
    begun,
    unanswered,
    with_fact,
    with_known_length,
    with_shapes,
)
from armorplan.app.bringing.answers_file import answers_text, with_answers
from armorplan.app.bringing.questions import accepted, open_questions, questions, unasked
from armorplan.app.bringing.standing import standing
from armorplan.app.bringing.writing import bringing_texts, left_open
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.alike.likeness import look_alikes
from armorplan.geometry.brought.model import ShapeKind
from armorplan.kernel.errors import StoppedError, UnreadableError

SHELF = read_shelf()


def asked(bringing):
    return {question.id: question for question in questions(bringing, SHELF)}


def tables(bringing):
    return tomllib.loads(bringing_texts(bringing, SHELF)["pattern.toml"])


@pytest.fixture(scope="module")
def band():
    return begun(drawing(*BAND))


# --- answering ------------------------------------------------------------------------------------


def test_every_suggestion_is_one_of_its_choices(band):
    for question in questions(band, SHELF):
        assert question.suggested in {choice.key for choice in question.choices}
        assert question.text


def test_an_answer_takes_the_place_of_a_former_one_and_can_be_taken_back(band):
    kind = "kind:strap"
    other = answered(answered(band, kind, "trim"), kind, "lining")
    assert [given.choice for given in other.given] == ["lining"]
    assert asked(other)[kind].answer == "lining"
    assert unanswered(other, kind) == band


def test_what_fits_no_choice_leaves_the_question_open(band):
    odd = answered(band, "kind:strap", "ribbon")
    assert asked(odd)["kind:strap"].answer is None
    assert unasked(odd, SHELF) == ("kind:strap",)


def test_taking_what_is_suggested_changes_nothing_of_the_pattern(band):
    everything = accepted(band, SHELF, sure_only=False)
    assert open_questions(everything, SHELF) == ()
    assert tables(everything) == tables(band)
    some = accepted(band, SHELF)
    assert {q.id for q in open_questions(some, SHELF)} == {
        q.id for q in questions(band, SHELF) if not q.sure
    }


def test_answers_come_back_from_their_file(band, tmp_path):
    file = tmp_path / "answers.toml"
    said = accepted(with_fact(band, "strap", Fact.NAME, "closing strap"), SHELF, sure_only=False)
    file.write_text(answers_text(said), encoding="utf-8")
    assert with_answers(band, file).answers == said.answers


def test_it_can_be_stopped(band):
    with pytest.raises(StoppedError):
        questions(answered(band, "unit", "2.5"), SHELF, should_stop=lambda: True)


def test_comparing_parts_can_be_stopped(wings):
    """The lines are sorted already: what asks next is what lays parts on each other."""
    parts = standing(wings, SHELF).drawn
    with pytest.raises(StoppedError):
        look_alikes(parts, should_stop=lambda: True)


# --- unit -----------------------------------------------------------------------------------------


def test_a_known_length_settles_the_unit(band):
    longer = with_known_length(band, (10, 10), (180, 10), 340.0)
    found = standing(longer, SHELF)
    assert found.mm_each == pytest.approx(2.0)
    xs = [x for x, _ in found.drawn[0].outline]
    assert max(xs) - min(xs) == pytest.approx(340.0)


def test_holes_of_inches_are_of_whole_hundredths_of_a_mm():
    """A circle of r = 0.0787 in, as a file has it that was rounded, is a hole of 4 mm."""
    drawn = drawing(box("plate", 0, 0, 4, 3), hole("a", 1, 1, 2 * 0.0787))
    made = bringing_texts(answered(begun(drawn), "unit", "25.4"), SHELF)["band.svg"]
    assert 'r="2"' in made


@pytest.mark.parametrize("true_mm", [0.0, -3.0, float("inf"), float("nan")])
def test_no_length_is_no_unit(band, true_mm):
    assert with_known_length(band, (10, 10), (180, 10), true_mm) is None
    assert with_known_length(band, (10, 10), (10, 10), 100.0) is None


# --- shapes and parts -----------------------------------------------------------------------------


def test_a_person_says_what_a_shape_is(band):
    marked = with_shapes(band, ["band_2"], ShapeKind.ENGRAVING)
    assert [hole.id for hole in standing(marked, SHELF).drawn[0].holes] == ["band_1"]
    gone = with_shapes(band, ["strap"], ShapeKind.LEFT_OUT)
    assert [part.id for part in standing(gone, SHELF).drawn] == ["band"]


def test_a_person_says_what_a_part_is(band):
    said = with_fact(band, "strap", Fact.KIND, "trim")
    said = with_fact(said, "strap", Fact.NAME, "rope border")
    said = with_fact(said, "strap", Fact.MATERIAL, "light_strap:2.2")
    said = with_fact(said, "strap", Fact.PIECE, "Border")
    made = tables(said)
    assert made["parts"]["rope_border"]["kind"] == "trim"
    assert made["materials"][made["parts"]["rope_border"]["material"]] == {
        "leather": "light_strap",
        "thickness_mm": 2.2,
    }
    assert made["pieces"][made["parts"]["rope_border"]["piece"]]["name"] == "Border"


def test_parts_on_layers_may_have_a_leather_each():
    inked = drawing(
        box("cover", 0, 0, 150, 90, layer="red"), box("inside", 0, 99, 140, 70, layer="blue")
    )
    said = answered(begun(inked), "leather", "layers")
    assert {"leather:red", "leather:blue"} <= set(asked(said))
    made = tables(answered(said, "leather:blue", "suede_lining:1.2"))
    leather = {
        part: made["materials"][t["material"]]["leather"] for part, t in made["parts"].items()
    }
    assert leather["inside"] == "suede_lining"
    assert leather["cover"] != "suede_lining"


def test_each_kind_may_be_of_a_leather_of_its_own(band):
    each = answered(answered(band, "leather", "each"), "leather:kind:strap", "keeper:2")
    made = tables(each)
    assert made["materials"][made["parts"]["strap"]["material"]]["leather"] == "keeper"
    assert made["materials"][made["parts"]["band"]["material"]]["leather"] != "keeper"


def test_one_group_of_a_drawing_may_be_made_left_and_right():
    bringing = begun(drawing(*BAND, *wing("wing", 400)))
    split = answered(answered(bringing, "both", "each"), "both:band", "both")
    assert {"both:band", "both:wing"} <= set(asked(split))
    made = tables(split)
    mirrored = {
        made["pieces"][part["piece"]]["mirrored"]: key for key, part in made["parts"].items()
    }
    assert mirrored[False] == "wing"
    assert mirrored[True] in {"band", "strap"}
    assert len({piece["name"] for piece in made["pieces"].values()}) == len(made["pieces"])


def test_a_drawing_without_a_part_says_so():
    with pytest.raises(UnreadableError) as refused:
        bringing_texts(begun(drawing(line("a", (0, 0), (50, 0)))), SHELF)
    assert refused.value.findings[0].code == "no-outline"


def test_lines_on_a_fold_layer_are_folds():
    folded = drawing(*BAND, line("crease_1", (60, 10.5), (60, 79.5), layer="fold lines"))
    made = bringing_texts(begun(folded), SHELF)
    (form,) = [
        f for f in tomllib.loads(made["pattern.toml"])["forms"].values() if f["kind"] == "fold"
    ]
    assert f'id="{form["axis"]}"' in made["band.svg"]
    engraved = tables(answered(begun(folded), "folds", "engraved"))
    assert "fold" not in {f["kind"] for f in engraved.get("forms", {}).values()}


# --- twins ----------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def wings():
    return begun(drawing(*wing("wing_a", 100), *wing("wing_b", 300, over=True), name="wings.dxf"))


def test_mirror_twins_become_one_part_made_left_and_right(wings):
    made = tables(wings)
    assert list(made["parts"]) == ["wing_a"]
    assert [piece["mirrored"] for piece in made["pieces"].values()] == [True]
    other = tables(answered(wings, "hand:wing_a+wing_b", "wing_b"))
    assert list(other["parts"]) == ["wing_b"]


def test_what_is_made_for_both_sides_is_called_after_neither():
    alone = begun(drawing(box("GREAVE left", 0, 0, 200, 300)))
    assert [part["name"] for part in tables(alone)["parts"].values()] == ["GREAVE left"]
    made = tables(answered(alone, "both", "both"))
    assert [part["name"] for part in made["parts"].values()] == ["GREAVE"]


def test_twins_may_stay_parts_of_their_own(wings):
    made = tables(answered(wings, "twins:hands", "own"))
    assert set(made["parts"]) == {"wing_a", "wing_b"}
    assert [piece["mirrored"] for piece in made["pieces"].values()] == [False]


def test_twins_that_are_not_drawn_quite_alike_may_be_one():
    nudged = [
        replace(s, circle=((s.circle[0][0] + 0.5, s.circle[0][1]), 3.5))
        if s.key == "wing_b_2"
        else s
        for s in wing("wing_b", 300, over=True)
    ]
    bringing = begun(drawing(*wing("wing_a", 100), *nudged))
    question = asked(bringing)["twins:inexact"]
    assert "0.5 mm" in question.text
    assert len(tables(bringing)["parts"]) == 1
    assert len(tables(answered(bringing, "twins:inexact", "own"))["parts"]) == 2


def test_a_name_tells_the_left_from_the_right():
    named = begun(drawing(*wing("wing right", 100), *wing("wing left", 300, over=True)))
    question = asked(named)["hand:wing right+wing left"]
    assert question.suggested == "wing left"
    assert question.sure
    assert [part["name"] for part in tables(named)["parts"].values()] == ["wing"]


def test_loose_parts_that_are_alike_are_cut_several_times():
    scales = begun(drawing(*(box(f"scale_{n}", 50 * n, 0, 40, 60) for n in range(4))))
    made = tables(scales)
    assert [part["count"] for part in made["parts"].values()] == [4]
    assert len(tables(answered(scales, "twins:loose", "own"))["parts"]) == 4


# --- rows -----------------------------------------------------------------------------------------


def test_two_rows_become_joints_and_a_seam(band):
    made = tables(band)
    assert len(made["joints"]) == 2
    assert [len(seam["joints"]) for seam in made["seams"].values()] == [2]
    assert left_open(band, SHELF) == ()


def test_a_row_that_is_refused_stays_free_and_is_told(band):
    (row,) = [q for q in questions(band, SHELF) if q.id.startswith("row")]
    free = answered(band, row.id, "none")
    assert "joints" not in tables(free)
    assert left_open(free, SHELF) == (
        "The band has 2 holes without a use yet.",
        "The strap has 2 holes without a use yet.",
    )


def test_a_row_that_fits_several_offers_them_and_the_others_follow():
    """Two straps with holes 16 mm apart, and a plate with two such rows: which is where?"""
    plate = (
        box("plate", 0, 0, 300, 90),
        *(hole(f"p{n}", x, 45) for n, x in enumerate((20, 36, 260, 276))),
    )
    straps = [
        piece
        for n, long in enumerate((120, 150))
        for piece in (
            box(f"strap_{n}", 0, 120 + 40 * n, long, 20),
            hole(f"s{n}_a", 12, 130 + 40 * n),
            hole(f"s{n}_b", 28, 130 + 40 * n),
        )
    ]
    bringing = begun(drawing(*plate, *straps))
    question = next(q for q in questions(bringing, SHELF) if q.kind == "row")
    assert len(question.matches) > 1
    first, second = question.matches[:2]
    assert {hole for pair in first.pairs for hole in pair} & {
        h for pair in second.pairs for h in pair
    }
    other = answered(bringing, question.id, second.key)
    rows = [row.match.key for row in standing(other, SHELF).rows]
    assert second.key in rows
    assert first.key not in rows


@pytest.fixture(scope="module")
def plates_and_straps():
    """Two plates and two straps with two holes each, all 16 mm apart: anything fits anything."""
    plates = [
        piece
        for n, x in enumerate((0, 250))
        for piece in (
            box(f"plate_{n}", x, 0, 200, 90),
            hole(f"p{n}_a", x + 20, 45),
            hole(f"p{n}_b", x + 36, 45),
        )
    ]
    straps = [
        piece
        for n, long in enumerate((120, 150))
        for piece in (
            box(f"strap_{n}", 0, 120 + 40 * n, long, 20),
            hole(f"s{n}_a", 12, 130 + 40 * n),
            hole(f"s{n}_b", 28, 130 + 40 * n),
        )
    ]
    return begun(drawing(*plates, *straps))


def row_question(bringing):
    return next(q for q in questions(bringing, SHELF) if q.kind == "row" and q.answer is None)


def test_what_is_refused_for_one_part_is_asked_of_another(plates_and_straps):
    first = row_question(plates_and_straps)
    of_each = [{pair[at] for pair in first.matches[0].pairs} for at in (0, 1)]
    (subject,) = [
        its for its in of_each if all(its & {h for p in m.pairs for h in p} for m in first.matches)
    ]
    refused = {match.key for match in first.matches}
    after = answered(plates_and_straps, first.id, "none")
    other = row_question(after)
    assert not refused & {match.key for match in other.matches}
    (partner,) = [its for its in of_each if its is not subject]
    still = [q for q in questions(after, SHELF) if q.kind == "row" and q.answer is None]
    assert any(partner & {h for p in m.pairs for h in p} for q in still for m in q.matches)


def test_choices_that_read_alike_say_where_their_holes_are():
    plate = (
        box("plate", 0, 0, 300, 90),
        *(hole(f"p{n}", x, 45) for n, x in enumerate((20, 36, 260, 276))),
    )
    strap = (box("strap", 0, 120, 120, 20), hole("s_a", 12, 130), hole("s_b", 28, 130))
    question = row_question(begun(drawing(*plate, *strap)))
    words = [choice.words for choice in question.choices]
    assert len(set(words)) == len(words)
    alike = [said for said in words if said.startswith(("strap", "plate"))]
    assert len(alike) > 1, words
    assert all("on the left" in said or "on the right" in said for said in alike), words


def test_a_part_that_hangs_on_nothing_is_suggested_where_no_hole_misses(plates_and_straps):
    joined = {p for row in standing(plates_and_straps, SHELF).rows for p in (row.inner, row.outer)}
    assert {"strap_0", "strap_1"} <= joined


def test_of_two_straps_one_closes_on_the_other():
    """Two straps on a band, both with holes for a buckle: not each on the other."""
    tongue = [
        stroke
        for n in range(2)
        for stroke in (
            box(f"strap {n}", 0, 200 + 60 * n, 240, 20),
            *(hole(f"s{n}{i}", 10 + 16 * i, 210 + 60 * n) for i in range(2)),
            *(hole(f"t{n}{i}", 150 + 20 * i, 210 + 60 * n, 5) for i in range(3)),
        )
    ]
    rows = [hole(f"b{n}{i}", 12 + 16 * i + 130 * n, 45) for n in range(2) for i in range(2)]
    bringing = begun(drawing(box("band", 0, 0, 170, 70), *rows, *tongue))
    closed = [q for q in questions(bringing, SHELF) if q.id.startswith("closes:")]
    assert [q.taken != "none" for q in closed] == [True]


def test_a_buckle_may_sit_at_the_slot_of_its_tab_or_at_its_end():
    """The tab is held 18 mm from one end; its slot lies 43 mm further on, its other end 72 mm."""
    rows = [hole(f"b{n}{i}", 12 + 16 * i + 130 * n, 45) for n in range(2) for i in range(2)]
    strap = (
        box("closing strap", 0, 200, 240, 20),
        *(hole(f"s{i}", 10 + 16 * i, 210) for i in range(2)),
        *(hole(f"t{i}", 150 + 20 * i, 210, 5) for i in range(3)),
    )
    tab = (
        box("buckle tab", 0, 260, 90, 20),
        *(hole(f"u{i}", 10 + 16 * i, 270) for i in range(2)),
        box("tongue", 58, 267.5, 6, 5),
    )
    bringing = begun(drawing(box("band", 0, 0, 170, 70), *rows, *strap, *tab))
    question = asked(bringing)["closes:closing strap"]
    at_slot, at_end = question.choices[:2]
    assert question.suggested == at_slot.key == "buckle tab@tongue"
    (near,) = tables(bringing)["strap_places"].values()
    (far,) = tables(answered(bringing, question.id, at_end.key))["strap_places"].values()
    assert [b - a for a, b in zip(near["girth_mm"], far["girth_mm"], strict=True)] == [29, 29]


def test_a_keeper_with_a_hole_at_each_end_closes_on_itself():
    slots = (box("slit_1", 60, 30, 17, 3), box("slit_2", 60, 50, 17, 3))
    keeper = (box("keeper", 10, 130, 64, 16), hole("end_1", 16, 138, 3), hole("end_2", 68, 138, 3))
    made = tables(begun(drawing(*BAND, *slots, *keeper)))
    (passed,) = made["threads"].values()
    assert passed["through"] == ["slit_1", "slit_2"]
    assert made["joints"][passed["closed_by"][0]]["stack"] == ["end_1", "end_2"]


# --- whatever is answered -------------------------------------------------------------------------


def answered_at_random(seed):
    draw = random.Random(seed)  # noqa: S311 - answers, no secret
    slots = (box("slit_1", 60, 30, 22, 3), box("slit_2", 60, 50, 22, 3))
    held = drawing(*BAND, *slots, *wing("wing_a", 100), *wing("wing_b", 300, over=True))
    bringing = begun(held)
    for _ in range(60):
        waiting = open_questions(bringing, SHELF)
        if not waiting:
            break
        first = waiting[0]
        bringing = answered(bringing, first.id, draw.choice(first.choices).key)
        if first.shapes and draw.random() < 0.2:
            bringing = with_shapes(
                bringing, [draw.choice(first.shapes)], draw.choice(list(ShapeKind))
            )
    assert not open_questions(bringing, SHELF)
    if standing(bringing, SHELF).parts:
        # It reads what it wrote, and refuses what is unsound.
        assert bringing_texts(bringing, SHELF)


@settings(max_examples=4)
@given(seed=st.integers(0, 10_000))
def test_whatever_is_answered_gives_a_sound_pattern(seed):
    answered_at_random(seed)


@pytest.mark.long
@settings(max_examples=60)
@given(seed=st.integers(0, 10_000))
def test_whatever_is_answered_in_many_ways_gives_a_sound_pattern(seed):
    answered_at_random(seed)


# --- names, kinds, shaping ------------------------------------------------------------------------


@pytest.fixture(scope="module")
def three_lames():
    """Three bands of which nobody says a name, and a hinge on one of them."""
    bands = [
        stroke
        for n in range(3)
        for stroke in (
            box(f"path{n}", 10, 120 * n, 250, 70 - 5 * n),
            hole(f"path{n}1", 20, 120 * n + 12, 4 + n),
        )
    ]
    hinge = (box("path7", 300, 0, 60, 30), hole("path71", 306, 15, 3))
    return begun(drawing(*bands, *hinge))


def test_a_bundle_of_kinds_may_be_split(three_lames):
    each = answered(three_lames, "kind:lame", "each")
    assert {"kind:lame:path0", "kind:lame:path1", "kind:lame:path2"} <= set(asked(each))
    said = answered(each, "kind:lame:path1", "plate")
    kinds = {part.id: part.kind.value for part in standing(said, SHELF).parts}
    assert (kinds["path0"], kinds["path1"]) == ("lame", "plate")


def test_what_is_said_of_one_part_is_not_asked_again(three_lames):
    said = with_fact(three_lames, "path1", Fact.KIND, "plate")
    assert "path1" not in asked(said)["kind:lame"].shapes
    assert tables(said)["parts"]["plate"]["kind"] == "plate"


def test_parts_are_called_what_they_become_as_soon_as_it_is_known(three_lames):
    found = asked(three_lames)
    assert "Part 1, part 2, part 3" in found["kind:lame"].text
    assert "lame 1, lame 2, lame 3" in found["round:lame"].text
    names = standing(three_lames, SHELF).names
    written = {part["name"] for part in tables(three_lames)["parts"].values()}
    assert {names[key] for key in ("path0", "path1", "path2")} <= written


def test_a_hole_that_becomes_a_part_renumbers_no_other(three_lames):
    more = with_shapes(three_lames, ["path01"], ShapeKind.PART)
    assert "part 1, part 2, part 3" in asked(more)["kind:lame"].text.lower()
    assert (
        "Part 5"
        in asked(more)["kind:trim"].text
        + asked(more).get("kind:keeper", asked(more)["kind:trim"]).text
    )


def test_what_is_narrow_goes_round_the_limb_of_the_wide():
    """A lame as wide as the widest goes half round; the others round the same limb, by less."""
    plate = (box("plate", 0, 0, 300, 180), hole("p_1", 20, 90), hole("p_2", 60, 90))
    lame = (box("lame", 0, 250, 200, 60), hole("l_1", 20, 280), hole("l_2", 60, 280))
    hinge = (box("hinge", 0, 350, 92, 40),)
    bringing = begun(drawing(*plate, *lame, *hinge))
    for key, kind in (("plate", "plate"), ("lame", "lame"), ("hinge", "lame")):
        bringing = with_fact(bringing, key, Fact.KIND, kind)
    (bend,) = [f for f in tables(bringing)["forms"].values() if f["kind"] == "bend"]
    assert bend["parts"] == ["lame"]
    assert bend["angle_deg"] == pytest.approx(120, abs=2)
    assert bend["radius_mm"] == pytest.approx(94, abs=2)


def test_where_all_is_lining_nothing_is_coated(three_lames):
    """Linings take no dye; a treatment of nothing would not be read."""
    for key in ("path0", "path1", "path2", "path7"):
        three_lames = with_fact(three_lames, key, Fact.KIND, "lining")
    assert "treatments" not in tables(three_lames)


# --- what is said of it ---------------------------------------------------------------------------


def test_a_unit_that_was_said_is_reckoned_with(band):
    question = asked(answered(band, "unit", "25.4"))["unit"]
    assert "1 unit is 1 inch, as was said" in question.text
    assert f"{170 * 25.4:,.0f} mm wide" in question.text
    assert "Holes in leather are rarely" in question.text
    assert "rarely" not in asked(band)["unit"].text


def test_only_what_was_done_is_told_of_joining_and_clearing():
    corners = ((0, 0), (150, 0), (150, 60), (0, 60), (0, 0))
    edges = [line(f"e{n}", corners[n], corners[n + 1]) for n in range(4)]
    told = asked(begun(drawing(*edges)))["cleared"].text
    assert told == "8 open ends were joined, all without a gap."


def test_one_part_is_spoken_of_as_one():
    alone = begun(drawing(box("plate", 0, 0, 150, 90)))
    assert asked(alone)["both"].text.startswith("Is the part made once")


def test_the_pivots_tell_which_end_of_a_chain_is_the_upper_one():
    """The lower plate is drawn above the upper one: its pivots lie at its top."""
    low = (box("low", 0, 0, 200, 80), hole("low_a", 12, 12), hole("low_b", 188, 12))
    high = (box("high", 0, 150, 200, 80), hole("high_a", 12, 218), hole("high_b", 188, 218))
    made = tables(begun(drawing(*low, *high)))
    (bends,) = made["movements"].values()
    assert bends["parts"] == ["high", "low"]


@pytest.mark.parametrize(
    ("name", "kind"),
    [("greave", "plate"), ("calf tab", "strap"), ("knee", "cop"), ("collar front", "lame")],
)
def test_the_name_of_a_part_tells_its_kind(name, kind):
    named = begun(drawing(box(name, 0, 0, 150, 90)))
    assert [part.kind for part in standing(named, SHELF).parts] == [kind]
