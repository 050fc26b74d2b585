"""What one solve may spend: threads and seconds, or work where the same has to come out again."""

import os

from armorplan.schedule.allowance import Allowance


def test_a_search_that_need_not_be_repeatable_uses_a_second_thread():
    effort = Allowance(10, repeatable=False).effort(2, seed=3)
    assert effort.workers == min(2, os.cpu_count())
    assert effort.work is None
    assert effort.seconds == 2


def test_a_repeatable_search_has_one_thread_and_counts_work():
    effort = Allowance(10, repeatable=True).effort(2, seed=3)
    assert effort.workers == 1
    assert effort.work < effort.seconds
