"""Who is away: said once, counted in every plan from then on, in other windows too."""

from datetime import timedelta

import pytest

from armorplan.app.entries import NOT_RECORDED

HOURS_8 = timedelta(hours=8)


@pytest.fixture
def windows(shop):
    opened = (shop.window(), shop.window())
    yield opened
    for window in opened:
        window.file.close()


def hands_start_at(window):
    """When the first step by hand may begin."""
    problem = window.session.problem()
    (worker,) = problem.workers
    first_min = worker.windows[0][0]
    return problem.origin_at + timedelta(minutes=first_min)


def test_nobody_is_away_until_it_is_said(windows):
    (row,) = windows[0].session.absences.rows()
    assert (row.person, row.until_at) == ("maker", None)


def test_hours_of_who_is_away_are_gone_from_the_plan_of_every_window(windows):
    here, other = windows
    until_at = here.clock.now() + HOURS_8
    mark = here.session.problem_mark()
    said = here.session.absences.away("maker", None, until_at)
    assert "is away until" in said
    assert here.session.problem_mark() is not mark
    assert hands_start_at(here) >= until_at
    assert other.session.read_along()
    assert hands_start_at(other) >= until_at
    assert other.session.absences.rows()[0].until_at == until_at


def test_who_is_there_again_works_again(windows):
    here, _ = windows
    before_at = hands_start_at(here)
    here.session.absences.away("maker", None, here.clock.now() + HOURS_8)
    assert "there again" in here.session.absences.back("maker")
    assert hands_start_at(here) == before_at
    assert here.session.absences.rows()[0].until_at is None


def test_a_window_opened_later_knows(shop):
    first = shop.window()
    until_at = first.clock.now() + HOURS_8
    first.session.absences.away("maker", None, until_at)
    first.file.close()
    later = shop.window()
    later.session.read_along()
    assert hands_start_at(later) >= until_at
    later.file.close()


def test_nobody_of_another_shop_is_away(windows):
    said = windows[0].session.absences.away("stranger", None, windows[0].clock.now() + HOURS_8)
    assert said.startswith(NOT_RECORDED)
    assert "stranger" in said
