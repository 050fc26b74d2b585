"""What was far off is told by the titles of its steps; what cannot be read any more keeps its id."""

from datetime import UTC, datetime
from types import SimpleNamespace

from clocks import FakeClock

from armorplan.app.learned_rows import DampedRow, DryingRow, LearnedRows
from armorplan.app.learned_titles import titled
from armorplan.app.opening import open_build
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.ledger.events import EventKind
from armorplan.ledger.looks import LookTaken, look_text
from armorplan.steps.model import StepKind
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shop import one_maker

AT = datetime(2026, 1, 5, 9, tzinfo=UTC)
SHOP = one_maker("UTC")


def rows(*steps):
    damped = tuple(DampedRow(step=step, begun_at=AT, share=0.1) for step in steps)
    drying = DryingRow(
        treatment="alcohol_dye",
        name="Alcohol dye",
        before_min=720,
        after_min=600,
        factor=0.8,
        between=(0.7, 0.9),
        spread_pct=20.0,
        observations=3,
        damped=damped,
        words="",
    )
    return LearnedRows(dryings=(drying,), hands=())


def test_what_was_far_off_is_named_by_its_title_and_by_what_was_looked_at(tmp_path):
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", FakeClock(AT))
    opened = open_build(
        samples_folder() / "elbow_cop", workshop, read_shelf(), SHOP, clock=FakeClock(AT)
    )
    step = opened.derived.work.of_kind(StepKind.DRY)[0]
    seen = LookTaken(
        treatment="alcohol_dye",
        stage="dry to the touch",
        dry=True,
        begun_at=AT.isoformat(),
        dose_min=5,
        reference_min=20,
    )
    look = SimpleNamespace(step=step.id, kind=EventKind.LOOKED, text=look_text(seen))
    read = SimpleNamespace(builds=workshop.builds, look_events=lambda: (look,))
    found = titled(rows(step.id, f"{opened.build.id}/gone", "elsewhere-1/dry"), read, SHOP)
    told = [row.words for row in found.dryings[0].damped]
    assert told == [
        f"{step.title}, {opened.build.name}, looked at for dry to the touch",
        f"{opened.build.id}/gone",
        "elsewhere-1/dry",
    ]
    assert "/" not in told[0]
    workshop.close()


def test_where_nothing_was_far_off_no_build_is_read():
    assert titled(rows(), None, SHOP) == rows()
