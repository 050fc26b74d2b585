"""How sure a row of what if is: no sentence claims what is not proved."""

import pytest

from armorplan.app.what_if_rows import against_words, sure_words
from armorplan.schedule.comparing import PlanSum
from armorplan.schedule.problem import Plan, Stage, Status
from armorplan.schedule.stages import FINISH, LATENESS

SUM = PlanSum(finish_min=600, lateness=0, changes=0, hands_min=(), jobs=())


@pytest.mark.parametrize(
    ("late", "finish", "words"),
    [
        ((90, 30), (600, 600), "Whether it can be less late is not known yet."),
        ((90, 90), (600, 600), "It cannot end sooner."),
        ((0, 0), (600, 480), "Whether it can end sooner is not known yet; at most 2 h."),
    ],
)
def test_a_finish_is_sure_only_where_lateness_is(late, finish, words):
    stages = tuple(
        Stage(name=name, value=value, bound=bound, status=Status.BEST)
        for name, (value, bound) in ((LATENESS, late), (FINISH, finish))
    )
    assert sure_words(Plan(status=Status.GOOD, stages=stages)) == words


def test_no_difference_is_claimed_only_where_nothing_better_can_be_found():
    assert against_words(SUM, SUM) == "No difference."
    assert against_words(SUM, SUM, is_open=True) == "No difference found so far."
