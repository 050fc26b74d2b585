"""Any run of presses, clock changes, restarts and second windows: the file tells the same."""

from pathlib import Path
from tempfile import TemporaryDirectory

from clocks import FakeClock
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule
from ledger.sitting import Sitting
from store.shelf_of_builds import ELBOW

from armorplan.ledger.records import StepStatus
from armorplan.ledger.state import derive
from armorplan.ledger.timers import read_timer
from armorplan.store.workshop_file import WorkshopFile

STEPS = ("cut", "dye", "dry", "rivet")
TRAYS = st.lists(st.sampled_from(STEPS), min_size=1, max_size=3)


class Bench(RuleBasedStateMachine):
    """A maker at the bench; ``past`` and ``future`` are whole states, kept beside the ledger."""

    def __init__(self):
        super().__init__()
        self.folder = TemporaryDirectory()
        self.path = Path(self.folder.name) / "workshop.sqlite"
        self.clock = FakeClock()
        self.workshop = WorkshopFile.open(self.path, self.clock)
        self.workshop.add_build(ELBOW)
        self.sitting = Sitting(self.clock, append=self.append)
        self.past = [self.sitting.state.records]
        self.future = []

    def append(self, events):
        return self.workshop.append(events)

    def act(self, action, *values):
        count = len(self.sitting.events)
        action(*values)
        if len(self.sitting.events) > count:
            self.past.append(self.sitting.state.records)
            self.future.clear()

    @rule(tray=TRAYS)
    def start(self, tray):
        self.act(self.sitting.start, *tray)
        assert all(self.status(step) is StepStatus.RUNNING for step in tray)

    @rule(tray=TRAYS)
    def pause(self, tray):
        self.act(self.sitting.pause, *tray)
        assert not any(self.status(step) is StepStatus.RUNNING for step in tray)

    @rule(tray=TRAYS)
    def done(self, tray):
        self.act(self.sitting.done, *tray)
        assert all(self.status(step) is StepStatus.DONE for step in tray)

    @rule()
    def done_then_drying(self):
        self.act(self.sitting.done_then_drying, "dye", "dry")

    @rule(step=st.sampled_from(STEPS), text=st.text(max_size=5))
    def note(self, step, text):
        self.act(self.sitting.note, step, text)

    @rule(tray=TRAYS)
    def sign_off(self, tray):
        self.act(self.sitting.sign_off, *tray)

    @rule()
    def undo(self):
        self.sitting.undo()
        if len(self.past) > 1:
            self.future.append(self.past.pop())

    @rule()
    def redo(self):
        self.sitting.redo()
        if self.future:
            self.past.append(self.future.pop())

    @rule(seconds=st.floats(min_value=0, max_value=100_000))
    def time_passes(self, seconds):
        self.clock.advance(seconds)

    @rule(seconds=st.integers(1, 10_000))
    def clock_set_back(self, seconds):
        self.clock.set_back(seconds)

    @rule()
    def reboot(self):
        self.workshop.close()
        self.clock.reboot(off_s=30)
        self.workshop = WorkshopFile.open(self.path, self.clock)

    def status(self, step):
        return self.sitting.state.record(step).status

    @invariant()
    def undo_and_redo_agree_with_whole_states(self):
        assert self.sitting.state.records == self.past[-1]
        assert len(self.sitting.state.undo_side) == len(self.past) - 1
        assert len(self.sitting.state.redo_side) == len(self.future)

    @invariant()
    def a_file_opened_anew_tells_the_same(self):
        again = WorkshopFile.open(self.path, self.clock)
        events = again.events(ELBOW.id)
        again.close()
        assert events == self.sitting.events
        assert derive(events) == self.sitting.state

    @invariant()
    def no_timer_runs_backwards(self):
        for record in self.sitting.state.records:
            assert read_timer(record, self.clock).elapsed_s >= 0.0

    def teardown(self):
        self.workshop.close()
        self.folder.cleanup()


BenchCase = Bench.TestCase
BenchCase.settings = settings(max_examples=35, stateful_step_count=25, deadline=None)
