"""Practice in words: how far an answer is from right, and what is told of it without shaming."""

from dataclasses import replace

import pytest
from desktop.fake_practice import CLOSE, DAY, ONE, ORDER, OWN, REASON, RIGHT, STRAP, TRIM, worth

from armorplan.desktop.colours import LIGHT
from armorplan.desktop.practice_html import Told, told_html, told_words
from armorplan.desktop.practice_words import grade_words, how_far, kind_words, level_words
from armorplan.practice.drill import AnswerForm, DrillKind, Judged, Level
from armorplan.practice.grades import Grade

SOME = replace(ORDER, form=AnswerForm.SOME)
WRONG = Judged(right=False, sentence="Not so.")


@pytest.mark.parametrize(
    ("drill", "given", "judged", "words"),
    [
        (ORDER, (CLOSE, STRAP, TRIM), {"nearest": RIGHT, "moved": (STRAP,)},
         "One step is to be moved: 'Rivet the strap'."),
        (ORDER, (TRIM, CLOSE, STRAP), {"nearest": RIGHT, "moved": (STRAP, TRIM)},
         "2 steps are to be moved: 'Rivet the strap'; 'Sew on the trim'."),
        (ORDER, (TRIM, CLOSE, STRAP), {"nearest": RIGHT, "moved": (STRAP, TRIM), "exact": False},
         "2 steps at the most are to be moved: 'Rivet the strap'; 'Sew on the trim'."),
        (SOME, (CLOSE,), {"nearest": (STRAP,)},
         "One is missing: 'Rivet the strap'. One cannot be: 'Close the boss'."),
        (SOME, (STRAP, CLOSE, TRIM), {"nearest": (STRAP,)},
         "These cannot be: 'Close the boss'; 'Sew on the trim'."),
        (ONE, ("j2",), {"nearest": ("j1",)}, "Right is: 'Left 1'."),
        (DAY, ("s0=09:00", "s1=10:00"), {"nearest": ("s0=09:15", "s1=10:00")},
         "One time is to be changed: 'Step 0' at 09:15."),
        (DAY, ("s0=09:00", "s1=10:00"), {"nearest": ("s0=09:15", "s1=10:30")},
         "2 times are to be changed: 'Step 0' at 09:15; 'Step 1' at 10:30."),
    ],
    ids=["one-move", "two-moves", "not-exact", "one-each", "too-many", "one", "time", "times"],
)  # fmt: skip
def test_how_far_from_right_names_what_changes(drill, given, judged, words):
    assert how_far(drill, given, replace(WRONG, **judged)) == words


def test_how_far_is_not_said_twice_nor_of_a_right_answer():
    said = replace(WRONG, sentence="'Rivet the strap' goes first.", nearest=RIGHT, moved=(STRAP,))
    assert how_far(ORDER, (CLOSE, STRAP, TRIM), said) == ""
    assert how_far(ORDER, RIGHT, worth(RIGHT)) == ""


def told(answer, **more):
    return Told(drill=ORDER, answer=answer, judged=worth(answer), **more)


def test_what_is_told_shames_nobody_and_shows_no_number_for_it():
    wrong = told((CLOSE, STRAP, TRIM), grade=Grade.MISSED)
    html = told_html(wrong, LIGHT)
    assert "Not yet" in html
    assert all(word not in html.lower() for word in ("wrong", "fail", "score", "%", "✖", "✗"))
    assert told_words(wrong).endswith("This reason comes back soon.")


def test_texts_out_of_patterns_are_never_read_as_markup():
    html = told_html(told((CLOSE, STRAP, TRIM)), LIGHT)
    assert "&lt;closed&gt;" in html
    assert "<closed>" not in html


def test_only_rules_of_the_trade_are_linked():
    html = told_html(told((CLOSE, STRAP, TRIM)), LIGHT)
    assert f'href="rule:{REASON.rule}"' in html
    assert f'href="rule:{OWN.rule}"' not in html
    assert OWN.name.replace("'", "&#x27;") in html


def test_a_sentence_that_begins_with_the_word_does_not_say_it_twice():
    judged = replace(worth(RIGHT), sentence="Right: each step has what it needs.")
    html = told_html(replace(told(RIGHT), judged=judged), LIGHT)
    assert html.count("Right") == 1


def test_cautions_of_the_work_are_told_whole_and_once_after_the_answer():
    html = told_html(told((CLOSE, STRAP, TRIM)), LIGHT)
    assert html.count("Wear eye protection.") == 1
    assert "Wear eye protection." not in told_html(told(RIGHT, with_reasons=False), LIGHT)
    bare = replace(told((CLOSE, STRAP, TRIM)), drill=replace(ORDER, cautions=()))
    assert "Caution: Wear eye protection." in told_html(bare, LIGHT)


def test_a_reason_that_the_judgement_gives_word_for_word_is_not_told_twice():
    one = told((CLOSE, STRAP, TRIM))
    said = replace(one, judged=replace(one.judged, sentence=f"It is too late. {REASON.text}"))
    html = told_html(said, LIGHT)
    assert html.count("no anvil reaches the strap") == 1
    assert "Numbers: 41.5 mm, 38 mm." in html


@pytest.mark.parametrize(
    ("sentence", "begun"),
    [
        ("Not yet: the boss is wet.", "Not yet</span>: the boss is wet."),
        ("Not that one: it has all it needs.", "Not</span> that one: it has all it needs."),
        ("The boss is wet.", "Not yet</span>: The boss is wet."),
    ],
    ids=["begins so", "says not", "says why"],
)
def test_not_is_said_once(sentence, begun):
    one = told((CLOSE, STRAP, TRIM))
    html = told_html(replace(one, judged=replace(one.judged, sentence=sentence)), LIGHT)
    assert begun in html


def test_every_kind_level_and_grade_has_words_of_its_own():
    for values, words in ((DrillKind, kind_words), (Level, level_words), (Grade, grade_words)):
        assert len({words(one) for one in values}) == len(tuple(values))
