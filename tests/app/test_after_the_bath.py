"""One key after the bath: what drips, dries and cures begins with the tick, the watch comes next."""

from dataclasses import dataclass, field, replace
from itertools import count

import pytest
from clocks import FakeClock

from armorplan.app.derived import Derived, derive_build
from armorplan.app.moment import BenchMoment
from armorplan.app.presses import Presses
from armorplan.app.rows import BenchState
from armorplan.ledger.state import derive
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_bath, sketch_part
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

BATH = (sketch_bath("lacquer", "plate"),)


@dataclass
class Bath:
    """A plate about to be dipped in what drips, streaks and cures."""

    derived: Derived
    clock: FakeClock = field(default_factory=FakeClock)
    events: list = field(default_factory=list)

    def __post_init__(self):
        ids = count(1)
        self.presses = Presses(self.derived, "b", self.clock, lambda: f"press-{next(ids)}")

    def id(self, kind):
        (step,) = self.derived.work.of_kind(kind)
        return step.id

    @property
    def moment(self):
        return BenchMoment(self.derived, derive(tuple(self.events)), self.clock, None)

    def press(self, what, kind):
        made, said = getattr(self.presses, what)(self.moment, (self.id(kind),))
        self.events += [replace(e, seq=len(self.events) + at + 1) for at, e in enumerate(made)]
        return said

    def state(self, kind):
        return self.moment.states.of(self.id(kind))


@pytest.fixture
def bath():
    pattern = sketch(sketch_part("plate"), treatments=BATH)
    made = Bath(derive_build(pattern, sketch_shelf(), one_maker("UTC"), build="b"))
    for kind in (StepKind.MEASURE, StepKind.MOCK_UP, StepKind.LAY_OUT, StepKind.CUT):
        made.press("done", kind)
    made.press("done", StepKind.FINISH)
    return made


def test_one_key_starts_dripping_drying_and_cure_and_the_watch_waits(bath):
    for kind in (StepKind.DRIP, StepKind.DRY, StepKind.CURE):
        assert bath.state(kind) is BenchState.DRYING
    assert bath.state(StepKind.WATCH) is BenchState.WAITING


def test_the_watch_is_ready_as_soon_as_it_has_dripped_and_ticks_the_dripping(bath):
    bath.clock.advance(5 * 60)
    assert bath.state(StepKind.WATCH) is BenchState.READY
    assert bath.press("start", StepKind.WATCH).startswith("Started: Turn and wipe")
    assert bath.state(StepKind.DRIP) is BenchState.DONE
    assert bath.state(StepKind.WATCH) is BenchState.RUNNING
    assert bath.state(StepKind.DRY) is BenchState.DRYING


def test_a_watch_nobody_began_is_missed_and_says_what_to_do(bath):
    bath.clock.advance(11 * 60)
    assert bath.state(StepKind.WATCH) is BenchState.MISSED
    assert "Wipe what is still wet" in bath.press("done", StepKind.WATCH)


def test_packing_ticks_a_cure_that_is_over_and_is_early_before(bath):
    bath.clock.advance(13 * 3600)
    bath.press("done", StepKind.DRY)
    assert bath.state(StepKind.DRIP) is BenchState.DONE
    assert bath.state(StepKind.CURE) is BenchState.DRYING
    assert "to cure" in bath.press("done", StepKind.FIT)
    bath.clock.advance(60 * 3600)
    bath.press("done", StepKind.INSPECT)
    assert "early" not in bath.press("done", StepKind.PACK)
    assert bath.state(StepKind.CURE) is BenchState.DONE
