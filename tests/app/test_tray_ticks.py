"""One key on a tray ticks what can have been done in one go, and says what it left open."""

import pytest

from armorplan.app.rows import BenchState
from armorplan.steps.model import StepKind


@pytest.fixture
def coats(bench):
    """A bench before the first coat of dye, and the two coats of that tray."""
    bench.do_until(StepKind.DYE)
    first, second = bench.steps(StepKind.DYE)
    assert first.tray == second.tray
    return first, second


def tray(steps):
    return tuple(step.id for step in steps)


def test_a_tray_of_two_coats_ticks_the_first_and_says_what_the_second_waits_for(bench, coats):
    first, second = coats
    dry = bench.session.derived.work.drying_of(first.id)
    said = bench.session.done(tray(coats))
    assert bench.state(first.id) is BenchState.DONE
    assert bench.state(dry.id) is BenchState.DRYING
    assert bench.state(second.id) is BenchState.WAITING
    assert f"Left open: {second.title}; first: {dry.title}." in said


def test_the_same_key_again_puts_no_coat_on_a_wet_one(bench, coats):
    bench.session.done(tray(coats))
    assert bench.session.done(tray(coats)).startswith("Left open: ")
    assert bench.state(coats[1].id) is BenchState.WAITING


def test_when_the_first_is_dry_the_tray_ticks_the_second(bench, coats):
    first, second = coats
    bench.session.done(tray(coats))
    bench.clock.advance(60 * bench.session.derived.work.drying_of(first.id).minutes)
    bench.session.read_along()
    assert "Left open" not in bench.session.done(tray(coats))
    assert bench.state(second.id) is BenchState.DONE


def test_a_single_step_is_ticked_all_the_same(bench, coats):
    first, second = coats
    bench.session.done((first.id,))
    assert "early" in bench.session.done((second.id,))
    assert bench.state(second.id) is BenchState.EARLY


def test_a_tray_of_dryings_ticks_none_of_a_coat_that_is_not_on(bench, coats):
    first, second = coats
    drying_of = bench.session.derived.work.drying_of
    dries = tuple(drying_of(coat.id) for coat in coats)
    bench.session.done((first.id,))
    said = bench.session.done(tray(dries))
    assert bench.state(dries[0].id) is BenchState.DONE
    assert bench.state(dries[1].id) is BenchState.WAITING
    assert f"Left open: {dries[1].title}; first: {second.title}." in said
