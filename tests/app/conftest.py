"""A bench on the sample elbow cop: real files, a real workshop file, a clock that obeys."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from shutil import copy

import pytest
from app.timer_scene import Workshop
from clocks import FakeClock
from kept_builds import builds_derived_once

from armorplan.app.derived import Derived
from armorplan.app.opening import Opened, derive_folder, open_build
from armorplan.app.rows import BenchState, Grouping
from armorplan.app.session import Session
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.planning import first_plan
from armorplan.steps.model import Step, StepKind
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shop import Shop, one_maker

SHOP: Shop = one_maker("UTC")


@pytest.fixture(scope="session", autouse=True)
def builds_kept() -> Iterator[None]:
    """Derive no build anew that was opened before."""
    with builds_derived_once():
        yield


def ids() -> Callable[[], str]:
    numbers = count(1)
    return lambda: f"press-{next(numbers)}"


@dataclass
class Bench:
    """A session with short ways to name its steps."""

    path: Path
    clock: FakeClock
    workshop: WorkshopFile
    session: Session
    new_id: Callable[[], str] = field(default_factory=ids)

    def steps(self, kind: StepKind) -> tuple[Step, ...]:
        return self.session.derived.work.of_kind(kind)

    def ids(self, kind: StepKind) -> tuple[str, ...]:
        return tuple(step.id for step in self.steps(kind))

    def state(self, step: str) -> BenchState:
        rows = self.session.checklist(Grouping.PIECE)
        return next(row.state for row in rows if row.id == step)

    def do_until(self, *kinds: StepKind) -> None:
        """Tick everything in order up to the first step of these kinds; time passes for drying."""
        for step_id in self.session.derived.order:
            step = self.session.derived.work.step(step_id)
            if step.kind in kinds:
                return
            self.clock.advance(60 * step.minutes)
            self.session.done((step_id,))

    def plan(self) -> None:
        problem = self.session.problem()
        assert self.session.take_plan(CheckedPlan(problem=problem, plan=first_plan(problem)))

    def reopened(self) -> Session:
        """The same build over a connection of its own, as another window would see it."""
        other = WorkshopFile.open(self.path, self.clock)
        folder = samples_folder() / "elbow_cop"
        opened = open_build(folder, other, read_shelf(), SHOP, clock=self.clock)
        return Session(opened.build, opened.derived, other, self.clock, self.new_id)


@pytest.fixture(scope="session")
def pairs() -> Derived:
    """The sample that is made left and right, derived once for all."""
    return derive_folder(samples_folder() / "three_lames", read_shelf(), SHOP)


@pytest.fixture(scope="session")
def begun(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Opened]:
    """A workshop file in which the sample was just begun, and its build: derived once for all."""
    path = tmp_path_factory.mktemp("begun") / "workshop.sqlite"
    clock = FakeClock()
    workshop = WorkshopFile.open(path, clock)
    folder = samples_folder() / "elbow_cop"
    opened = open_build(folder, workshop, read_shelf(), SHOP, clock=clock)
    workshop.close()
    return path, opened


@pytest.fixture
def bench(tmp_path: Path, begun: tuple[Path, Opened]) -> Iterator[Bench]:
    file, opened = begun
    clock = FakeClock()
    path = Path(copy(file, tmp_path / "workshop.sqlite"))
    workshop = WorkshopFile.open(path, clock)
    new_id = ids()
    session = Session(opened.build, opened.derived, workshop, clock, new_id)
    yield Bench(path=path, clock=clock, workshop=workshop, session=session, new_id=new_id)
    workshop.close()


@pytest.fixture
def clock() -> FakeClock:
    return FakeClock()


@pytest.fixture
def workshop(tmp_path: Path, clock: FakeClock) -> Iterator[WorkshopFile]:
    opened = WorkshopFile.open(tmp_path / "w.sqlite", clock)
    yield opened
    opened.close()


@pytest.fixture
def shop(tmp_path: Path) -> Workshop:
    """A workshop with a plate and a cuff that set timers."""
    return Workshop(tmp_path / "workshop.sqlite")
