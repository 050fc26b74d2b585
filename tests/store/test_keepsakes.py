"""Notes, measurements and photos of a build: kept for ever, photos whole or not at all."""

import os
from dataclasses import replace
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path

import pytest
from clocks import FakeClock
from store.shelf_of_builds import ELBOW

from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.keepsakes import THE_BUILD, About, AboutKind, Keepsake, KeepsakeKind
from armorplan.store import kept_files
from armorplan.store.workshop_file import WorkshopFile

STEP = About(kind=AboutKind.STEP, id=f"{ELBOW.id}/shell/left/rivet/r1")
PART = About(kind=AboutKind.PART, id="shell.left")
PNG = b"\x89PNG\r\n\x1a\n" + b"lantern" * 500
AT = datetime(2027, 3, 1, 9, 0, tzinfo=UTC)


def note(text="row 3 gapes", about=STEP, **values):
    return Keepsake(build=ELBOW.id, about=about, at=AT, text=text, **values)


@pytest.fixture
def path(tmp_path):
    return tmp_path / "workshop.sqlite"


@pytest.fixture
def workshop(path):
    workshop = WorkshopFile.open(path, FakeClock())
    workshop.add_build(ELBOW)
    yield workshop
    workshop.close()


def test_what_is_kept_is_there_for_another_window(workshop, path):
    kept = workshop.keepsakes.files.keep(ELBOW.id, ("dry fit é.PNG", PNG))
    added = [
        workshop.keepsakes.add(one)
        for one in (
            note(who="Maud"),
            note("gap at row 3", PART, value=4.25, unit="mm"),
            note("", THE_BUILD, file=kept),
        )
    ]
    assert [one.seq for one in added] == [1, 2, 3]
    assert [one.kind for one in added] == list(KeepsakeKind)
    other = WorkshopFile.open(path, FakeClock())
    assert other.keepsakes.of(ELBOW.id) == tuple(added)
    assert other.keepsakes.of("collar-1") == ()
    file = other.keepsakes.files.path(kept.place)
    assert file.read_bytes() == PNG
    assert kept.sha256 == sha256(PNG).hexdigest()
    assert file.parent == path.with_name("workshop.sqlite.kept") / ELBOW.id
    assert file.name.startswith("dry_fit_é-")
    assert file.suffix == ".png"
    other.close()


def test_a_withdrawn_one_is_shown_no_more_and_stays_in_the_file(workshop):
    first, second = (workshop.keepsakes.add(note(text)) for text in ("wrong", "right"))
    workshop.keepsakes.withdraw(first, who="Ib")
    assert workshop.keepsakes.of(ELBOW.id) == (second,)
    rows = workshop._db.execute("SELECT count(*) FROM keepsakes").fetchone()
    assert rows == (2,)


def test_a_build_that_goes_on_takes_them_over_under_its_own_steps(workshop):
    kept = workshop.keepsakes.files.keep(ELBOW.id, ("a.png", PNG))
    gone = workshop.keepsakes.add(note("wrong"))
    workshop.keepsakes.add(note(file=kept))
    workshop.keepsakes.add(note("gap", PART, value=4.0, unit="mm"))
    workshop.keepsakes.withdraw(gone)
    workshop.add_build(replace(ELBOW, id="elbow_cop-2"), former=ELBOW.id)
    photo, gap = workshop.keepsakes.of("elbow_cop-2")
    assert photo.about == replace(STEP, id="elbow_cop-2/shell/left/rivet/r1")
    assert (gap.about, gap.value) == (PART, 4.0)
    assert workshop.keepsakes.files.amiss(photo.file, thorough=True) == ""
    assert len(workshop.keepsakes.of(ELBOW.id)) == 2


def test_the_same_photo_is_copied_once_and_no_other_is_written_over(workshop, monkeypatch):
    files = workshop.keepsakes.files
    first = files.keep(ELBOW.id, ("a.png", PNG))
    assert files.keep(ELBOW.id, ("a.png", PNG)) == first
    path = files.path(first.place)
    path.write_bytes(b"spoilt")
    again = files.keep(ELBOW.id, ("a.png", PNG))
    assert path.read_bytes() == b"spoilt"
    assert files.path(again.place).read_bytes() == PNG
    assert "another file than the one that was kept" in files.amiss(first)
    assert files.amiss(again, thorough=True) == ""


def test_a_disk_without_links_keeps_photos_too(workshop, monkeypatch):
    def refuse(*_args):
        raise PermissionError(1, "links are not known here")

    monkeypatch.setattr(os, "link", refuse)
    files = workshop.keepsakes.files
    first = files.keep(ELBOW.id, ("a.png", PNG))
    assert files.path(first.place).read_bytes() == PNG
    assert files.keep(ELBOW.id, ("a.png", PNG)) == first


def test_a_photo_that_is_gone_or_changed_is_told_with_its_place(workshop):
    files = workshop.keepsakes.files
    kept = files.keep(ELBOW.id, ("a.png", PNG))
    path = files.path(kept.place)
    path.write_bytes(PNG[::-1])
    assert files.amiss(kept) == ""
    assert str(path) in files.amiss(kept, thorough=True)
    path.unlink()
    assert "is gone" in files.amiss(kept)
    assert str(path) in files.amiss(kept)


@pytest.mark.parametrize(
    ("content", "words"),
    [(b"", "is empty"), (b"hello, harbour", "is no picture"), (PNG * 4, "is larger than")],
)
def test_what_is_no_photo_is_refused_and_leaves_nothing(workshop, monkeypatch, content, words):
    monkeypatch.setattr(kept_files, "MOST_BYTES", 2 * len(PNG))
    with pytest.raises(WorkshopError, match=words):
        workshop.keepsakes.files.keep(ELBOW.id, ("a.png", content))
    folder = workshop.path.with_name("workshop.sqlite.kept") / ELBOW.id
    assert list(folder.iterdir()) == []


def test_a_photo_that_is_not_there_or_a_folder_is_refused_in_words(workshop, tmp_path):
    for photo in (tmp_path / "none.png", tmp_path):
        with pytest.raises(WorkshopError, match=photo.name):
            workshop.keepsakes.files.keep(ELBOW.id, photo)


def test_a_full_disk_keeps_no_half_photo(workshop, monkeypatch):
    def full(*_args):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(kept_files, "_pour", full)
    with pytest.raises(WorkshopError, match="No space left on device"):
        workshop.keepsakes.files.keep(ELBOW.id, ("a.png", PNG))
    folder = workshop.path.with_name("workshop.sqlite.kept") / ELBOW.id
    assert list(folder.iterdir()) == []


def test_a_name_from_another_system_stays_in_its_folder(workshop):
    kept = workshop.keepsakes.files.keep("../odd build", ("..\\up/../x.jp/g", b"\xff\xd8\xff1"))
    path = workshop.keepsakes.files.path(kept.place)
    assert path.parent == Path(f"{workshop.path}.kept") / "odd_build"
    assert path.is_file()


def test_copies_that_a_kill_cut_off_are_swept_up_an_hour_later(workshop):
    kept = workshop.keepsakes.files.keep(ELBOW.id, ("a.png", PNG))
    folder = workshop.keepsakes.files.path(kept.place).parent
    old, new = folder / ".old.partial", folder / ".new.partial"
    for left, age_s in ((old, 7200), (new, 60)):
        left.write_bytes(b"half")
        seen_s = left.stat().st_mtime
        os.utime(left, (seen_s - age_s,) * 2)
    workshop.keepsakes.files.keep(ELBOW.id, ("b.png", PNG))
    assert not old.exists()
    assert new.exists()
