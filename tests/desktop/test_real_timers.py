"""Timers of the window over a real workshop: set, rung, answered, left, missed, gone to."""

from itertools import count

import pytest
from clocks import FakeClock

from armorplan.app.bells import BellKind
from armorplan.app.kin_builds import KinBuilds
from armorplan.app.opening import open_build
from armorplan.app.session import Session
from armorplan.cli.build_reading import BuildReading
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.timers_model import Ticker
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import WorkshopError
from armorplan.kernel.shipped import samples_folder
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shop import one_maker

SHOP = one_maker("UTC")


class Room:
    """A workshop of which one build after another is opened, as the window does."""

    def __init__(self, path):
        self.path = path
        self.clock = FakeClock()
        self.workshop = WorkshopFile.open(path, self.clock)
        self.numbers = count(1)

    def seat(self, opened):
        new_id = lambda: f"press-{next(self.numbers)}"  # noqa: E731
        return Session(opened.build, opened.derived, self.workshop, self.clock, new_id)

    def opened(self, sample):
        folder = samples_folder() / sample
        return self.seat(open_build(folder, self.workshop, read_shelf(), SHOP, clock=self.clock))

    def resumed(self, build_id):
        reading = BuildReading(
            path=self.path, shelf=read_shelf, shop=lambda _: SHOP, kin=KinBuilds(), seat=self.seat
        )
        return reading.resume(build_id)()


@pytest.fixture
def room(tmp_path):
    made = Room(tmp_path / "w.sqlite")
    yield made
    made.workshop.close()


def test_a_timer_of_another_build_is_in_sight_and_leads_there(room):
    elbow = room.opened("elbow_cop")
    step = elbow.ready_steps()[0]
    elbow.start((step,))
    collar = room.opened("collar")
    (row,) = collar.timing.rows
    assert (row.build, row.step) == (elbow.build_id, step)
    assert row.build_title == elbow.title
    there = room.resumed(row.build)
    assert there.build_id == elbow.build_id
    assert [r.build for r in there.timing.rows] == [""]
    with pytest.raises(WorkshopError, match="There is no build 'gone-1'"):
        room.resumed("gone-1")


def test_a_timer_rings_in_the_window_and_what_was_missed_is_told_at_the_next_start(room, qapp):
    session = room.opened("elbow_cop")
    ticker = Ticker(Bridge(session, room.clock))
    rung = []
    ticker.rang.connect(lambda bells: rung.extend(bell.title for bell in bells))
    session.timing.set_timer(5, "glue")
    session.timing.set_timer(90, "bath")
    for _ in range(6):
        room.clock.advance(60)
        ticker.tick()
    # At five minutes, and once more a minute later, for nobody answered.
    assert rung == ["glue", "glue"]
    session.timing.hush(ticker.ringing[0].timer)
    assert [row.title for row in ticker.rows] == ["bath"]
    ticker.deleteLater()
    room.clock.advance(4 * 3600)
    again = room.opened("elbow_cop")
    (bell,) = again.timing.missed()
    assert (bell.title, bell.kind) == ("bath", BellKind.DUE)
    again.timing.told_missed()
    assert again.timing.missed() == ()
