"""Progress by piece and by rule, in rows and in sentences that shame nobody."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from store.shelf_of_builds import RESULT

from armorplan.practice.grades import Grade, ReasonState
from armorplan.practice.memory import met
from armorplan.practice.progress import (
    NamedReason,
    PieceReasons,
    Standing,
    progress_of,
)
from armorplan.practice.progress_words import counts_sentence, due_sentence
from armorplan.practice.results import ReasonMet, reviews

START = datetime(2027, 3, 1, 9, tzinfo=UTC)
ZONE = ZoneInfo("Europe/Berlin")
CUT = NamedReason(key="cut", rule="cut", name="Cut before use")
DRY = NamedReason(key="dry", rule="dry", name="Dry before handling")
REACH = NamedReason(key="reach", rule="reach", name="A tool has to get there")
PIECES = (
    PieceReasons(piece="elbow", name="Elbow", reasons=(CUT, DRY)),
    PieceReasons(piece="collar", name="Collar", reasons=(DRY, REACH)),
)


def answered(day, piece, rule, grade, *, pattern=RESULT.pattern):
    right = grade is not Grade.MISSED
    return replace(
        RESULT,
        at=START + timedelta(days=day),
        pattern=pattern,
        piece=piece,
        right=right,
        grade=grade,
        reasons=(ReasonMet(rule=rule, name=f"{rule} as told", kept=right, decided=True),),
    )


def told(results, *, day=20):
    memories = {}
    for key, review in reviews(results):
        memories[key] = met(memories.get(key), review)
    standing = Standing(
        person="ib",
        name="Ib",
        results=results,
        memories=memories,
        at=START + timedelta(days=day),
        zone=ZONE,
    )
    return progress_of(standing, PIECES, pattern=RESULT.pattern, title="Lantern watch")


def row(progress, rule):
    return next(one for one in progress.reasons if one.rule == rule)


def test_who_has_answered_nothing_has_seen_nothing():
    progress = told(())
    assert (progress.drills, progress.last_at, progress.due) == (0, None, 0)
    assert progress.count(ReasonState.UNSEEN) == 3
    assert progress.sentences == (
        "Ib has answered no exercise yet.",
        "3 reasons of 'Lantern watch': none was seen yet.",
    )
    assert {one.sentence for one in progress.reasons} == {"Not seen yet."}


def test_a_reason_sits_alike_on_every_piece_and_is_counted_where_it_was_met():
    progress = told(
        [
            answered(0, "elbow", "dry", Grade.MISSED),
            answered(1, "collar", "dry", Grade.KNEW),
            answered(2, "collar", "dry", Grade.KNEW),
        ]
    )
    assert (row(progress, "dry").asked, row(progress, "dry").kept) == (3, 2)
    elbow, collar = progress.pieces
    here, there = (next(r for r in piece.reasons if r.rule == "dry") for piece in (elbow, collar))
    assert (here.asked, here.kept) == (1, 0)
    assert (there.asked, there.kept) == (2, 2)
    assert here.state is there.state is ReasonState.SHAKY
    assert here.last_at == there.last_at == START + timedelta(days=2)
    assert (elbow.count(ReasonState.SHAKY), elbow.count(ReasonState.UNSEEN)) == (1, 1)
    assert elbow.sentence == "2 reasons of this piece: 1 is shaky, 1 was not seen yet."


def test_rows_stand_shaky_first_then_unseen_then_mastered():
    progress = told(
        [
            answered(0, "elbow", "cut", Grade.COULD_TEACH),
            answered(8, "elbow", "cut", Grade.COULD_TEACH),
            answered(9, "elbow", "dry", Grade.KNEW),
        ]
    )
    assert [(one.rule, one.state) for one in progress.reasons] == [
        ("dry", ReasonState.SHAKY),
        ("reach", ReasonState.UNSEEN),
        ("cut", ReasonState.MASTERED),
    ]
    assert row(progress, "cut").sits > row(progress, "dry").sits > 0
    assert row(progress, "reach").sits is None


def test_what_is_due_is_told_with_its_day():
    progress = told([answered(0, "elbow", "cut", Grade.COULD_TEACH)], day=2)
    assert row(progress, "cut").sentence == (
        "Known, and shaky until it has lasted some weeks; last time, 1 Mar 2027: could teach it. "
        "Worth asking again from 9 Mar 2027."
    )
    assert progress.due == 0
    progress = told([answered(0, "elbow", "cut", Grade.COULD_TEACH)], day=9)
    assert row(progress, "cut").is_due
    assert row(progress, "cut").sentence.endswith("Worth asking again now.")
    assert progress.sentences == (
        "Ib has answered 1 exercise, the last one on 1 Mar 2027.",
        "3 reasons of 'Lantern watch': 1 is shaky, 2 were not seen yet.",
        "1 reason is worth asking again now.",
    )


@pytest.mark.parametrize("grade", [Grade.MISSED, Grade.NEEDED_REASON])
def test_what_was_not_known_is_shaky_and_no_more_is_said(grade):
    progress = told([answered(0, "elbow", "cut", grade)], day=0)
    assert row(progress, "cut").sentence.startswith(f"Shaky; last time, 1 Mar 2027: {grade.value}")


def test_what_comes_back_within_the_day_is_told_so():
    progress = told([answered(0, "elbow", "cut", Grade.KNEW)], day=0)
    assert row(progress, "cut").sentence == (
        "Known, and shaky until it has lasted some weeks; last time, 1 Mar 2027: knew it. "
        "Worth asking again later today."
    )


def test_days_are_those_of_the_shops_zone():
    late = [replace(answered(0, "elbow", "cut", Grade.KNEW), at=START.replace(hour=23, minute=30))]
    assert "2 Mar 2027" in row(told(late), "cut").sentence


def test_other_work_counts_for_reasons_but_for_no_piece_of_this_build():
    progress = told([answered(0, "elbow", "glue", Grade.KNEW, pattern="another")])
    assert row(progress, "glue").name == "glue as told"
    assert all(one.rule != "glue" for piece in progress.pieces for one in piece.reasons)
    assert progress.sentences[1].startswith("4 reasons of 'Lantern watch' and of other work:")


def test_what_a_wrong_answer_happens_to_keep_is_not_counted():
    kept = ReasonMet(rule="cut", name="Cut", kept=True)
    wrong = answered(0, "elbow", "dry", Grade.MISSED)
    progress = told([replace(wrong, reasons=(*wrong.reasons, kept))])
    assert row(progress, "cut").state is ReasonState.UNSEEN
    assert row(progress, "cut").asked == 0


@pytest.mark.parametrize(
    ("counts", "sentence"),
    [
        ({}, "No reason of this piece can be asked."),
        ({ReasonState.MASTERED: 1}, "1 reason of this piece: it sits."),
        ({ReasonState.MASTERED: 2}, "2 reasons of this piece: all sit."),
        (
            {ReasonState.MASTERED: 1, ReasonState.SHAKY: 2, ReasonState.UNSEEN: 1},
            "4 reasons of this piece: 1 sits, 2 are shaky, 1 was not seen yet.",
        ),
    ],
    ids=["none", "one", "all alike", "mixed"],
)
def test_counts_are_told_in_a_sentence(counts, sentence):
    assert counts_sentence(lambda state: counts.get(state, 0), "of this piece") == sentence


def test_what_is_due_is_told_in_a_sentence():
    assert due_sentence(0) == ""
    assert due_sentence(1) == "1 reason is worth asking again now."
    assert due_sentence(4) == "4 reasons are worth asking again now."
