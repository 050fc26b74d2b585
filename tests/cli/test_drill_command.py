"""``armorplan drill``: an exercise, its answer judged, somebody's practice, and what cannot be read."""

import shlex

import pytest
from cli.drill_said import answered, right_letters, said

from armorplan.app.drills.registry import KINDS
from armorplan.cli.program import run
from armorplan.cli.workshop_turn import turn_of_a_window
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.shipped import samples_folder
from armorplan.store.workshop_file import WorkshopFile

SHOP = str(samples_folder() / "lantern_week" / "shop.toml")
BACK = ("elbow_cop", "--kind", "way-back", "--seed", "2", "--focus", "thread-before-closed")
KINDLY = [kind.value for kind in KINDS]


@pytest.mark.parametrize("kind", KINDLY)
def test_each_kind_is_asked_answered_and_judged(kind, capsys):
    words = ("elbow_cop", "--kind", kind, "--seed", "3")
    asked = answered(capsys, *words)
    assert asked["judged"] is None
    assert asked["exercise"]["hint"] == ""
    assert asked["exercise"]["rules"] == []
    _holds_all(asked, said(capsys, *words))
    letters = right_letters(capsys, *words)
    found = answered(capsys, *words, "--answer", *letters, "--solution")["judged"]
    assert found["right"]
    assert found["because"]
    assert found["distance"] == 0
    assert found["credit"] == 1
    assert all(met["kept"] for met in found["met"])


def _holds_all(asked, told):
    """The lines hold the question, every choice and what to type, and are not too wide."""
    flat = " ".join(told.split())
    assert " ".join(asked["exercise"]["question"].split()) in flat
    for choice in asked["exercise"]["choices"]:
        assert f"{choice['letter']} {' '.join(choice['title'].split())}" in flat
    assert asked["answer_with"] in told
    lines = [line for line in told.splitlines() if "armorplan drill" not in line]
    assert max(map(len, lines)) <= 100


def test_a_wrong_order_is_told_the_first_break_the_fewest_moves_and_kendall(capsys):
    words = ("elbow_cop", "--kind", "order", "--seed", "3")
    wrong = right_letters(capsys, *words)[::-1]
    found = answered(capsys, *words, "--answer", *wrong, code=1)["judged"]
    told = said(capsys, *words, "--answer", " ".join(wrong), code=1)
    first = found["because"][0]
    flat = " ".join(told.split())
    assert " ".join(first["text"].split()) in flat
    assert f"Source: {first['source']}" in told
    assert f"The nearest right order: {found['nearest_letters']}" in told
    assert f"For it {found['distance']} " in told
    assert f"{found['kendall']} pair" in told
    assert 0 <= found["credit"] < 1
    # The other way round than the nearest, told by hand: each pair counted once.
    near = found["nearest_letters"].split()
    place = {letter: at for at, letter in enumerate(wrong)}
    turned = sum(place[a] > place[b] for at, a in enumerate(near) for b in near[at + 1 :])
    assert found["kendall"] == turned


def test_a_way_that_leads_nowhere_exits_one_and_says_what_bars_it(capsys):
    asked = answered(capsys, *BACK)
    wrong = next(
        c["letter"] for c in asked["exercise"]["choices"] if "nothing opened" in c["title"]
    )
    told = said(capsys, *BACK, "--answer", wrong, code=1)
    assert "there is no end to pass" in " ".join(told.split())
    assert "Drill out 1 rivet, and set it anew" in told


def test_the_hint_is_shown_where_it_is_asked_for_and_goes_into_what_to_type(capsys):
    told = said(capsys, *BACK, "--hint")
    assert "Hint: Keeper has to be through left petal" in told
    assert "--hint" in told.splitlines()[-1]
    assert "Hint" not in said(capsys, *BACK)


def test_behind_a_right_answer_the_reason_is_asked_and_judged(capsys):
    words = ("elbow_cop", "--kind", "order", "--seed", "3")
    letters = right_letters(capsys, *words)
    found = answered(capsys, *words, "--answer", *letters)
    assert found["judged"]["because"] == found["exercise"]["rules"] == []
    asked = found["why"]
    assert asked["right"] == ""
    pending = said(capsys, *words, "--answer", *letters)
    assert pending.startswith("Right. And why?")
    assert "Source:" not in pending
    worth = {}
    for choice in asked["choices"]:
        found = answered(capsys, *words, "--answer", *letters, "--why", choice["letter"])["why"]
        assert found["chosen"] == choice["id"]
        worth[choice["letter"]] = found["chosen"] == found["right"]
    assert sum(worth.values()) == 1
    told = {one: said(capsys, *words, "--answer", *letters, "--why", one) for one in worth}
    assert all(("That is the reason." in told[one]) is worth[one] for one in worth)


def test_without_a_kind_the_seed_chooses_one_and_chooses_it_again(capsys):
    found = [answered(capsys, "elbow_cop", "--seed", str(seed)) for seed in range(len(KINDS))]
    kinds = [one["exercise"]["asked"]["kind"] for one in found]
    assert len(set(kinds)) == len(KINDS)
    assert answered(capsys, "elbow_cop", "--seed", "0") == found[0]


def test_levels_and_kinds_are_named_by_number_or_words(capsys):
    by_number = said(capsys, "elbow_cop", "--kind", "way-back", "--level", "1")
    assert by_number == said(capsys, "elbow_cop", "--kind", "way back", "--level", "one strap")
    assert "(one strap)" in by_number


def test_a_part_without_such_an_exercise_says_why_and_what_else_to_ask(capsys):
    assert run(["drill", "elbow_cop", "--kind", "first", "--part", "keeper"]) == 2
    told = capsys.readouterr().err
    assert "holds no exercise 'Which joint first' about 'keeper': none of its joints has" in told
    others = told.rpartition(": ")[2].strip().rstrip(".").split(", ")
    assert "first" not in others
    for kind in others:
        assert "(a row)" in said(capsys, "elbow_cop", "--kind", kind, "--part", "keeper")


# Somebody's practice.


@pytest.fixture
def path(tmp_path):
    return tmp_path / "workshop.sqlite"


def test_a_first_try_is_kept_and_only_the_first(path, capsys):
    who = ("--who", "Maud", "--workshop", str(path))
    asked = answered(capsys, "elbow_cop", *who)
    again = answered(capsys, "elbow_cop", *who)
    assert asked["exercise"] == again["exercise"]
    typed = shlex.split(asked["answer_with"])[
        2 : shlex.split(asked["answer_with"]).index("--answer")
    ]
    letters = right_letters(capsys, *_without(typed, "--who", "--workshop"))
    wrong = letters[::-1] if len(letters) > 1 else [_other(asked, letters[0])]
    found = answered(capsys, *typed, "--answer", *wrong, code=1)
    assert found["kept"] == "Kept for Maud: missed."
    second = answered(capsys, *typed, "--answer", *letters)
    assert second["judged"]["right"]
    assert "first try is kept" in second["kept"]
    progress = answered(capsys, "elbow_cop", *who, "--progress")["progress"]
    assert progress["drills"] == 1
    missed = {one["rule"] for one in progress["reasons"] if one["last"] == "missed"}
    assert missed
    assert missed <= {met["rule"] for met in found["judged"]["met"] if not met["kept"]}
    told = said(capsys, "elbow_cop", *who, "--progress")
    assert "Maud has answered 1 exercise" in told
    assert "shaky:" in told
    coming = answered(capsys, "elbow_cop", *who)
    assert coming["exercise"] != asked["exercise"]


def _without(words, *options):
    kept = list(words)
    for option in options:
        at = kept.index(option)
        del kept[at : at + 2]
    return kept


def _other(asked, letter):
    return next(c["letter"] for c in asked["exercise"]["choices"] if c["letter"] != letter)


@pytest.mark.parametrize(
    ("more", "grade"), [((), "knew it"), (("--hint",), "needed the reason")], ids=["plain", "hint"]
)
def test_how_it_was_known_is_kept(more, grade, path, capsys):
    letters = right_letters(capsys, *BACK)
    who = ("--who", "Maud", "--workshop", str(path))
    found = answered(capsys, *BACK, *who, *more, "--answer", *letters)
    assert found["kept"] == f"Kept for Maud: {grade}."


def test_a_reason_chosen_rightly_afterwards_is_kept_as_could_teach_it(path, capsys):
    words = ("elbow_cop", "--kind", "order", "--seed", "3")
    letters = right_letters(capsys, *words)
    who = (*words, "--who", "Maud", "--workshop", str(path), "--answer", *letters)
    assert answered(capsys, *who)["kept"].endswith("knew it.")
    worth = [answered(capsys, *who, "--why", one) for one in "ABCD"[: _reasons(capsys, who)]]
    right = [one for one in worth if one["why"]["chosen"] == one["why"]["right"]]
    assert [one["kept"] for one in right] == ["Kept for Maud: could teach it."]
    assert all("first try is kept" in one["kept"] for one in worth if one not in right)


def _reasons(capsys, words):
    return len(answered(capsys, *words)["why"]["choices"])


def test_a_shop_says_who_there_is(path, capsys):
    who = ("--who", "apprentice", "--workshop", str(path))
    found = answered(capsys, "elbow_cop", "--shop", SHOP, *who)
    assert found["person"] == "Apprentice"
    assert run(["drill", "elbow_cop", "--shop", SHOP, "--who", "Nobody"]) == 2
    assert "Its people: " in capsys.readouterr().err


# What cannot be read.


def test_nobody_is_no_person(path, capsys):
    assert run(["drill", "elbow_cop", "--who", "  ", "--workshop", str(path)]) == 2
    assert "--who names nobody" in capsys.readouterr().err
    assert not path.exists()


def test_a_shop_is_no_pattern(capsys):
    assert run(["drill", "lantern_week"]) == 2
    assert "is a shop. This command takes one pattern" in capsys.readouterr().err


def test_beside_a_window_that_writes_it_is_judged_and_said_not_to_be_kept(path, capsys):
    letters = right_letters(capsys, *BACK)
    clock = SystemClock()
    WorkshopFile.open(path, clock).close()
    who = ("--who", "Maud", "--workshop", str(path))
    with turn_of_a_window(path, clock, write_here=False):
        found = answered(capsys, *BACK, *who, "--answer", *letters)
        assert found["judged"]["right"]
        assert "Not recorded" in found["kept"]
        assert answered(capsys, "elbow_cop", *who, "--progress")["progress"]["drills"] == 0


def test_a_file_that_is_no_workshop_is_told(path, capsys):
    path.write_text("lanterns", encoding="utf-8")
    assert run(["drill", "elbow_cop", "--who", "Maud", "--workshop", str(path)]) == 2
    found = capsys.readouterr()
    assert str(path) in found.err
    assert "Traceback" not in found.err
