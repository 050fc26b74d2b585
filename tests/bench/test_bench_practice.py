"""Five thousand answered exercises, years of them: read and reckoned once, then only what is new.

Reckoning has to take less than 0.3 s. Baseline: the same results passed over once to count their
grades, in the same run.
"""

from collections import Counter
from contextlib import closing
from dataclasses import replace
from datetime import timedelta

import pytest
from bench.stopwatch import busy_s
from clocks import FakeClock
from store.shelf_of_builds import RESULT

from armorplan.app.practice_record import PersonRecord
from armorplan.practice.grades import Grade
from armorplan.practice.results import ReasonMet, reviews
from armorplan.store.drill_file import DrillFile
from armorplan.store.workshop_file import WorkshopFile

pytestmark = pytest.mark.bench

RESULTS, RULES, ROUNDS = 5_000, 40, 5
RECKONED_S, AGAIN_S, TIMES = 0.3, 0.005, 60


def result(number):
    """One of three exercises misses its reasons; each meets three of forty."""
    right = number % 3 > 0
    grade = (Grade.MISSED, Grade.KNEW, Grade.COULD_TEACH)[number % 3]
    met = tuple(
        ReasonMet(
            rule=f"rule-{(3 * number + 7 * at) % RULES}", name="", kept=right, decided=not at
        )
        for at in range(3)
    )
    at = RESULT.at - timedelta(hours=4 * (RESULTS - number))
    return replace(RESULT, at=at, right=right, grade=grade, reasons=met)


@pytest.fixture(scope="module")
def drills(tmp_path_factory) -> DrillFile:
    path = tmp_path_factory.mktemp("practice") / "workshop.sqlite"
    with closing(WorkshopFile.open(path, FakeClock())) as workshop:
        workshop._db.execute("PRAGMA synchronous = OFF")
        for number in range(RESULTS):
            workshop.drills.keep(result(number))
        yield workshop.drills


def test_years_of_results_are_reckoned_once(drills):
    def read():
        record = PersonRecord("ib", drills, FakeClock(RESULT.at))
        record.read_new()
        return record

    def least_s(work):
        return min(busy_s(work) for _ in range(ROUNDS))

    record = read()
    count_s = least_s(lambda: Counter(review.grade for _, review in reviews(record.all)))
    reckoning_s = least_s(lambda: read().memories()) - least_s(read)
    record.memories()
    again_s = least_s(lambda: (record.read_new(), record.memories()))
    assert reckoning_s < RECKONED_S
    assert reckoning_s < TIMES * count_s
    assert again_s < AGAIN_S
