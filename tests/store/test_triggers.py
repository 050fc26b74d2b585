"""The file itself holds what is never to change, whatever program opens it."""

import sqlite3
from contextlib import closing
from datetime import UTC, datetime

import pytest
from clocks import FakeClock
from store.shelf_of_builds import CUT, ELBOW, RESULT, SIGNED, entry, timer_entry

from armorplan.ledger.keepsakes import THE_BUILD, Keepsake
from armorplan.store.connection import connect
from armorplan.store.workshop_file import WorkshopFile

COPY_BUILD = (
    "INSERT OR REPLACE INTO builds SELECT id, 'x', pattern_uuid, pattern_version, pattern_hash, "
    "created_at, pattern_files_json, constants_json, relations_json, folder FROM builds"
)
COPY_EVENT = (
    "INSERT OR REPLACE INTO events SELECT seq, build, step, 'done', at, boot_id, boot_s, batch, "
    "who, 'forged', undoes FROM events"
)

COPY_TIMER = (
    "INSERT OR REPLACE INTO timer_entries SELECT seq, 'x', kind, at, boot_id, boot_s, minutes, text "
    "FROM timer_entries"
)


COPY_DRILL = (
    "INSERT OR REPLACE INTO drills SELECT seq, at, 'x', pattern, pattern_name, piece, kind, level, "
    "seed, asked_piece, asked_part, asked_focus, answer, right, grade, seconds, hint FROM drills"
)


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "workshop.sqlite"
    workshop = WorkshopFile.open(path, FakeClock())
    workshop.add_build(ELBOW)
    workshop.append((entry(1), entry(2)))
    workshop.timers.append((timer_entry(1), timer_entry(2)))
    workshop.air.keep('{"usual": 1}')
    workshop.fresh_starts.add("dye")
    at = datetime(2027, 3, 1, 9, tzinfo=UTC)
    for text in ("gap", "gop"):
        kept = workshop.keepsakes.add(Keepsake(build=ELBOW.id, about=THE_BUILD, at=at, text=text))
    workshop.keepsakes.withdraw(kept)
    workshop.cut_log.keep(CUT)
    workshop.drills.keep(RESULT)
    workshop.skills.keep(SIGNED)
    workshop.close()
    return path


@pytest.mark.parametrize(
    ("statement", "answer"),
    [
        ("UPDATE cut_settings SET words = 'x'", "never changes"),
        ("DELETE FROM cut_settings", "never"),
        ("UPDATE drills SET right = 1", "a row of drills never changes"),
        ("DELETE FROM drills", "a row of drills is never deleted"),
        (COPY_DRILL, "a row of drills is never replaced"),
        ("UPDATE drill_reasons SET kept = 1", "a row of drill_reasons never changes"),
        ("DELETE FROM drill_reasons", "a row of drill_reasons is never deleted"),
        ("UPDATE skills SET how = 'alone'", "a row of skills never changes"),
        ("DELETE FROM skills", "a row of skills is never deleted"),
        ("UPDATE builds SET id = 'x'", "snapshot of a build never changes"),
        ("UPDATE builds SET pattern_uuid = 'x'", "snapshot of a build never changes"),
        ("UPDATE builds SET pattern_version = 9", "snapshot of a build never changes"),
        ("UPDATE builds SET pattern_hash = 'x'", "snapshot of a build never changes"),
        ("UPDATE builds SET created_at = 'x'", "snapshot of a build never changes"),
        ("UPDATE builds SET pattern_files_json = '[]'", "snapshot of a build never changes"),
        ("UPDATE builds SET constants_json = '{}'", "snapshot of a build never changes"),
        ("UPDATE builds SET relations_json = '[1]'", "snapshot of a build never changes"),
        ("DELETE FROM builds", "a build is never deleted"),
        (COPY_BUILD, "already a build of this id"),
        ("UPDATE events SET text = 'x'", "an entry of the ledger never changes"),
        ("UPDATE events SET seq = 9 WHERE seq = 1", "an entry of the ledger never changes"),
        ("DELETE FROM events WHERE seq = 2", "an entry of the ledger is never deleted"),
        (COPY_EVENT, "an entry of the ledger is never replaced"),
        ("UPDATE timer_entries SET text = 'x'", "a row of timer_entries never changes"),
        ("DELETE FROM timer_entries WHERE seq = 2", "a row of timer_entries is never deleted"),
        (COPY_TIMER, "a row of timer_entries is never replaced"),
        ("UPDATE air_kept SET room_json = 'x'", "a row of air_kept never changes"),
        ("DELETE FROM air_kept", "a row of air_kept is never deleted"),
        (
            "INSERT OR REPLACE INTO air_kept SELECT seq, at, 'x' FROM air_kept",
            "a row of air_kept is never replaced",
        ),
        ("UPDATE fresh_starts SET what = 'x'", "a row of fresh_starts never changes"),
        ("DELETE FROM fresh_starts", "a row of fresh_starts is never deleted"),
        (
            "INSERT OR REPLACE INTO fresh_starts SELECT seq, at, 'x' FROM fresh_starts",
            "a row of fresh_starts is never replaced",
        ),
        ("UPDATE keepsakes SET text = 'x'", "a row of keepsakes never changes"),
        ("DELETE FROM keepsakes", "a row of keepsakes is never deleted"),
        ("DELETE FROM keepsakes_withdrawn", "a row of keepsakes_withdrawn is never deleted"),
    ],
)
def test_what_is_kept_for_ever_cannot_be_changed(path, statement, answer):
    with closing(sqlite3.connect(path)) as plain:
        with pytest.raises(sqlite3.IntegrityError, match=answer):
            plain.execute(statement)
        plain.rollback()
    workshop = WorkshopFile.open(path, FakeClock())
    assert workshop.build(ELBOW.id) == ELBOW
    assert [event.step for event in workshop.events(ELBOW.id)] == [entry(1).step, entry(2).step]
    assert [one.text for one in workshop.timers.since(0)] == ["tea 1", "tea 2"]
    assert workshop.air.last()[2] == '{"usual": 1}'
    assert list(workshop.fresh_starts.latest()) == ["dye"]
    assert [one.text for one in workshop.keepsakes.of(ELBOW.id)] == ["gap"]
    workshop.close()


def test_a_build_may_be_renamed(path):
    with closing(sqlite3.connect(path)) as plain:
        plain.execute("UPDATE builds SET name = 'Harbour watch'")
        plain.commit()
    workshop = WorkshopFile.open(path, FakeClock())
    assert workshop.build(ELBOW.id).name == "Harbour watch"
    workshop.close()


def test_every_table_of_ours_is_strict(path):
    with closing(connect(path)) as db:
        strict = {row["name"]: row["strict"] for row in db.query("PRAGMA table_list")}
    ours = (
        "builds",
        "events",
        "plans",
        "timer_entries",
        "timers_kept",
        "air_kept",
        "fresh_starts",
        "orders",
        "promises",
        "absences",
        "keepsakes",
        "keepsakes_withdrawn",
        "restorings",
        "cut_settings",
        "drills",
        "drill_reasons",
        "skills",
    )
    assert [strict[table] for table in ours] == [1] * len(ours)
