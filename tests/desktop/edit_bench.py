"""A window over a real build on a copy of the elbow cop, with its page of texts and numbers."""

from itertools import count

from clocks import FakeClock
from desktop.drafts import BENCH
from folders_cli import copy_sample
from PySide6.QtWidgets import QMessageBox

from armorplan.app.opening import open_build
from armorplan.app.session import Session
from armorplan.cli.drafts import Drafts
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.settings import Settings
from armorplan.desktop.widgets.main_window import MainWindow, Means
from armorplan.kernel.errors import WorkshopError
from armorplan.schedule.problem import Plan, Status
from armorplan.store.workshop_file import WorkshopFile


class Bench:
    """A window on a copy of the elbow cop, with the ways in that the command line makes."""

    def __init__(self, tmp_path, qtbot):
        self.clock = FakeClock()
        self.place = tmp_path
        self.folder = copy_sample(tmp_path)
        self.workshop = WorkshopFile.open(tmp_path / "w.sqlite", self.clock)
        self.drafts = Drafts(lambda: BENCH.shelf, lambda: BENCH.shop)
        self.numbers = count()
        self.refuses = False
        means = Means(
            Settings(tmp_path / "settings.json"),
            lambda *_asked, **_with: Plan(status=Status.BEST),
            self.read,
            (),
            tmp_path / "log",
            self.drafts,
        )
        self.bridge = Bridge(self.seat(self.opened(self.workshop, self.folder)), self.clock)
        self.window = MainWindow(self.bridge, means)
        qtbot.addWidget(self.window)
        self.window.show()
        qtbot.waitExposed(self.window)
        self.door = self.window._edit
        self.desk = self.door._desk

    def opened(self, workshop, folder, going_on=""):
        return open_build(
            folder, workshop, BENCH.shelf, BENCH.shop, clock=self.clock, going_on=going_on
        )

    def seat(self, opened):
        self.drafts.know(opened)
        return Session(
            opened.build,
            opened.derived,
            self.workshop,
            self.clock,
            lambda: f"press-{next(self.numbers)}",
        )

    def read(self, folder, going_on=""):
        if self.refuses:
            raise WorkshopError("The workshop file is full.")
        own = WorkshopFile.open(self.place / "w.sqlite", self.clock)
        try:
            found = self.opened(own, folder, going_on)
        finally:
            own.close()
        return lambda: self.seat(found)

    @property
    def page(self):
        return self.door._page

    @property
    def build(self):
        return self.bridge.session.build.id

    def choose(self, ending):
        (step,) = (
            s.id for s in self.bridge.session.derived.work.steps if s.id.endswith(f"/{ending}")
        )
        self.bridge.choose_steps((step,))

    def show(self, qtbot):
        self.window.actions_by_id["edit_pattern"].trigger()
        qtbot.waitUntil(lambda: self.page is not None and self.door._then is None)
        return self.page


def field(page, kind, *path):
    return page.findChild(kind, "field_" + ".".join(path))


def edit_bench(tmp_path, qtbot, monkeypatch):
    """Yield such a bench; leaving with something unsaved drops it."""
    discard = QMessageBox.StandardButton.Discard
    monkeypatch.setattr(QMessageBox, "question", lambda *_given: discard)
    made = Bench(tmp_path, qtbot)
    yield made
    monkeypatch.setattr(QMessageBox, "question", lambda *_given: discard)
    made.window.close()
    made.workshop.close()
