"""``armorplan recover``: what came too late or went wrong, and the ways back."""

import json

import pytest
from orders.recovery.build_scenes import derived_sample
from schemas_cli import schema

from armorplan.cli import recover_command
from armorplan.cli.program import run

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
    words = ("arm_harness", "--mistake", "two-lefts:cop.right", "--done", "boss_row.left")
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
@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((), "Say what stands, or what went wrong"),
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
