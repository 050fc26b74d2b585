"""Small builds with timers of every sort, in a real workshop file, under a clock that obeys.

A plate is cased and bent while damp; a cuff is dipped twice in what drips, is watched, and has to
be coated again within a day. Times are the rules' example shelf's, at its own air.
"""

import os
from dataclasses import replace
from datetime import datetime
from functools import cache
from itertools import count
from pathlib import Path

from clocks import FakeClock
from store.shelf_of_builds import ELBOW

from armorplan.app.bells import Bell
from armorplan.app.derived import Derived, derive_build
from armorplan.app.ringing import ringing
from armorplan.app.rows import TimerRow
from armorplan.app.session import Session
from armorplan.kernel.clock import Clock
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_bath, sketch_form, sketch_part
from armorplan.steps.model import StepKind
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shop import one_maker

PLATE, CUFF = "plate-1", "cuff-1"
_PATTERNS = {
    PLATE: sketch(sketch_part("plate"), forms=(sketch_form("bend", "plate"),)),
    CUFF: sketch(sketch_part("cuff"), treatments=(sketch_bath("lacquer", "cuff", coats=2),)),
}
OPENS_MIN, CLOSES_MIN = 20, 90
"""Of the cased plate."""
DRIP_MIN, EVERY_MIN, WATCH_MIN, TOUCH_MIN = 5, 5, 20, 30
"""Of the dipped cuff."""


@cache
def derived_of(build: str, zone: str = "UTC") -> Derived:
    return derive_build(_PATTERNS[build], sketch_shelf(), one_maker(zone), build=build)


class Workshop:
    """One workshop file and the machine it is on; windows open and close, or are cut off."""

    def __init__(self, path: Path, clock: Clock | None = None) -> None:
        self.path = path
        self.clock = clock or FakeClock()
        self._numbers = count(1)
        first = self.file()
        known = [build.id for build in first.builds()]
        for build in (PLATE, CUFF):
            if build not in known:
                name = build.partition("-")[0].capitalize()
                first.add_build(replace(ELBOW, id=build, name=name))
        first.close()

    def file(self) -> WorkshopFile:
        return WorkshopFile.open(self.path, self.clock)

    def window(self, build: str = PLATE, *, zone: str = "UTC") -> "Window":
        return Window(self, build, zone)

    def new_id(self) -> str:
        return f"id-{os.getpid()}-{next(self._numbers)}"


class Window:
    """A session over a connection of its own."""

    def __init__(self, workshop: Workshop, build: str, zone: str) -> None:
        self.file = workshop.file()
        self.clock = workshop.clock
        self.derived = derived_of(build, zone)
        record = self.file.build(build)
        self.session = Session(record, self.derived, self.file, self.clock, workshop.new_id)
        self.timing = self.session.timing

    def ids(self, kind: StepKind) -> tuple[str, ...]:
        return tuple(step.id for step in self.derived.work.of_kind(kind))

    def one(self, kind: StepKind) -> str:
        """The first step of a kind."""
        return self.ids(kind)[0]

    def do(self, kind: StepKind) -> str:
        return self.session.done((self.one(kind),))

    def begin(self, kind: StepKind) -> str:
        return self.session.start((self.one(kind),))

    def ringing(self) -> tuple[Bell, ...]:
        """What rings now."""
        return ringing(self.timing.rows, self.timing.answers, self.clock.now())

    def tick(self, seconds: float = 1.0) -> bool:
        """Time passes, and the window looks once."""
        self.clock.advance(seconds)
        return self.session.read_along()

    def run(self, minutes: float, *, every_s: float = 60.0) -> None:
        """Time passes while the window looks; less often than it does, to be quick."""
        for _ in range(round(minutes * 60 / every_s)):
            self.tick(every_s)

    def close(self) -> None:
        self.file.close()


def rings(window: Window) -> list[tuple[str, str]]:
    """Kind and step kind of what rings now."""
    return [
        (bell.kind.value, bell.step.split("/")[3] if bell.step else "")
        for bell in window.ringing()
    ]


def minutes_to(window: Window, at: datetime) -> float:
    return (at - window.clock.now()).total_seconds() / 60


def row_of(window: Window, kind: StepKind) -> TimerRow:
    """The timer of a step of this kind."""
    return next(row for row in window.timing.rows if f"/{kind.value}/" in row.step)
