"""The session at the bench: states, key presses and their consequences, undo, timers."""

from armorplan.app import presses
from armorplan.app.rows import BenchState, Grouping
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.events import EventKind
from armorplan.orders.consequence import consequences_of_all
from armorplan.steps.model import StepKind


def test_at_first_only_the_print_is_ready(bench):
    assert bench.session.ready_steps() == bench.ids(StepKind.MEASURE)
    assert bench.state(bench.ids(StepKind.CUT)[0]) is BenchState.WAITING


def test_cuts_are_ready_after_the_mock_up(bench):
    bench.do_until(StepKind.CUT)
    assert set(bench.session.ready_steps()) == set(bench.ids(StepKind.CUT))


def test_a_step_done_early_is_recorded_and_its_consequence_told(bench):
    (cut, *_) = bench.ids(StepKind.CUT)
    said = bench.session.done((cut,))
    assert bench.state(cut) is BenchState.EARLY
    assert said.startswith("Done early")
    assert "Lay out" in said


def test_a_whole_tray_is_one_press_and_one_undo(bench):
    bench.do_until(StepKind.CUT)
    cuts = bench.ids(StepKind.CUT)
    bench.session.done(cuts)
    assert {bench.state(cut) for cut in cuts} == {BenchState.DONE}
    assert "7 more" in bench.session.can_undo()
    bench.session.undo()
    assert {bench.state(cut) for cut in cuts} == {BenchState.READY}
    assert "7 more" in bench.session.can_redo()
    bench.session.redo()
    assert {bench.state(cut) for cut in cuts} == {BenchState.DONE}


def test_start_pause_and_the_timer_between(bench):
    (measure,) = bench.ids(StepKind.MEASURE)
    bench.session.start((measure,))
    bench.clock.advance(120)
    bench.session.pause((measure,))
    bench.clock.advance(900)
    (timer,) = bench.session.timers()
    assert (timer.step, timer.elapsed_s, timer.running_since) == (measure, 120, None)
    assert bench.state(measure) is BenchState.PAUSED


def test_drying_starts_with_the_tick_and_opens_the_next_when_it_is_over(bench):
    bench.do_until(StepKind.DYE)
    first, second = bench.steps(StepKind.DYE)
    bench.session.done((first.id,))
    dry = bench.session.derived.work.drying_of(first.id)
    assert bench.state(dry.id) is BenchState.DRYING
    assert bench.state(second.id) is BenchState.WAITING
    bench.clock.advance(60 * dry.minutes)
    assert bench.session.read_along()
    assert bench.state(second.id) is BenchState.READY
    bench.session.done((second.id,))
    assert bench.state(dry.id) is BenchState.DONE
    assert bench.state(second.id) is BenchState.DONE


def test_going_on_before_it_is_dry_is_early(bench):
    bench.do_until(StepKind.DYE)
    first, second = bench.steps(StepKind.DYE)
    bench.session.done((first.id,))
    assert "early" in bench.session.done((second.id,))
    assert bench.state(second.id) is BenchState.EARLY


def test_the_damp_window_opens_and_closes(bench):
    bench.do_until(StepKind.TOOL)
    (tool,) = bench.ids(StepKind.TOOL)
    assert bench.state(tool) is BenchState.WAITING
    assert any(t.title.startswith("Begin in time") for t in bench.session.timers())
    bench.clock.advance(11 * 60)
    bench.session.read_along()
    assert bench.state(tool) is BenchState.READY
    row = next(r for r in bench.session.checklist(Grouping.PIECE) if r.id == tool)
    assert row.waits_for.startswith("begin by")


def test_what_is_on_the_disk_is_all_there_is(bench):
    bench.do_until(StepKind.PUNCH)
    (measure,) = bench.ids(StepKind.MEASURE)
    bench.session.note(measure, "ruler reads 1 mm short")
    again = bench.reopened()
    assert again.build == bench.session.build
    assert again.checklist(Grouping.PIECE) == bench.session.checklist(Grouping.PIECE)


def test_a_second_window_reads_along(bench):
    other = bench.reopened()
    heard = []
    other.subscribe(lambda: heard.append(True))
    assert not other.read_along()
    bench.do_until(StepKind.CUT)
    assert other.read_along()
    assert heard
    assert other.ready_steps() == bench.session.ready_steps()


def test_a_full_disk_is_told_and_nothing_is_shown_that_is_not_kept(bench, monkeypatch):
    def refuse(_events, _timers=None):
        raise WorkshopError("The disk is full.")

    monkeypatch.setattr(bench.workshop, "append", refuse)
    (measure,) = bench.ids(StepKind.MEASURE)
    assert bench.session.done((measure,)) == "Not recorded. The disk is full."
    assert bench.state(measure) is BenchState.READY


def test_nothing_to_take_back_is_said(bench):
    assert bench.session.undo() == "There is nothing to take back."
    assert bench.session.redo() == "There is nothing to restore."
    assert bench.session.can_undo() == ""


def test_everything_can_be_done_in_the_order_without_a_word_of_warning(bench):
    for step in bench.session.derived.order:
        bench.clock.advance(60 * bench.session.derived.work.step(step).minutes)
        assert "early" not in bench.session.done((step,)), step
    states = {row.state for row in bench.session.checklist(Grouping.PIECE)}
    assert states == {BenchState.DONE}


def test_a_plan_is_found_although_a_window_can_no_longer_be_met(bench):
    """Two casings ticked in a row: one of the two parts has to be cased again."""
    bench.do_until(StepKind.CASE)
    bench.session.done(bench.ids(StepKind.CASE))
    bench.plan()
    assert "cannot be shortened" in bench.session.plan_face().sentence or "holds" in (
        bench.session.plan_face().sentence
    )


def test_a_plan_nobody_followed_is_made_anew(bench):
    bench.plan()
    before = bench.session.problem()
    assert not bench.session.read_along()
    bench.clock.advance(3600)
    assert bench.session.read_along()
    assert bench.session.problem().origin_at > before.origin_at
    assert not bench.session.read_along()


def test_planning_from_now_asks_a_new_problem(bench):
    before = bench.session.problem()
    bench.clock.advance(300)
    assert bench.session.problem() is before
    bench.session.plan_from_now()
    assert bench.session.problem().origin_at > before.origin_at


def test_a_press_with_nothing_chosen_records_nothing(bench):
    assert bench.session.start(()) == "Choose a step first."
    assert bench.session.pause(()) == "Choose a step first."
    assert bench.session.done(()) == "Choose a step first."
    assert not bench.workshop.events(bench.session.build.id)


def test_a_note_is_shown_with_the_step(bench):
    (measure,) = bench.ids(StepKind.MEASURE)
    bench.session.note(measure, "ruler reads 1 mm short")
    assert "ruler reads 1 mm short" in bench.session.why(measure).detail


def test_work_outside_its_window_is_told(bench):
    bench.do_until(StepKind.TOOL)
    (tool,) = bench.ids(StepKind.TOOL)
    said = bench.session.start((tool,))
    assert said.startswith("Started early")
    assert "window opens only in" in said
    bench.session.undo()
    bench.clock.advance(3 * 3600)
    bench.session.read_along()
    row = next(r for r in bench.session.checklist(Grouping.PIECE) if r.id == tool)
    assert row.state is BenchState.MISSED
    assert "Case it again" in row.waits_for
    assert "window closed at" in bench.session.done((tool,))


def test_a_drying_ticked_before_its_time_is_told(bench):
    bench.do_until(StepKind.DYE)
    first, _ = bench.steps(StepKind.DYE)
    bench.session.done((first.id,))
    dry = bench.session.derived.work.drying_of(first.id)
    bench.clock.advance(120)
    assert "before its time" in bench.session.done((dry.id,))


def test_finished_work_says_so(bench):
    bench.plan()
    for step in bench.session.derived.order:
        bench.clock.advance(60 * bench.session.derived.work.step(step).minutes)
        bench.session.done((step,))
    count = len(bench.session.derived.order)
    assert bench.session.plan_face().sentence == f"All {count} steps are done."


def test_ticking_the_dry_fit_signs_it_off_in_the_same_press(bench):
    bench.do_until(StepKind.DRY_FIT)
    (fit,) = bench.ids(StepKind.DRY_FIT)
    bench.session.done((fit,))
    kinds = [e.kind for e in bench.workshop.events(bench.session.build.id) if e.step == fit]
    assert kinds == [EventKind.DONE, EventKind.SIGNED_OFF]
    assert bench.session.can_undo().startswith("done of Dry-fit")
    bench.session.undo()
    assert bench.state(fit) is BenchState.READY


def test_a_plan_long_behind_is_asked_for_anew_once_and_not_for_ever(bench):
    """Whoever reads along at every change must come to an end."""
    bench.plan()
    bench.session.done(bench.session.ready_steps()[:1])
    bench.clock.advance(5 * 3600)
    heard = []

    def read_again():
        heard.append(1)
        if len(heard) < 20:
            bench.session.read_along()

    bench.session.subscribe(read_again)
    bench.session.undo()
    assert len(heard) < 5
    assert bench.session.read_along() is False


def test_of_a_step_that_may_come_next_nobody_asks_what_it_breaks(bench, monkeypatch):
    asked = []

    def asking(steps, *rest):
        asked.append(steps)
        return consequences_of_all(steps, *rest)

    monkeypatch.setattr(presses, "consequences_of_all", asking)
    for step in bench.session.ready_steps()[:1]:
        assert bench.session.done((step,)).startswith("Done:")
    assert asked == []
    late = bench.session.derived.order[-1]
    assert "Done early" in bench.session.done((late,))
    assert asked == [(late,)]
