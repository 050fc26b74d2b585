"""``armorplan recover``: what came too late or went wrong, and the ways back."""

import json

import pytest
from orders.recovery.build_scenes import derived_sample
from schemas_cli import schema

from armorplan.cli import recover_command
from armorplan.cli.program import run
from armorplan.kernel.shipped import samples_folder

CLOSED = ("--done", "boss,keeper_ends", "--left", "tab_top,thread/keeper_loop")


@pytest.fixture
def derived_once(monkeypatch):
    """Samples are derived once for all tests; how a command derives them is tested elsewhere."""
    monkeypatch.setattr(
        recover_command, "derived_for", lambda chosen: derived_sample(str(chosen.pattern))
    )


def answered(capsys, *words: str) -> dict:
    assert run(["recover", *words, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    schema("recover").validate(found)
    return found["ways_back"]


def test_a_closed_cop_is_opened_by_two_rivets(capsys):
    found = answered(capsys, "elbow_cop", *CLOSED)
    assert {one["step"].rpartition("/")[2] for one in found["stuck"]} == {
        "tab_top",
        "tab_bottom",
        "keeper_loop",
    }
    best = found["ways"][0]
    assert best["title"] == "Drill out 2 rivets, and set them anew"
    assert best["proved"]
    opened = [move for move in best["moves"] if move["opens"]]
    assert all(3 <= move["minutes"] <= 5 for move in opened)
    assert all(any("eye protection" in c for c in move["cautions"]) for move in opened)
    again = next(m for m in best["moves"] if m["step"].endswith("/keeper_ends"))
    assert (
        "where the hole has worn, the next one up: Double-cap rivet, 9 mm cap" in again["detail"]
    )


@pytest.mark.usefixtures("derived_once")
def test_the_text_tells_the_best_step_by_step_and_the_others_in_short(capsys):
    assert run(["recover", "elbow_cop", *CLOSED]) == 0
    told = capsys.readouterr().out
    assert "3 steps come too late." in told
    assert "1. Drill out 2 rivets, and set them anew (best)" in told
    assert "! Wear eye protection" in told
    assert "Taken as done: 5" in told
    assert max(map(len, told.splitlines())) <= 100
    assert run(["recover", "elbow_cop", *CLOSED, "--all"]) == 0
    assert len(capsys.readouterr().out) > len(told)


@pytest.mark.usefixtures("derived_once")
def test_a_mistake_alone_takes_the_leather_as_cut(capsys):
    found = answered(capsys, "elbow_cop", "--mistake", "row-off:left_row:3 mm")
    assert found["mistakes"] == ["A row is out by 3 mm: 7 holes of left petal (left row)."]
    assert found["stuck"] == []
    assert {"live with it", "cut anew", "a hole made oval"} <= {w["means"] for w in found["ways"]}


@pytest.mark.usefixtures("derived_once")
def test_what_should_come_before_a_cover_is_taken_as_done_beside_a_mistake(capsys):
    words = ("arm_harness", "--mistake", "two-alike:cop.right", "--done", "boss_row.left")
    found = answered(capsys, *words)
    assert found["stuck"] == []
    assert any("back leather (left)" in title for title in found["taken"])


@pytest.mark.usefixtures("derived_once")
def test_names_as_they_are_shown_will_do(capsys):
    by_name = answered(capsys, "elbow_cop", "--mistake", "wrong-colour:Left petal:lighter")
    by_id = answered(capsys, "elbow_cop", "--mistake", "wrong-colour:petal_left:lighter")
    assert by_name == by_id
    assert by_name["mistakes"] == ["Left petal has the wrong colour."]


@pytest.mark.usefixtures("derived_once")
def test_a_step_ticked_early_with_nothing_else_done_is_answered(capsys):
    found = answered(capsys, "elbow_cop", "--done", "left_row_1", "--only")
    assert any("Dry-fit" in one["title"] for one in found["stuck"])
    assert found["ways"]


@pytest.mark.usefixtures("derived_once")
def test_where_nothing_is_barred_it_says_so(capsys):
    found = answered(capsys, "elbow_cop", "--done", "cut/petal_left")
    assert found["ways"] == []
    assert found["told"] == "Nothing is barred: go on as before."


@pytest.mark.usefixtures("derived_once")
def test_closed_too_soon_is_answered_with_what_was_left_out(capsys):
    words = ("elbow_cop", "--mistake", "closed:boss", "--left", "tab_top")
    found = answered(capsys, *words)
    assert any(one["step"].endswith("tab_top") for one in found["stuck"])
    assert found["ways"]


@pytest.mark.usefixtures("derived_once")
def test_a_hole_of_a_pair_goes_by_the_name_a_drawing_gives_it(capsys):
    hole = "upper_plate.left/upper_edge_1"
    plain = answered(capsys, "arm_harness", "--mistake", f"wrong-hole:{hole}:2:edge")
    drawn = answered(capsys, "arm_harness", "--mistake", f"wrong-hole:{hole}.left:2 mm:edge")
    assert plain == drawn
    assert plain["mistakes"][0].endswith("is out by 2 mm, towards the edge.")


@pytest.mark.usefixtures("derived_once")
def test_a_wrong_colour_is_on_a_dyed_part_and_cutting_it_anew_costs_the_dye_too(capsys):
    found = answered(capsys, "elbow_cop", "--mistake", "wrong-colour:petal_left:lighter")
    assert any("Alcohol dye" in title for title in found["taken"])
    anew = next(way for way in found["ways"] if way["means"] == "cut anew")
    assert anew["wait_min"] > 24 * 60
    assert found["ways"][0]["means"] == "a darker dye"


@pytest.mark.parametrize("given", ["lantern_week", "lantern_week/shop.toml"])
def test_a_shop_is_told_as_what_it_is(given, capsys):
    path = given if "/" not in given else str(samples_folder() / given)
    assert run(["recover", path, "--done", "boss"]) == 2
    said = capsys.readouterr().err
    assert said == f"'{path}' is a shop. This command takes one pattern, such as elbow_cop.\n"


def test_an_unknown_pattern_is_told_before_what_is_missing_beside_it(capsys):
    assert run(["recover", "nosuch"]) == 2
    assert "There is no folder nosuch" in capsys.readouterr().err


@pytest.mark.usefixtures("derived_once")
@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((), "Say what stands, or what went wrong"),
        (("--done", ",,"), "Say what stands, or what went wrong"),
        (("--mistake", "closed:left_row"), "Name what was left out with --left STEP. Before it"),
        (("--mistake", "wrong-hole:petal_left"), "is a part, not a hole. Write which hole of it"),
        (("--mistake", "row-off:boss"), "is a part, and in no row. Rows of this build: left_row"),
        (("--mistake", "wrong-hole:petal_left/h3"), "has no hole 'h3'. Its holes: petal_left/"),
        (("--mistake", "two-alike:boss"), "it has no hand"),
        (("--mistake", "row-off:left_row:3:up"), "no distance in mm, and none of edge, in, along"),
        (("--done", "zzzz"), "Nothing in this pattern is called 'zzzz'"),
        (("--done", "tab_top", "--left", "tab_top"), "is named as done and as left out"),
        (("--mistake", "melted:petal_left"), "'melted' is no kind of mistake. Kinds: closed,"),
        (("--mistake", "spoilt"), "does not say what is wrong"),
        (("--mistake", "spoilt:petal"), "No part of this build is called 'petal'"),
        (("--mistake", "row-off:left_row:far"), "'far' is no distance in mm"),
        (("--mistake", "row-off:left_row:-3"), "-3 mm is no distance from 0 to 500 mm"),
        (("--mistake", "row-off:left_row:nan"), "nan mm is no distance"),
        (("--mistake", "wrong-colour:boss:blue"), "say 'darker' or 'lighter'"),
    ],
)
def test_what_cannot_be_read_says_what_would_be_fine(words, told, capsys):
    assert run(["recover", "elbow_cop", *words]) == 2
    assert told in capsys.readouterr().err
