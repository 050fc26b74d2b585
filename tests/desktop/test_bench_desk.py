"""The verbs of the bench view on the invented build."""

import pytest

from armorplan.app.rows import BenchState
from armorplan.desktop.bench_desk import BOUNCE_S, FRESH_S, BenchDesk
from armorplan.desktop.bench_verbs import Verb


@pytest.fixture
def desk(bridge):
    made = BenchDesk(bridge)
    made.begin()
    return made


@pytest.fixture
def press(desk, clock):
    def pressed(verb):
        clock.advance(1 / 60)
        desk.act(verb)

    return pressed


def test_it_begins_with_the_chosen_step_or_where_work_begins(bridge, session):
    desk = BenchDesk(bridge)
    assert desk.card is None
    desk.begin()
    assert desk.card.step == session.ready_steps()[0]
    chosen = session.ready_steps()[3]
    desk.end()
    bridge.choose_steps((chosen,))
    desk.begin()
    assert desk.card.step == chosen


def test_it_does_not_begin_with_what_is_done(bridge, session):
    first = session.ready_steps()[0]
    bridge.done((first,))
    bridge.choose_steps((first,))
    desk = BenchDesk(bridge)
    desk.begin()
    assert desk.card.step == session.ready_steps()[0] != first


def test_done_ticks_and_goes_on_and_chooses_for_the_other_views(desk, press, bridge, session):
    first, second = session.ready_steps()[:2]
    press(Verb.DONE)
    assert session.states()[first] is BenchState.DONE
    assert desk.card.step == second
    assert bridge.selection.steps == (second,)


def test_begin_starts_pauses_and_goes_on(desk, press, session):
    step = desk.card.step
    for state in (BenchState.RUNNING, BenchState.PAUSED, BenchState.RUNNING):
        press(Verb.BEGIN)
        assert session.states()[step] is state
        assert desk.card.state is state


def test_taking_back_comes_back_to_the_step(desk, press, session):
    first = desk.card.step
    press(Verb.DONE)
    assert desk.fresh_s == pytest.approx(FRESH_S)
    press(Verb.TAKE_BACK)
    assert desk.card.step == first
    assert session.states()[first] is BenchState.READY
    assert desk.fresh_s == 0


def test_taking_back_stands_out_for_ten_seconds_and_works_after_it(desk, press, session, clock):
    first = desk.card.step
    press(Verb.DONE)
    clock.advance(9.9 / 60)
    assert 0 < desk.fresh_s < 0.2
    clock.advance(5)
    assert desk.fresh_s == 0
    press(Verb.TAKE_BACK)
    assert session.states()[first] is BenchState.READY


def test_a_bouncing_pedal_ticks_one_step(desk, clock, session):
    second = session.ready_steps()[1]
    desk.act(Verb.DONE)
    clock.advance(BOUNCE_S / 2 / 60)
    desk.act(Verb.DONE)
    assert desk.card.step == second
    assert session.states()[second] is BenchState.READY
    clock.advance(BOUNCE_S / 60)
    desk.act(Verb.DONE)
    assert session.states()[second] is BenchState.DONE


def test_other_goes_round_all_that_is_ready(desk, press, session):
    ready = session.ready_steps()
    seen = [desk.card.step]
    for _ in ready:
        press(Verb.OTHER)
        seen.append(desk.card.step)
    assert tuple(seen) == (*ready, ready[0])
    desk.place.other(-1)
    assert desk.card.step == ready[-1]


def test_amiss_names_the_step(desk, press, qtbot):
    with qtbot.waitSignal(desk.amiss_asked) as told:
        press(Verb.AMISS)
    assert told.args == [desk.card.step]


def test_nothing_to_take_back_is_said(desk, press, qtbot, bridge):
    with qtbot.waitSignal(bridge.said) as told:
        press(Verb.TAKE_BACK)
    assert "nothing" in told.args[0]


def test_with_all_done_there_is_no_step(desk, bridge, session):
    bridge.done(tuple(s.id for s in session.steps))
    desk.act(Verb.DONE)
    desk.begin()
    assert desk.card is None
    assert desk.place.rest_text()
    desk.act(Verb.BEGIN)  # nothing to begin, and no fault


def test_it_follows_what_another_view_chooses_while_in_sight(desk, bridge, session):
    wanted = session.steps[5].id
    bridge.choose_steps((wanted,))
    assert desk.card.step == wanted
    desk.end()
    bridge.choose_steps((session.steps[0].id,))
    assert desk.card.step == wanted
