"""Builds and entries to store, from the invented lantern watch."""

from datetime import UTC, datetime

from armorplan.ledger.builds import BuildRecord
from armorplan.ledger.events import Event, EventKind
from armorplan.ledger.records import Moment
from armorplan.ledger.timer_entries import TimerEntry, TimerEntryKind
from armorplan.practice.drill import Asked, DrillKind, Level
from armorplan.practice.grades import Grade
from armorplan.practice.results import ReasonMet, Result
from armorplan.workshop.cut_settings import CutResult, CutSetting
from armorplan.workshop.skill_how import SkillHow
from armorplan.workshop.skills import SignedOff

ELBOW = BuildRecord(
    id="elbow_cop-1",
    name="Lantern watch, Maud's left elbow",
    pattern_uuid="6f8a3c0e-5d0b-4b7e-9a55-0c2f6f2f8d11",
    pattern_version=3,
    pattern_hash="9b" * 32,
    created_at=datetime(2027, 3, 1, 8, 30, 0, 250_000, tzinfo=UTC),
    pattern_files=(
        ("pattern.toml", '[joints.boss_1]\nkind = "rivet"  # "blaß", 3 × 4 mm\n'),
        ("outlines.svg", "<svg viewBox='0 0 300 200'/>\r\n"),
        ("empty.txt", ""),
    ),
    constants_json='{"reach_mm": 60.0}',
    relations_json="[]",
)

CUT = CutSetting(
    at=datetime(2027, 3, 1, 9, tzinfo=UTC),
    machine="loft laser",
    leather="strap",
    thickness_mm=2.8,
    words="power 60, speed 12",
    passes=2,
    result=CutResult.THROUGH,
)

RESULT = Result(
    at=datetime(2027, 3, 1, 17, 5, tzinfo=UTC),
    person="ib",
    pattern=ELBOW.pattern_uuid,
    pattern_name="Lantern watch, left elbow",
    piece="elbow é",
    asked=Asked(
        kind=DrillKind.MISTAKE,
        seed=41,
        level=Level.PIECE,
        piece="elbow é",
        part="shell",
        focus="reach-before-closed",
    ),
    answer=("shell/left/rivet/r1", "shell/left/rivet/r2"),
    right=False,
    grade=Grade.MISSED,
    seconds=41.5,
    hint=True,
    reasons=(
        ReasonMet(rule="reach-before-closed", name="Reach", kept=False, decided=True),
        ReasonMet(rule="own:größe", name="own:größe", kept=True),
    ),
)

SIGNED = SignedOff(
    person="ib",
    kind="rivet",
    how=SkillHow.BESIDE,
    by="maud",
    at=datetime(2027, 3, 1, 17, 30, tzinfo=UTC),
    note="heads still proud – größer schlagen",
)


def entry(number: int, *, batch: str = "", build: str = ELBOW.id) -> Event:
    """Return the ``number``-th of a run of distinct entries."""
    return Event(
        build=build,
        step=f"{build}/shell/left/rivet/r{number}",
        kind=EventKind.DONE,
        at=datetime(2027, 3, 1, 9, 0, 0, number % 1_000_000, tzinfo=UTC),
        boot_id="boot-1",
        boot_s=1000.0 + number / 7,
        batch=batch or f"press-{number}",
    )


def timer_entry(number: int, *, kind: TimerEntryKind = TimerEntryKind.SET) -> TimerEntry:
    """Return the ``number``-th of a run of distinct entries about timers."""
    at = datetime(2027, 3, 1, 9, 0, 0, number % 1_000_000, tzinfo=UTC)
    return TimerEntry(
        timer=f"free-{number}",
        kind=kind,
        moment=Moment(at=at, boot_id="boot-1", boot_s=1000.0 + number / 7),
        minutes=number,
        text=f"tea {number}",
    )
