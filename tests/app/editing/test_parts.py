"""What parts are, what they are called and what is put on them; forms, straps, corrections."""

from dataclasses import replace
from math import dist

import pytest
from app.editing.edited import sample, taken, why

from armorplan.app.draft import Draft
from armorplan.app.editing.parts import (
    add_material,
    add_part,
    add_treatment,
    drop_parts,
    put_to_piece,
    rename,
    set_outline,
    set_parts,
    set_treated,
    turn_up,
)
from armorplan.app.editing.shaping import (
    add_form,
    draw_correction,
    drop_form,
    set_axis,
    set_bend,
    set_strap_place,
)
from armorplan.app.editing.spare import spare_outlines
from armorplan.pattern.joining import FormKind, Route
from armorplan.pattern.parts import PartKind
from armorplan.pattern.pattern import Pattern


def pattern(draft: Draft) -> Pattern:
    assert draft.pattern is not None
    return draft.pattern


def plain(draft: Draft) -> Pattern:
    return replace(pattern(draft), content_hash="")


def test_several_parts_are_said_to_be_the_same():
    cop = sample("elbow_cop")
    made = taken(set_parts(cop, ["boss", "keeper"], {"grain": "in", "up_deg": 45.0}))
    for part in ("boss", "keeper"):
        assert (pattern(made).part(part).grain_out, pattern(made).part(part).up_deg) == (False, 45)
    back = taken(set_parts(made, ["boss"], {"up_deg": None}))
    assert pattern(back).part("boss").up_deg == 90
    assert "nothing that a part can be" in why(set_parts(cop, ["boss"], {"piece": "x"}))
    assert "boss" in why(set_parts(cop, ["boss"], {"kind": "lid"}))


def test_up_is_turned_and_turned_back():
    cop = sample("elbow_cop")
    made = taken(turn_up(cop, ["buckle_strap"], 100))
    assert pattern(made).part("buckle_strap").up_deg == 10
    assert "up_deg = 10  # turned end for end" in made.text
    assert taken(turn_up(made, ["buckle_strap"], -100)).text == cop.text


def test_an_outline_gets_other_corners():
    cop = sample("elbow_cop")
    ring = ((20.0, 20.0), (130.0, 20.0), (130.0, 210.0), (20.0, 210.0))
    made = taken(set_outline(cop, "petal_left", ring))
    assert pattern(made).part("petal_left").outline == ring
    assert pattern(made).part("petal_left").holes == pattern(cop).part("petal_left").holes


@pytest.mark.parametrize(
    ("table", "entry", "name"),
    [
        ("parts", "closing_strap", "long_strap"),
        ("parts", "keeper", "loop"),
        ("joints", "left_row_2", "second"),
        ("seams", "left_row", "row_of_the_left"),
        ("pieces", "elbow_cop", "cop"),
        ("materials", "strap_leather", "belting"),
        ("forms", "petal_dish", "bowl"),
    ],
)
def test_what_is_called_anew_is_called_so_everywhere(table, entry, name):
    cop = sample("elbow_cop")
    made = taken(rename(cop, table, entry, name))
    assert entry not in made.entry(table, "")
    assert list(made.entry(table, "")).index(name) == list(cop.entry(table, "")).index(entry)
    back = taken(rename(made, table, name, entry))
    assert dict(back.texts) == dict(cop.texts)
    assert "already" in why(rename(cop, table, entry, entry))


def test_reasons_name_what_was_called_anew():
    arm = sample("arm_harness")
    made = taken(rename(arm, "joints", "top_near", "first_near"))
    assert made.entry("relations", "both_top_pivots")["together"][0] == "screw/first_near"
    made = taken(rename(arm, "seams", "fore_strap_row", "strap_row"))
    assert made.entry("relations", "fore_strap_before_suede")["first"] == "seam/strap_row"


def test_with_a_part_goes_all_that_is_nothing_without_it():
    cop = sample("elbow_cop")
    made = taken(drop_parts(cop, ["keeper", "boss"]))
    read = pattern(made)
    assert not {"keeper", "boss"} & {part.id for part in read.parts}
    assert not {"keeper_ends", "boss_left", "boss_right"} & {joint.id for joint in read.joints}
    assert read.threads == ()
    assert "boss_dish" not in {form.id for form in read.forms}
    assert "keeper_end_a" not in dict(made.texts)["elbow_cop.svg"]


def test_leathers_parts_and_treatments_are_added():
    cop = sample("elbow_cop")
    made = taken(add_material(cop, "soft", leather="strap", thickness_mm=(2.0, 2.4)))
    made = taken(drop_parts(made, ["boss"]))
    svg = dict(made.texts)["elbow_cop.svg"].replace(
        "</g>", '<rect id="badge" x="5" y="5" width="15" height="12"/></g>', 1
    )
    made = taken(made.with_files({"elbow_cop.svg": svg}))
    made = taken(
        add_part(
            made, "badge", name="badge", piece="elbow_cop", kind=PartKind.TRIM, material="soft"
        )
    )
    assert pattern(made).part("badge").least_mm == 2.0
    made = taken(add_treatment(made, "alcohol_dye", parts=["badge"], colour="tar black", coats=2))
    assert pattern(made).treatments[-1].parts == ("badge",)
    assert "badge" not in pattern(made).parts[0].holes


def test_a_treatment_is_put_on_just_some_parts_and_on_whole_pieces_again():
    cop = sample("elbow_cop")
    parts = [part.id for part in pattern(cop).parts]
    some = taken(set_treated(cop, "colour", parts[:3]))
    treated = next(t for t in pattern(some).treatments if t.id == "colour")
    assert treated.parts == tuple(parts[:3])
    whole = taken(set_treated(cop, "colour", parts))
    assert whole.text == cop.text


def test_an_axis_moves_in_the_drawing_where_it_is_drawn():
    arm = sample("arm_harness")
    forms = {form.id: form for form in pattern(arm).forms if form.axis}
    drawn = next(f for f in forms if isinstance(arm.entry("forms", f)["axis"], str))
    ends = ((10.0, 20.0), (30.0, 45.5))
    made = taken(set_axis(arm, drawn, ends))
    moved = next(form for form in pattern(made).forms if form.id == drawn)
    assert moved.axis is not None
    assert all(dist(a, b) < 0.002 for a, b in zip(moved.axis, ends, strict=True))
    assert made.text == arm.text


def test_a_bend_is_made_and_taken_out():
    cop = sample("elbow_cop")
    made = taken(
        add_form(
            cop,
            ["closing_strap"],
            kind=FormKind.BEND,
            route=Route.DRY,
            ends=((20.0, 240.0), (20.0, 260.0)),
            bend=(50.0, 90.0),
        )
    )
    form = pattern(made).forms[-1]
    assert (form.id, form.axis) == ("closing_strap_bend", ((20.0, 240.0), (20.0, 260.0)))
    moved = taken(set_axis(made, form.id, ((21.0, 240.0), (21.0, 260.0))))
    bent = taken(set_bend(moved, form.id, radius_mm=40.0))
    assert (pattern(bent).forms[-1].radius_mm, pattern(bent).forms[-1].angle_deg) == (40.0, 90.0)
    assert taken(drop_form(made, form.id)).text == cop.text


def test_a_strap_place_is_made_and_changed():
    cop = sample("elbow_cop")
    holes = [f"strap_set_{n}" for n in range(1, 6)]
    made = taken(
        set_strap_place(cop, "closing_strap", "buckle_strap", girth_mm=(300.0, 340.0), holes=holes)
    )
    place = pattern(made).strap_places[-1]
    assert (place.girth_mm, place.holes) == ((300.0, 340.0), tuple(holes))
    less = taken(
        set_strap_place(
            made,
            "closing_strap",
            "buckle_strap",
            girth_mm=(310.0, 340.0),
            holes=holes[1:],
            place=place.id,
        )
    )
    assert pattern(less).strap_places[-1].holes == tuple(holes[1:])


def test_a_correction_drawn_is_the_same_pattern_without_it():
    cop = sample("elbow_cop")
    for name, move in (("low", [0.0, -1.5]), ("left", [0.25, 0.0])):
        told = {"name": name, "holes": ["left_2", "left_3"], "move_mm": move}
        cop = taken(cop.add_entry("corrections", name, told))
    made = taken(draw_correction(cop, "low"))
    assert [each.id for each in pattern(made).corrections] == ["left"]
    assert plain(made) == replace(plain(cop), corrections=pattern(made).corrections)
    drawn = dict(taken(draw_correction(made, "left")).texts)["elbow_cop.svg"]
    assert 'id="left_2" cx="113.539" cy="74.047"' in drawn


def test_parts_go_to_another_piece_and_one_that_is_empty_goes():
    harness = sample("arm_harness")
    elbow = [part.id for part in pattern(harness).parts if part.piece == "elbow"]
    one = taken(put_to_piece(harness, elbow[:1], "upper_arm"))
    assert pattern(one).part(elbow[0]).piece == "upper_arm"
    assert "elbow" in {piece.id for piece in pattern(one).pieces}
    all_ = taken(put_to_piece(harness, elbow, "upper_arm"))
    assert "elbow" not in {piece.id for piece in pattern(all_).pieces}
    assert "Elbow has no part left and went." in all_.told
    assert all("elbow" not in harness.pieces for harness in pattern(all_).harnesses)


def test_an_outline_in_no_part_is_spare_until_it_is_made_one():
    cop = sample("elbow_cop")
    (name,) = (name for name, _ in cop.texts if name.endswith(".svg"))
    drawn = '<path id="tab" d="M 398 2 H 428 V 20 H 398 Z"/>'
    text = dict(cop.texts)[name].replace("</svg>", f"{drawn}</svg>")
    cop = taken(cop.with_files({name: text}))
    (tab,) = spare_outlines(cop)
    assert (tab.id, len(tab.ring)) == ("tab", 4)
    part = pattern(cop).parts[0]
    told = {"piece": part.piece, "kind": PartKind.STRAP, "material": part.material}
    made = taken(add_part(cop, "tab", name="Tab", **told))
    assert spare_outlines(made) == ()


def test_a_new_piece_is_made_and_treated_like_the_one_it_comes_from():
    cop = sample("elbow_cop")
    made = taken(put_to_piece(cop, ["boss"], "", name="Badge"))
    was, new = pattern(cop).pieces[0], pattern(made).pieces[-1]
    assert (new.id, new.name, new.mirrored) == ("badge", "Badge", was.mirrored)
    before = {t.id for t in pattern(cop).treatments if "boss" in t.parts}
    assert {t.id for t in pattern(made).treatments if "boss" in t.parts} == before
