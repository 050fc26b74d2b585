"""A disk that is full in the middle of the work: told, nothing shown that is not kept, and done again."""

import pytest

from armorplan.app.rows import BenchState
from armorplan.ledger.keepsakes import THE_BUILD
from armorplan.ledger.state import derive
from armorplan.steps.model import StepKind

NO_ROOM = "PRAGMA max_page_count = 1"
"""SQLite keeps to the pages there are: not one more."""
ROOM = "PRAGMA max_page_count = 1000000"


@pytest.fixture
def fill(bench):
    """Fill the disk, or make room on it."""

    def turn(statement):
        bench.workshop._db.execute(statement).fetchall()

    return turn


def fill_up(session, step):
    """Write notes, shorter and shorter, until not even the shortest finds a place."""
    for letters in (3000, 300, 1):
        while not session.note(step, "x" * letters).startswith("Not recorded."):
            pass


def test_a_sign_off_on_a_full_disk_opens_nothing_and_counts_when_there_is_room(bench, fill):
    session = bench.session
    bench.do_until(StepKind.DRY_FIT)
    (fit, *_) = bench.ids(StepKind.DRY_FIT)
    fill(NO_ROOM)
    fill_up(session, fit)
    before, sight = session.entries(), session.ready_steps()
    said = session.done((fit,))
    assert said.startswith("Not recorded.")
    assert "the disk is full" in said
    assert "Everything recorded before is kept" in said
    assert session.entries() == bench.workshop.events(session.build_id) == before
    assert session.ready_steps() == sight
    assert bench.state(fit) is BenchState.READY
    fill(ROOM)
    assert not session.done((fit,)).startswith("Not recorded.")
    assert derive(session.entries()).record(fit).signed_off_by is not None
    assert bench.state(fit) is not BenchState.READY
    assert bench.reopened().entries() == session.entries()


def test_a_note_on_a_full_disk_says_so(bench, fill):
    fill(NO_ROOM)
    said = [bench.session.keepsakes.note(THE_BUILD, "gap " * 4000) for _ in range(3)]
    assert said[-1].startswith("Not recorded.")
    assert "the disk is full" in said[-1]
    kept = len([one for one in said if one == "The note is kept."])
    assert len(bench.session.keepsakes.all()) == kept
    fill(ROOM)
    assert bench.session.keepsakes.note(THE_BUILD, "gap") == "The note is kept."
