"""What the bench view says of a step of the sample, held to the step itself and to what was set."""

import pytest

from armorplan.app.closing_words import NOTHING
from armorplan.app.rows import BenchState
from armorplan.steps.model import StepKind


def test_a_rivet_names_fastener_length_and_layers_as_its_step_does(bench):
    step = bench.steps(StepKind.RIVET)[0]
    card = bench.session.bench_card(step.id)
    name, _, length = card.fastener.rpartition(", post ")
    assert name
    assert length.endswith(" mm")
    assert f"{name}, post {length}" in step.detail
    assert step.detail.startswith(card.layers)
    assert card.tool == step.tool
    assert card.where == "Elbow cop"


def test_what_sets_nothing_has_no_fastener(bench):
    card = bench.session.bench_card(bench.ids(StepKind.CUT)[0])
    assert (card.fastener, card.layers) == ("", "")
    assert card.state in (BenchState.READY, BenchState.WAITING)


def test_the_caution_is_short_and_all_cautions_are_whole(bench):
    step = bench.steps(StepKind.DYE)[0]
    card = bench.session.bench_card(step.id)
    assert "(" not in card.caution
    assert "flame" in card.caution
    assert card.cautions == step.cautions


def test_the_row_counts_what_is_done_of_it(bench):
    bench.do_until(StepKind.PUNCH)
    first, second = bench.ids(StepKind.PUNCH)[:2]
    assert all(not mark.is_done for mark in bench.session.bench_card(first).row)
    bench.session.done((first,))
    row = bench.session.bench_card(second).row
    assert [mark.step for mark in row if mark.is_done] == [first]
    assert second in [mark.step for mark in row]


def test_what_comes_next_is_the_next_of_the_plan_for_hands(bench):
    bench.plan()
    first, second = bench.session.ready_steps()[0], bench.session.derived.order[1]
    card = bench.session.bench_card(first)
    assert card.next_step == second
    assert card.next_at is not None
    assert (card.done_count, card.all_count) == (0, len(bench.session.derived.work.steps))
    for step in bench.session.derived.work.steps:
        told = bench.session.bench_card(step.id).next_step
        assert not told or bench.session.derived.work.step(told).attended


def test_when_all_is_done_nothing_comes_next(bench):
    bench.do_until()
    card = bench.session.bench_card(bench.session.derived.order[-1])
    assert card.is_over
    assert (card.next_step, card.next_title) == ("", "")


def test_a_step_that_is_not_there_is_no_card(bench):
    with pytest.raises(KeyError):
        bench.session.bench_card("no/such/step")


def test_before_a_hole_it_is_said_that_it_stays_and_what_would_be_too_late(bench):
    hole, measure = bench.ids(StepKind.PUNCH)[0], bench.session.derived.order[0]
    assert bench.session.asking_commit(measure)().text == NOTHING
    early = bench.session.asking_commit(hole)()
    assert early.is_grave
    assert "too late for 'Cut" in early.text
    bench.do_until(StepKind.PUNCH)
    assert "cannot be taken back" in bench.session.asking_commit(hole)().text
