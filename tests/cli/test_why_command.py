"""``armorplan why``: what comes before what, by which relation, and names that mean nothing."""

import json
import re
from itertools import pairwise
from shutil import copytree

import pytest
from schemas_cli import schema

from armorplan.app.between_rows import between_row
from armorplan.app.derived import derive_build
from armorplan.cli.program import run
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.kernel.units import about_words
from armorplan.rules.reach_sketches import sketch_cone, sketch_tube
from armorplan.workshop.shop import one_maker


def answered(capsys, *words: str) -> dict:
    assert run(["why", *words, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    schema("why").validate(found)
    return found["between"]


def test_a_head_under_the_boss_comes_before_the_last_of_its_rivets(capsys):
    found = answered(capsys, "elbow_cop", "tab_top", "boss")
    assert found["answer"] == "it has to come first"
    assert found["force"] == "cannot"
    (link,) = found["chain"]
    assert link["rule"] == "hidden-before-cover"
    assert len(link["of"]) == 2
    assert "before the last of" in link["order"]
    assert link["numbers"] == ["head covered 100 %"]


def test_asked_the_other_way_round_it_says_so(capsys):
    found = answered(capsys, "elbow_cop", "rivet/tab_top", "dry-fit/elbow_cop")
    assert found["answer"] == "it has to come after"
    assert found["sentence"].startswith("No, the other way round:")
    assert [link["rule"] for link in found["chain"]] == ["dry-fit-before-permanent"]


def test_what_only_steers_is_priced_once(capsys):
    found = answered(capsys, "collar", "front_plate_row_4", "front_rim_row")
    prices = [link["price_min"] for link in found["chain"]]
    assert found["answer"] == "it comes first by choice"
    assert found["price_min"] == pytest.approx(max(prices))
    assert "Nothing forbids the other order" in found["sentence"]


def test_a_chain_is_told_link_by_link(capsys):
    found = answered(capsys, "elbow_cop", "cut/boss", "inspect/elbow_cop")
    assert found["answer"] == "it has to come first"
    ends = [(link["first"], link["of"]) for link in found["chain"]]
    assert ends[0][0].endswith("/cut/boss")
    assert all(later[0] in of for (_, of), later in pairwise(ends))
    assert len(ends) > 1


def test_left_is_looked_at_with_left(capsys):
    found = answered(capsys, "arm_harness", "fore_strap", "wrist_trim_row")
    assert found["side"] == "left"
    assert all(".left" in step for step in (found["first"], *found["then"]))


def test_an_overruled_relation_is_shown_with_its_note(capsys, overruled_collar):
    found = answered(capsys, str(overruled_collar), "front_plate_row_4", "front_rim_row")
    assert found["answer"] == "either may come first"
    (link,) = found["aside"]
    assert link["overruled"]
    assert link["note"] == "My stake reaches."
    assert "you overruled it: My stake reaches." in found["sentence"]


@pytest.fixture
def overruled_collar(tmp_path):
    folder = tmp_path / "collar"
    copytree(samples_folder() / "collar", folder)
    file = folder / "pattern.toml"
    extra = '\n[overruled.open_row]\nrule = "easier-while-open"\nnote = "My stake reaches."\n'
    file.write_text(file.read_text(encoding="utf-8") + extra, encoding="utf-8")
    return folder


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("boss_2", "left_row"), "Near to it: boss"),
        (("elbow_cop", "left_row"), "could be several things here. Write which is meant: step:"),
        (("tab_top", "tab_top"), "are done in one step"),
        (("tab_top",), "Name two: armorplan why PATTERN A B"),
        (("zzzz", "left_row"), "Write the id or the name of a joint, row, form or part"),
        (("nonsense", "boss"), "Write the id or the name of a joint, row, form or part"),
        (("lace tub", "boss"), "Near to it: lace tab, lace_tab"),
        (("harbour blue", "boss"), "Near to it: dye/colour.coat-1,"),
        (("left_slot_top", "boss"), "is a slot of left petal. Name what is threaded through it:"),
        (
            ("middle_left_2", "boss"),
            "is a hole of middle petal. Name the joint on it: 'left_row_2'.",
        ),
        (("joint:boss", "left_row"), "Nothing in this pattern is called 'boss'"),
    ],
)
def test_names_that_cannot_be_asked_about_say_what_would_be_fine(words, told, capsys):
    assert run(["why", "elbow_cop", *words]) == 2
    assert told in capsys.readouterr().err


@pytest.mark.parametrize(
    ("shown", "written"),
    [
        ("lace tab", "lace_tab"),
        ("Lace Tab", "lace_tab"),
        ("left row", "left_row"),
        ("rivet left row, 3 of 7", "left_row_3"),
    ],
)
def test_a_name_as_it_is_shown_stands_for_the_same(shown, written, capsys):
    by_name, by_id = (
        answered(capsys, "elbow_cop", one, "dry-fit/elbow_cop") for one in (shown, written)
    )
    assert by_name["then"] == by_id["then"]
    assert by_name["first"] == by_id["first"]


def test_a_title_without_its_side_stands_for_both(capsys):
    found = answered(capsys, "arm_harness", "Rivet far rib row, 1 of 4", "upper_ribs_far_2")
    assert found["side"] == "left"


def test_sides_that_never_meet_are_told(capsys):
    assert run(["why", "arm_harness", "hang_1.left", "hang_2.right"]) == 2
    assert "Name two of one side" in capsys.readouterr().err


def test_the_text_holds_what_the_answer_rests_on(capsys):
    assert run(["why", "elbow_cop", "tab_top", "boss"]) == 0
    said = capsys.readouterr().out
    assert said.startswith("Yes: 'Rivet middle petal and lace tab")
    assert "cannot [hidden-before-cover]" in said
    assert max(map(len, said.splitlines())) <= 100


def test_how_firm_the_orders_by_reach_are_is_told_alone_and_beside_an_answer(capsys):
    assert run(["why", "elbow_cop", "--firm"]) == 0
    assert "by reach" in capsys.readouterr().out
    assert run(["why", "elbow_cop", "tab_top", "boss", "--firm", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    schema("why").validate(found)
    assert found["between"]
    assert found["flips"] is not None


def test_how_a_joint_is_set_before_and_after_the_row_is_told_with_the_tool(capsys):
    (line,) = answered(capsys, "elbow_cop", "strap_rim", "left_row")["other_order"]
    assert "set before the last of the joints of 'left row': it sits on a shaped part" in line
    assert re.search(r" \d+ mm|of its \d+ mm", line.partition("Set after:")[2])


def test_where_reach_makes_no_difference_it_says_so_once(capsys):
    (line,) = answered(capsys, "elbow_cop", "tab_top", "strap_rim")["other_order"]
    assert line.startswith("By reach it makes no difference to 'Rivet middle petal and lace tab")


def test_of_several_joints_that_are_free_the_one_reach_makes_dearest_is_told(capsys):
    (line,) = answered(capsys, "elbow_cop", "boss", "right_row")["other_order"]
    assert line.startswith("By reach, 'Rivet boss and middle petal, 2 of 2' set before")


def test_what_reach_costs_is_in_the_price_where_only_practice_is_in_the_chain():
    spots = (20.0, 130.0, 240.0, 350.0, 460.0, 570.0, 680.0)
    tube = sketch_tube(long_mm=700.0, spots_mm=spots, strap_mm=350.0)
    derived = derive_build(tube, read_shelf(), one_maker(), build="a")
    row = between_row(derived, "on", "row_2")
    assert {link.rule for link in row.chain} >= {"row-in-one-go"}
    assert row.price_min > 0
    assert f"it costs about {about_words(row.price_min)} more." in row.sentence
    told = " ".join((*row.other_order, *(link.text for link in row.chain)))
    assert f"costs about {about_words(row.price_min)} more." in told


def test_two_rivets_of_a_row_are_told_along_it_in_one_line(capsys):
    found = answered(capsys, "elbow_cop", "left_row_1", "left_row_5")
    (link,) = found["chain"]
    assert len(link["of"]) == 4
    assert link["order"].endswith("each before the next")


def test_the_end_no_tool_gets_to_is_told_before_the_way_along_the_row(capsys, short_horn):
    for asked in (("row_0", "row_6"), ("row_6", "row_0")):
        row = between_row(short_horn, *asked)
        assert "From its other end the row cannot be set: then no tool gets to" in row.sentence
        first, *_, last = row.chain
        assert (first.rule, first.force) == ("row-from-deep-end", "cannot")
        assert first.first.endswith("/row_0")
        assert {"reach 250 mm"} <= set(first.numbers)
        assert last.rule == "row-in-one-go"
        assert len(last.of) == 6
        assert not row.other_order


def test_what_the_other_end_only_makes_dearer_is_told_with_its_minutes():
    row = between_row(cone(250.0, 90.0, (30.0, 80.0, 130.0, 180.0, 230.0)), "row_4", "row_0")
    assert row.sentence.endswith(f"that costs about {about_words(row.price_min)} more.")
    assert row.price_min > 1
    assert row.price_min == pytest.approx(sum(link.price_min for link in row.chain))


def cone(deep_mm, angle_deg, spots_mm):
    pattern = sketch_cone(deep_mm=deep_mm, angle_deg=angle_deg, spots_mm=spots_mm)
    return derive_build(pattern, read_shelf(), one_maker(), build="a")


@pytest.fixture
def short_horn():
    """Return a cone of 350 mm, whose tip lies deeper than the horn that ships."""
    return cone(350.0, 60.0, (30.0, 80.0, 130.0, 180.0, 230.0, 280.0, 330.0))
