"""Two windows on one build: one writes, the other is told so with each press and loses nothing."""

from dataclasses import replace

import pytest

from armorplan.app.session import Session
from armorplan.ledger.keepsakes import THE_BUILD
from armorplan.store.gate import ReadsAlongError
from armorplan.store.one_writer import OneWriter
from armorplan.store.workshop_file import WorkshopFile


@pytest.fixture
def turns(bench):
    made = [OneWriter(bench.path, bench.clock) for _ in range(2)]
    assert [turn.begin() for turn in made] == [True, False]
    yield made
    for turn in made:
        turn.close()


@pytest.fixture
def reader(bench, begun, turns):
    """The same build in a window that reads along."""
    file, (_, opened) = WorkshopFile.open(bench.path, bench.clock, turns[1]), begun
    yield Session(opened.build, opened.derived, file, bench.clock, bench.new_id)
    file.close()


def test_what_is_done_there_is_seen_here_and_nothing_is_recorded_from_here(bench, reader, turns):
    first, second = bench.session.derived.order[:2]
    said = reader.done((first,))
    assert said.startswith("Not recorded. This window reads along: another window")
    assert "Take over writing here" in said
    assert reader.done_order == ()
    assert reader.keepsakes.note(THE_BUILD, "gap").startswith("Not recorded. This window reads")
    bench.session.done((first,))
    assert reader.read_along()
    assert reader.done_order == (first,)
    assert reader.undo().startswith("Not recorded.")
    # It takes over: the press counts now, on top of all that was done there.
    turns[1].ask()
    turns[1].look()
    turns[0].look()
    turns[1].look()
    assert not reader.done((second,)).startswith("Not recorded.")
    bench.session.read_along()
    assert bench.session.done_order == reader.done_order == (first, second)


def test_timers_are_seen_in_both_and_what_was_set_while_reading_is_kept_later(
    bench, reader, turns
):
    first = bench.session.derived.order[0]
    bench.session.start((first,))
    reader.read_along()
    assert first in {row.step for row in reader.timers()}
    said = reader.timing.set_timer(5, "tea")
    assert "was not recorded" in said
    turns[0].close()
    turns[1].look()
    reader.timing.set_timer(7, "glue")
    bench.session.read_along()
    assert {"tea", "glue"} <= {row.title for row in bench.session.timers()}


def test_no_build_is_begun_by_a_window_that_reads_along(bench, turns):
    file = WorkshopFile.open(bench.path, bench.clock, turns[1])
    with pytest.raises(ReadsAlongError):
        file.add_build(replace(bench.session.build, id="elbow_cop-2"))
    assert len(file.builds()) == 1
    file.close()
