"""Ways back in words: columns, steps in order, how far they are to be trusted."""

from dataclasses import replace

from desktop.fake_way_back import DRILL, FOUND, LEAVE, REMAKE, STUCK

from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.way_back_words import (
    found_html,
    stuck_words,
    surely_words,
    title_words,
    way_html,
)


def test_names_out_of_patterns_are_escaped_in_both_themes():
    way = replace(DRILL, title="Drill <b>", moves=DRILL.moves)
    for colours in (LIGHT, DARK):
        assert "Drill &lt;b&gt;" in way_html(way, colours)
        assert "&lt;covers&gt;" in found_html(FOUND, colours)


def test_what_is_drilled_in_one_go_is_one_line_and_its_caution_is_said_once():
    drilled = tuple(
        replace(
            DRILL.moves[0],
            id=f"d{n}",
            title=f"Drill out the rivet: upper row, {n} of 9",
            group="upper_row",
            cautions=("Wear eye protection.",),
        )
        for n in range(1, 4)
    )
    told = way_html(replace(DRILL, moves=(*drilled, replace(drilled[0], id="x", group=""))), LIGHT)
    assert "<b>Drill out 3 rivets: upper row</b>" in told
    assert told.count("<li>") == 2
    assert told.count("Wear eye protection.") == 1


def test_how_far_an_answer_is_to_be_trusted_is_said():
    assert surely_words(DRILL).endswith("Proved: nothing cheaper rests on the same means.")
    assert "At most 5 % dearer" in surely_words(LEAVE)
    assert "only where nothing else will do" in surely_words(REMAKE)


def test_what_is_only_harder_is_counted_apart():
    harder = replace(STUCK, harder=True)
    assert stuck_words((STUCK, harder, harder)) == (
        "1 step cannot be done, 2 steps are harder to do as things stand."
    )
    assert stuck_words((STUCK, STUCK)) == "2 steps cannot be done as things stand."


def test_what_shares_work_is_not_called_proved():
    shared = replace(DRILL, proved=False, gap_pct=0.0)
    assert "work that its moves share" in surely_words(shared)


def test_the_best_way_has_a_tick_and_no_way_says_its_means_twice():
    assert title_words(DRILL) == "\N{CHECK MARK} Drill out the boss"
    assert title_words(LEAVE) == "Live with it"
