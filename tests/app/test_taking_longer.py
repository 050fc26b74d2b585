"""Work under way that takes longer: said by a press, planned from then on, taken back like any."""

from datetime import timedelta

import pytest

from armorplan.app.plan_history import history_of
from armorplan.app.taking_longer import MORE_MIN, NOTHING_BEGUN
from armorplan.steps.model import StepKind


@pytest.fixture
def window(shop):
    opened = shop.window()
    yield opened
    opened.file.close()


@pytest.fixture
def cut(window):
    (step,) = window.derived.work.of_kind(StepKind.CUT)
    return step


def planned_end(window, step):
    moment = window.session.moment()
    return history_of(moment, window.clock.now()).ready.get(step.id)


def test_each_press_adds_a_quarter_of_an_hour_to_timer_and_plan(window, cut):
    session, began_at = window.session, window.clock.now()
    session.start((cut.id,))
    assert planned_end(window, cut) is None
    for times in (1, 2):
        said = session.longer((cut.id,))
        assert said.startswith("Takes longer: ")
        whole = timedelta(minutes=cut.minutes + times * MORE_MIN)
        assert planned_end(window, cut) == began_at + whole
        (timer,) = (row for row in session.timers() if row.step == cut.id)
        assert timer.due_at == began_at + whole
    session.undo()
    assert planned_end(window, cut) == began_at + timedelta(minutes=cut.minutes + MORE_MIN)


def test_what_ran_over_already_takes_a_quarter_of_an_hour_from_now(window, cut):
    session = window.session
    session.start((cut.id,))
    window.clock.advance(60 * (cut.minutes + 30))
    session.longer((cut.id,))
    assert planned_end(window, cut) == window.clock.now() + timedelta(minutes=MORE_MIN)


def test_begun_anew_it_takes_what_was_planned(window, cut):
    session = window.session
    session.start((cut.id,))
    session.longer((cut.id,))
    session.done((cut.id,))
    session.start((cut.id,))
    assert window.session.moment().ledger.record(cut.id).told_min is None


def test_what_nobody_began_takes_no_longer(window, cut):
    assert window.session.longer((cut.id,)) == NOTHING_BEGUN
    assert window.session.longer(("nowhere",)) == NOTHING_BEGUN
    assert window.session.entries() == ()
