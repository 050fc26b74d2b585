"""Files of every released form open; an upgrade is whole or leaves the file as it was."""

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from shutil import copy

import pytest
from clocks import FakeClock
from ledger.sitting import Sitting
from store.shelf_of_builds import CUT, ELBOW, RESULT, SIGNED, entry, timer_entry

from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.build_orders import BuildOrder
from armorplan.ledger.keepsakes import THE_BUILD, Keepsake
from armorplan.ledger.records import StepStatus
from armorplan.ledger.state import derive
from armorplan.store.connection import connect
from armorplan.store.lean import Migrations
from armorplan.store.migrations import _MIGRATIONS, SCHEMA, Schema
from armorplan.store.workshop_file import WorkshopFile

GOLDEN = Path(__file__).parent / "golden"


@pytest.fixture
def form_1(tmp_path):
    """A copy of the file of form 1; the one in the repository is never written again."""
    return Path(copy(GOLDEN / "workshop-form-1.sqlite", tmp_path / "workshop.sqlite"))


@pytest.fixture
def form_2(tmp_path):
    """A copy of the file of form 2."""
    return Path(copy(GOLDEN / "workshop-form-2.sqlite", tmp_path / "workshop.sqlite"))


@pytest.fixture
def form_3(tmp_path):
    """A copy of the file of form 3."""
    return Path(copy(GOLDEN / "workshop-form-3.sqlite", tmp_path / "workshop.sqlite"))


@pytest.fixture
def form_4(tmp_path):
    """A copy of the file of form 4."""
    return Path(copy(GOLDEN / "workshop-form-4.sqlite", tmp_path / "workshop.sqlite"))


@pytest.fixture
def form_5(tmp_path):
    """A copy of the file of form 5."""
    return Path(copy(GOLDEN / "workshop-form-5.sqlite", tmp_path / "workshop.sqlite"))


@pytest.fixture
def form_6(tmp_path):
    """A copy of the file of form 6."""
    return Path(copy(GOLDEN / "workshop-form-6.sqlite", tmp_path / "workshop.sqlite"))


def with_second_form(change):
    """Return the schema as it is plus one migration, as the next release might have it."""
    migrations = Migrations("armorplan")
    for known in _MIGRATIONS._migrations:
        migrations(name=known.name)(known.fn)
    migrations(name="9999-next")(change)
    return Schema(version=SCHEMA.version + 1, migrations=migrations)


def add_colour(db):
    db.execute("ALTER TABLE plans ADD COLUMN colour TEXT NOT NULL DEFAULT 'brown'")


def test_the_version_counts_the_migrations():
    assert SCHEMA.version == len(_MIGRATIONS._migrations)


def test_a_file_of_form_1_opens_for_ever(form_1):
    workshop = WorkshopFile.open(form_1, FakeClock())
    elbow, collar = workshop.builds()
    assert (elbow.id, collar.id) == ("elbow_cop-1", "collar-1")
    assert collar.name == "Harbour watch, Ib's collar"
    assert collar.pattern_version == 2
    assert collar.folder == ""
    assert collar.created_at == datetime(2027, 2, 20, 7, 15, tzinfo=UTC)
    assert elbow.pattern_files[0] == (
        "pattern.toml",
        '[joints.boss_1]\nkind = "rivet"  # "blaß", 3 × 4 mm\n',
    )
    assert elbow.relations_json == '[{"rule": "dry-before-handling"}]'
    state = derive(workshop.events("elbow_cop-1"))
    assert state.done_order == ("cut/petal_mid", "cut/petal_left", "dye")
    assert state.record("dry").status is StepStatus.RUNNING
    assert state.record("dye").notes[0].text == "zweiter Anstrich dünner"
    assert state.record("dry-fit").signed_off_by == "Maud"
    assert len(state.record("dye").stretches) == 2
    assert [batch.steps for batch in state.redo_side] == [("bevel",)]
    assert state.last_seq == 15
    assert derive(workshop.events("collar-1")).done_order == ("mock-up",)
    assert workshop.last_plan("elbow_cop-1") == '{"steps": ["é"]}'
    assert workshop.last_plan("collar-1") is None
    (added,) = workshop.append((entry(1),))
    assert added.seq == 17
    workshop.close()


def test_a_file_of_form_2_opens_for_ever(form_2):
    workshop = WorkshopFile.open(form_2, FakeClock())
    assert [build.id for build in workshop.builds()] == ["elbow_cop-1", "collar-1", "lantern-1"]
    assert workshop.build("lantern-1").folder == "/home/ib/gorget é"
    assert derive(workshop.events("elbow_cop-1")).last_seq == 15
    assert workshop.timers.since(0) == workshop.timers.kept() == ()
    assert workshop.air.last() is None
    assert workshop.fresh_starts.latest() == {}
    (added,) = workshop.timers.append((timer_entry(1),))
    assert workshop.timers.since(0) == (added,)
    workshop.close()


def test_a_file_of_form_3_opens_for_ever(form_3):
    workshop = WorkshopFile.open(form_3, FakeClock())
    assert tuple(workshop.names()) == ("elbow_cop-1", "collar-1", "lantern-1")
    assert workshop.timers.since(0) == (replace(timer_entry(1), seq=1),)
    assert [kept.rows_json for kept in workshop.timers.kept()] == ['{"rows": ["ü"]}']
    assert workshop.air.last()[2] == '{"temperature_c": 9}'
    assert tuple(workshop.fresh_starts.latest()) == ("alcohol_dye",)
    assert workshop.last_plan("lantern-1") == '{"steps": ["später"]}'
    assert workshop.latest_plan() == workshop.last_plan("elbow_cop-1") == '{"steps": ["é"]}'
    assert workshop.orders.all() == ()
    assert workshop.orders.promised() is None
    order = BuildOrder(build="lantern-1", weight=3)
    workshop.orders.keep(order)
    assert workshop.orders.all() == (order,)
    workshop.close()


def test_a_file_of_form_4_opens_for_ever(form_4):
    workshop = WorkshopFile.open(form_4, FakeClock())
    (order,) = workshop.orders.all()
    assert (order.build, order.wearer, order.after) == ("lantern-1", "Ib", ("elbow_cop-1",))
    assert order.due_at == datetime(2027, 5, 1, 16, tzinfo=UTC)
    assert workshop.orders.promised()[2] == '{"promised": "é"}'
    assert derive(workshop.events("elbow_cop-1")).last_seq == 15
    assert workshop.timers.since(0) == (replace(timer_entry(1), seq=1),)
    assert workshop.keepsakes.of("lantern-1") == ()
    kept = Keepsake(build="lantern-1", about=THE_BUILD, at=order.due_at, text="übergeben")
    assert workshop.keepsakes.add(kept) == replace(kept, seq=1)
    assert workshop.keepsakes.of("lantern-1") == (replace(kept, seq=1),)
    workshop.close()


def test_a_file_of_form_5_opens_for_ever(form_5):
    workshop = WorkshopFile.open(form_5, FakeClock())
    assert workshop.keepsakes.of("lantern-1") == ()
    (girth,) = workshop.keepsakes.of("elbow_cop-1")
    assert (girth.text, girth.value, girth.unit, girth.who) == ("girth", 31.5, "cm", "Maud")
    (away,) = workshop.absences.latest()
    assert (away.person, away.until_at) == ("maud", datetime(2027, 3, 9, 7, 30, tzinfo=UTC))
    assert workshop.orders.promised()[2] == '{"promised": "é"}'
    assert workshop.cut_log.all() == ()
    workshop.cut_log.keep(CUT)
    assert workshop.cut_log.all() == (CUT,)
    workshop.close()


def test_a_file_of_form_6_opens_for_ever(form_6):
    workshop = WorkshopFile.open(form_6, FakeClock())
    (cut,) = workshop.cut_log.all()
    assert (cut.machine, cut.words, cut.kerf_mm) == ("Dachboden", "größer 60", 0.2)
    assert [one.text for one in workshop.keepsakes.of("elbow_cop-1")] == ["girth"]
    assert workshop.drills.people() == ()
    assert workshop.skills.all() == ()
    assert workshop.drills.keep(RESULT) == 1
    workshop.skills.keep(SIGNED)
    assert workshop.drills.since("ib", 0) == (replace(RESULT, seq=1),)
    assert workshop.skills.all() == (SIGNED,)
    workshop.close()


def test_an_upgrade_is_backed_up_first_and_keeps_every_entry(form_1):
    before = form_1.read_bytes()
    with closing(connect(form_1, schema=with_second_form(add_colour))) as db:
        assert db.execute("PRAGMA user_version").fetchone() == (SCHEMA.version + 1,)
        assert db.execute("SELECT colour FROM plans").fetchone() == ("brown",)
        assert db.execute("SELECT count(*) FROM events").fetchone() == (16,)
    backup = form_1.with_name(f"workshop.sqlite.before-{SCHEMA.version + 1}.backup")
    assert sorted(p.name for p in form_1.parent.iterdir()) == [form_1.name, backup.name]
    assert form_1.read_bytes() != before
    old = WorkshopFile.open(backup, FakeClock())
    assert derive(old.events(ELBOW.id)).last_seq == 15
    old.close()


def test_a_backup_holds_entries_that_still_lie_in_the_write_ahead_log(form_1):
    window = WorkshopFile.open(form_1, FakeClock())
    window.append((entry(1),))
    connect(form_1, schema=with_second_form(add_colour)).close()
    backup = WorkshopFile.open(
        form_1.with_name(f"{form_1.name}.before-{SCHEMA.version + 1}.backup"), FakeClock()
    )
    assert backup.events(ELBOW.id)[-1].seq == 17
    backup.close()
    window.close()


def test_an_upgrade_that_fails_leaves_the_file_as_it_was(form_1):
    def breaks_halfway(db):
        add_colour(db)
        db.execute("INSERT INTO nowhere VALUES (1)")

    with pytest.raises(WorkshopError, match="no such table: nowhere") as refused:
        connect(form_1, schema=with_second_form(breaks_halfway))
    assert str(form_1) in str(refused.value)
    workshop = WorkshopFile.open(form_1, FakeClock())
    assert derive(workshop.events(ELBOW.id)).last_seq == 15
    workshop.close()
    connect(form_1, schema=with_second_form(add_colour)).close()


def test_without_a_backup_nothing_is_upgraded(form_1):
    in_the_way = form_1.with_name(f"{form_1.name}.before-{SCHEMA.version + 1}.backup")
    in_the_way.mkdir()
    with pytest.raises(WorkshopError, match="Nothing was upgraded") as refused:
        connect(form_1, schema=with_second_form(add_colour))
    assert str(in_the_way) in str(refused.value)
    WorkshopFile.open(form_1, FakeClock()).close()


def test_a_backup_cut_off_by_a_crash_is_written_anew(form_1):
    form_1.with_name(f"{form_1.name}.before-{SCHEMA.version + 1}.backup.partial").write_bytes(
        b"half"
    )
    connect(form_1, schema=with_second_form(add_colour)).close()
    backup = form_1.with_name(f"{form_1.name}.before-{SCHEMA.version + 1}.backup")
    with closing(sqlite3.connect(backup)) as plain:
        assert plain.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_a_window_of_the_older_program_is_told_after_an_upgrade(form_1):
    connect(form_1, schema=with_second_form(add_colour)).close()
    with pytest.raises(WorkshopError, match="newer Armorplan"):
        WorkshopFile.open(form_1, FakeClock())


def test_a_new_file_needs_no_backup(tmp_path):
    path = tmp_path / "workshop.sqlite"
    window = WorkshopFile.open(path, FakeClock())
    window.add_build(ELBOW)
    sitting = Sitting(append=window.append)
    sitting.done("cut")
    assert derive(window.events(ELBOW.id)) == sitting.state
    window.close()
    assert [p.name for p in tmp_path.iterdir()] == ["workshop.sqlite"]
