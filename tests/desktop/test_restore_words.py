"""What would be lost is told of everything that only grows and that a maker would miss."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from armorplan.desktop.restore_words import rehearsal_words
from armorplan.store.backups import Backup, BackupKind
from armorplan.store.holdings import Holdings, Lacking
from armorplan.store.restoring import Rehearsal

AT = datetime(2027, 3, 1, 9, tzinfo=UTC)
BACKUP = Backup(path=Path("b.sqlite"), kind=BackupKind.DAILY, made_at=AT, number=1)
HOLDS = Holdings(builds=(), entries=0, last_at=None, keepsakes=0, promises=0, timers=0)


def told_lost(*rows):
    lost = Lacking(builds=(), entries=(), since_at=None, rows=rows)
    return rehearsal_words(Rehearsal(backup=BACKUP, holds=HOLDS, lost=lost), UTC)[2]


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ((), "Nothing would be lost: all that stands in the workshop is in it."),
        ((("drills", 1), ("drill_reasons", 3)), "It lacks 1 answered exercise."),
        (
            (("drills", 4), ("drill_reasons", 9), ("skills", 2)),
            "It lacks 4 answered exercises, 2 words on skills.",
        ),
        ((("skills", 1),), "It lacks 1 word on a skill."),
        ((("cut_settings", 2),), "It lacks 2 trials of machines."),
    ],
    ids=["nothing", "an exercise", "exercises and skills", "a skill", "trials"],
)
def test_what_would_be_lost_is_counted(rows, told):
    assert told_lost(*rows) == told
