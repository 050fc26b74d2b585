"""A hundred live timers at one tick a second have to cost less than a hundredth of a core: 10 ms.

Half of them dry, half are set by hand, beside a plan in a room whose nights are cold. Baseline:
one pass over the same rows that only asks for their instants, in the same run.
"""

from dataclasses import replace

import pytest
from app.timer_scene import PLATE, Workshop
from bench.stopwatch import best_s
from store.shelf_of_builds import ELBOW

from armorplan.app.derived import derive_build
from armorplan.app.ringing import next_bell, ringing, sounding
from armorplan.app.session import Session
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part, sketch_treatment
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.planning import first_plan
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.shop import one_maker

pytestmark = pytest.mark.bench

HALF = 50
ROUNDS = 30
TICK_S = 0.010
REFRESH_S = 0.050


@pytest.fixture(scope="module")
def live(tmp_path_factory):
    """A session with a hundred timers; those of another build are among them."""
    shop = Workshop(tmp_path_factory.mktemp("live") / "workshop.sqlite")
    parts = [f"lame_{number}" for number in range(HALF)]
    pattern = sketch(
        *map(sketch_part, parts),
        treatments=tuple(replace(sketch_treatment("oil", p), id=f"oil_{p}") for p in parts),
    )
    nights = tuple(Climate(temperature_c=18.0 if 7 < hour < 20 else 9.0) for hour in range(24))
    maker = replace(one_maker(), room=Room(by_hour=nights))
    derived = derive_build(pattern, sketch_shelf(), maker, build="many-1")
    file = shop.file()
    record = replace(ELBOW, id="many-1", name="Many")
    file.add_build(record)
    session = Session(record, derived, file, shop.clock, shop.new_id)
    session.take_plan(CheckedPlan(problem=(p := session.problem()), plan=first_plan(p)))
    plate = shop.window(PLATE)
    plate.do(StepKind.CASE)
    session.done(tuple(step.id for step in derived.work.of_kind(StepKind.OIL)))
    for number in range(HALF - 1):
        session.timing.set_timer(300 + number, f"timer {number}")
    session.read_along()
    assert len(session.timing.rows) == 2 * HALF
    return shop, session


def test_a_tick_in_which_nothing_changes(benchmark, live):
    """What the window asks each second: two clocks, the file's mark, what rings and comes next."""
    shop, session = live

    def tick():
        shop.clock.advance(0.001)
        assert not session.read_along()
        rows, answers, now = session.timing.rows, session.timing.answers, shop.clock.now()
        bells = ringing(rows, answers, now)
        sounding(bells, since_at=now, now_at=now)
        return [next_bell(row, answers, now) for row in rows]

    benchmark(tick)
    one_pass = best_s(lambda: [row.due_at for row in session.timing.rows], ROUNDS)
    taken = best_s(tick, ROUNDS)
    benchmark.extra_info["ratio_to_one_pass"] = round(taken / one_pass, 1)
    assert taken < TICK_S


def test_a_refresh_after_something_changed(benchmark, live):
    """All timers read anew and settled."""
    _, session = live

    def refresh():
        session.timing.forget()
        return session.timing.rows

    benchmark(refresh)
    assert best_s(refresh, ROUNDS) < REFRESH_S


def test_a_whole_change_with_all_states(benchmark, live):
    """What a press, or a moment that passed, costs before anything is painted."""
    _, session = live

    def change():
        session.change()
        return session.timing.rows

    benchmark(change)
    assert best_s(change, ROUNDS) < 2 * REFRESH_S
