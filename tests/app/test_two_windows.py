"""Two windows on one workshop file: neither loses sight of what the other wrote."""

from armorplan.app.rows import BenchState, Grouping
from armorplan.kernel.errors import WorkshopError
from armorplan.steps.model import StepKind


def states(session):
    return {row.id: row.state for row in session.checklist(Grouping.PIECE)}


def test_a_press_takes_in_what_the_other_window_wrote_before_it(bench):
    other = bench.reopened()
    (measure,) = bench.ids(StepKind.MEASURE)
    (mock_up,) = bench.ids(StepKind.MOCK_UP)
    other.done((measure,))
    bench.session.done((mock_up,))
    assert states(bench.session)[measure] is BenchState.DONE
    assert states(bench.session)[mock_up] is BenchState.DONE


def test_presses_in_turn_leave_both_windows_and_the_disk_alike(bench):
    other = bench.reopened()
    windows = (bench.session, other)
    for number, step in enumerate(bench.session.derived.order[:12]):
        bench.clock.advance(60)
        windows[number % 2].done((step,))
        if number % 5 == 0:
            windows[(number + 1) % 2].undo()
    for window in windows:
        window.read_along()
    assert states(bench.session) == states(other) == states(bench.reopened())


def test_a_file_that_cannot_be_read_for_a_moment_stops_nothing(bench, monkeypatch):
    other = bench.reopened()
    first, second, *_ = bench.session.derived.order
    other.done((first,))

    def refuse(_build, _seq):
        raise WorkshopError("The disk is away.")

    with monkeypatch.context() as patch:
        patch.setattr(bench.workshop, "events_since", refuse)
        assert not bench.session.read_along()
        bench.session.done((second,))
        assert states(bench.session)[second] in {BenchState.DONE, BenchState.EARLY}
    assert bench.session.read_along()
    assert states(bench.session) == states(bench.reopened())
    assert not bench.session.read_along()
