"""What somebody answered is read and told alike, whenever a window was opened."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from clocks import FakeClock

from armorplan.app.practice_record import Records
from armorplan.practice.drill import Asked, DrillKind
from armorplan.practice.grades import Grade
from armorplan.practice.results import ReasonMet, Result

START = datetime(2027, 3, 1, 9, tzinfo=UTC)
DAY = timedelta(days=1)
KNEW = Result(
    at=START,
    person="ib",
    pattern="p",
    pattern_name="Cop",
    piece="cop",
    asked=Asked(kind=DrillKind.ORDER, seed=1),
    answer=("x",),
    right=True,
    grade=Grade.KNEW,
    seconds=9.0,
    reasons=(ReasonMet(rule="cut-before-use", name="Cut first", kept=True, decided=True),),
)


class Shelf:
    """Holds results of one person."""

    def __init__(self):
        self.rows = ()

    def keep(self, *results):
        for one in results:
            self.rows += (replace(one, seq=len(self.rows) + 1),)

    def since(self, _person, seq):
        return self.rows[seq:]


def test_a_window_that_stayed_open_tells_the_same_as_one_that_is_opened_now():
    """One result says it was kept in three days: until then it counts as of now, everywhere."""
    shelf = Shelf()
    shelf.keep(KNEW, replace(KNEW, at=START + 3 * DAY), replace(KNEW, at=START + DAY))
    clock = FakeClock(START + DAY)
    stayed = Records(shelf, clock)
    for day in range(1, 7):
        clock.set_now(START + day * DAY)
        assert stayed.of("ib") == Records(shelf, clock).of("ib")
        if day == 4:
            shelf.keep(replace(KNEW, at=START + 4 * DAY))
    assert stayed.of("ib")[1]["cut-before-use"].later == 2
