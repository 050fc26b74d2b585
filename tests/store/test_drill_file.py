"""Results of practice and signed-off skills: kept whole or not at all, by any window, for ever."""

import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import pytest
from clocks import FakeClock
from hypothesis import given
from hypothesis import strategies as st
from store.shelf_of_builds import RESULT, SIGNED

from armorplan.kernel.errors import WorkshopError
from armorplan.practice.drill import Asked, DrillKind, Level
from armorplan.practice.grades import Grade
from armorplan.practice.results import ReasonMet, Result
from armorplan.store.backing_up import GROWING, back_up_today
from armorplan.store.connection import connect
from armorplan.store.gate import OnlyReads, ReadsAlongError
from armorplan.store.restoring import rehearse
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.skill_how import SkillHow

MAUD = replace(RESULT, person="maud", reasons=())
words = st.text(st.characters(blacklist_categories=("Cs", "Cc")), max_size=12)
names = st.text(st.characters(whitelist_categories=("Ll", "Nd"), max_codepoint=0x2FF), min_size=1)


@pytest.fixture
def path(tmp_path):
    return tmp_path / "workshop.sqlite"


@pytest.fixture
def workshop(path):
    opened = WorkshopFile.open(path, FakeClock())
    yield opened
    opened.close()


def test_each_person_has_their_results_in_the_order_they_were_kept(workshop):
    kept = [RESULT, MAUD, replace(RESULT, at=RESULT.at.replace(year=2020), right=True)]
    assert [workshop.drills.keep(one) for one in kept] == [1, 2, 3]
    # By a clock that was set back, too, they stay in the order in which they were kept.
    assert workshop.drills.since("ib", 0) == (replace(kept[0], seq=1), replace(kept[2], seq=3))
    assert workshop.drills.since("ib", 1) == (replace(kept[2], seq=3),)
    assert workshop.drills.since("maud", 0) == (replace(MAUD, seq=2),)
    assert workshop.drills.since("nobody", 0) == ()
    assert workshop.drills.people() == ("ib", "maud")
    assert workshop.drills.number() == 3


def test_results_are_read_in_any_thread_as_last_committed(workshop):
    workshop.drills.keep(RESULT)
    with ThreadPoolExecutor(1) as pool:
        read = pool.submit(workshop.drills.since, "ib", 0)
        assert read.result() == (replace(RESULT, seq=1),)


def test_a_file_that_was_taken_away_is_told_of_in_another_thread_and_not_made_anew(
    workshop, path, monkeypatch
):
    monkeypatch.setattr(workshop.drills._tables, "_path", path.with_name("gone.sqlite"))
    with ThreadPoolExecutor(1) as pool, pytest.raises(WorkshopError, match=r"gone\.sqlite"):
        pool.submit(workshop.drills.since, "ib", 0).result()
    assert not path.with_name("gone.sqlite").exists()


results = st.builds(
    Result,
    at=st.just(RESULT.at),
    person=names,
    pattern=words,
    pattern_name=words,
    piece=words,
    asked=st.builds(
        Asked,
        kind=st.sampled_from(DrillKind),
        seed=st.integers(0, 2**40),
        level=st.sampled_from(Level),
        piece=words,
        part=words,
        focus=words,
    ),
    answer=st.lists(names, max_size=4).map(tuple),
    right=st.booleans(),
    grade=st.sampled_from(Grade),
    seconds=st.floats(0, 1e6),
    hint=st.booleans(),
    reasons=st.lists(
        st.builds(ReasonMet, rule=names, name=words, kept=st.booleans(), decided=st.booleans()),
        max_size=4,
    ).map(tuple),
)


@pytest.fixture(scope="module")
def growing(tmp_path_factory):
    """A file that keeps what every example puts in it."""
    path = tmp_path_factory.mktemp("growing") / "workshop.sqlite"
    opened = WorkshopFile.open(path, FakeClock())
    yield opened
    opened.close()


@given(one=results)
def test_what_is_kept_is_read_as_it_was(growing, one):
    before = growing.drills.number()
    number = growing.drills.keep(one)
    assert number == before + 1
    assert growing.drills.since(one.person, before) == (replace(one, seq=number),)


def test_words_on_skills_are_read_in_the_order_they_were_said(workshop):
    before = replace(SIGNED, how=SkillHow.ALONE, at=SIGNED.at.replace(year=2020), note="")
    workshop.skills.keep(SIGNED)
    assert workshop.skills.number() == 1
    workshop.skills.keep(before, SIGNED)
    assert workshop.skills.all() == (SIGNED, before, SIGNED)
    assert workshop.skills.number() == 3


def test_two_windows_keep_results_beside_one_another(workshop, path):
    other = WorkshopFile.open(path, FakeClock())
    mark = other.mark()
    workshop.drills.keep(RESULT)
    assert other.mark() != mark
    assert other.drills.keep(MAUD) == 2
    assert workshop.drills.since("maud", 0) == (replace(MAUD, seq=2),)
    assert other.drills.since("ib", 0) == (replace(RESULT, seq=1),)
    workshop.skills.keep(SIGNED)
    assert other.skills.all() == (SIGNED,)
    other.close()


def test_a_window_that_reads_along_keeps_nothing_and_says_so(workshop, path):
    workshop.drills.keep(RESULT)
    along = WorkshopFile.open(path, FakeClock(), OnlyReads(path))
    for keep in (lambda: along.drills.keep(MAUD), lambda: along.skills.keep(SIGNED)):
        with pytest.raises(ReadsAlongError, match="is only read here"):
            keep()
    assert along.drills.since("ib", 0) == (replace(RESULT, seq=1),)
    assert workshop.drills.people() == ("ib",)
    assert workshop.skills.all() == ()
    along.close()


def test_on_a_full_disk_no_half_result_is_kept(path):
    db = connect(path)
    workshop = WorkshopFile(db, path, FakeClock())
    workshop.drills.keep(RESULT)
    pages = db.execute("PRAGMA page_count").fetchone()[0]
    db.execute(f"PRAGMA max_page_count = {pages + 1}").fetchall()
    many = tuple(
        ReasonMet(rule=f"rule-{number}", name="x" * 200, kept=True) for number in range(500)
    )
    with pytest.raises(WorkshopError, match="the disk is full"):
        workshop.drills.keep(replace(RESULT, reasons=many))
    with pytest.raises(WorkshopError, match="the disk is full"):
        workshop.skills.keep(*(replace(SIGNED, note="x" * 2000) for _ in range(50)))
    assert workshop.drills.since("ib", 0) == (replace(RESULT, seq=1),)
    assert workshop.skills.all() == ()
    db.execute("PRAGMA max_page_count = 1000000").fetchall()
    assert workshop.drills.keep(replace(RESULT, reasons=many)) == 2
    assert workshop.drills.since("ib", 1)[0].reasons == many
    workshop.close()


def test_a_result_that_was_acknowledged_outlives_a_kill(workshop, path, request):
    tests_folder = request.config.rootpath / "tests"
    process = subprocess.Popen(
        [sys.executable, str(tests_folder / "store" / "drill_forever.py"), str(path)],
        stdout=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(tests_folder)},
        text=True,
    )
    with process:
        told = [process.stdout.readline() for _ in range(5)]
        process.kill()
        told += process.stdout.readlines()
    number, seed = map(int, [line for line in told if line.endswith("\n")][-1].split())
    kept = workshop.drills.since("ib", 0)
    # At most what was under way when it was killed goes beyond what was told.
    assert number <= len(kept) <= number + 1
    assert [one.seq for one in kept] == list(range(1, len(kept) + 1))
    # No result is there without its reasons, and of two words said at once never one alone.
    assert {one.reasons for one in kept} == {RESULT.reasons}
    said = workshop.skills.all()
    assert len(said) % 2 == 0
    assert str(seed) in {one.note for one in said}


def test_what_cannot_be_a_result_is_damage_in_words(workshop, path):
    workshop.drills.keep(RESULT)
    workshop._write(("DROP TRIGGER drills_never_change", {}))
    workshop._write(("UPDATE drills SET grade = 'sung'", {}))
    with pytest.raises(WorkshopError, match="is damaged"):
        workshop.drills.since("ib", 0)


def test_a_backup_holds_them_and_a_restoring_tells_what_would_be_lost(workshop, path):
    workshop.drills.keep(RESULT)
    backup = back_up_today(path, FakeClock())
    workshop.drills.keep(RESULT)
    workshop.skills.keep(SIGNED)
    assert {"drills", "drill_reasons", "skills"} <= set(GROWING)
    lost = dict(rehearse(path, backup, FakeClock()).lost.rows)
    assert (lost["drills"], lost["drill_reasons"], lost["skills"]) == (1, 2, 1)
