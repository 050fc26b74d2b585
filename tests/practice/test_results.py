"""What an answer says of each reason it met."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from store.shelf_of_builds import RESULT

from armorplan.practice.grades import Grade, Review
from armorplan.practice.results import ReasonMet, grade_of_reason, reason_key, reviews

KEPT = ReasonMet(rule="dry-before-handling", name="Dry before handling", kept=True)
DECIDED = replace(KEPT, decided=True)
BROKEN = replace(KEPT, kept=False)


@pytest.mark.parametrize(
    ("grade", "reason", "told"),
    [
        (Grade.MISSED, BROKEN, Grade.MISSED),
        (Grade.MISSED, KEPT, None),
        (Grade.NEEDED_REASON, KEPT, Grade.NEEDED_REASON),
        (Grade.KNEW, KEPT, Grade.KNEW),
        (Grade.COULD_TEACH, DECIDED, Grade.COULD_TEACH),
        (Grade.COULD_TEACH, KEPT, Grade.KNEW),
    ],
    ids=[
        "broken",
        "kept by a wrong answer",
        "with the hint",
        "known",
        "taught",
        "kept beside the one that is taught",
    ],
)
def test_a_reason_is_known_as_the_answer_shows_it(grade, reason, told):
    result = replace(RESULT, right=grade is not Grade.MISSED, grade=grade, reasons=(reason,))
    assert grade_of_reason(result, reason) is told


def test_results_are_told_as_reviews_in_their_order():
    later = replace(
        RESULT,
        at=datetime(2027, 3, 2, 9, tzinfo=UTC),
        right=True,
        grade=Grade.COULD_TEACH,
        reasons=(DECIDED,),
    )
    assert list(reviews((RESULT, later))) == [
        ("reach-before-closed", Review(at=RESULT.at, grade=Grade.MISSED)),
        ("dry-before-handling", Review(at=later.at, grade=Grade.COULD_TEACH)),
    ]


def test_the_makers_own_relations_of_two_patterns_are_two_reasons():
    assert reason_key("dry-before-handling", "one") == reason_key("dry-before-handling", "other")
    assert reason_key("own:boss", "one") != reason_key("own:boss", "other")
