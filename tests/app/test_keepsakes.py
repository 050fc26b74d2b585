"""What is kept with the build at the bench, and what is said of it."""

from armorplan.ledger.keepsakes import THE_BUILD, About, AboutKind

PNG = b"\x89PNG\r\n\x1a\n" + b"lantern" * 50


def test_notes_measurements_and_photos_of_a_step_are_told_and_kept(bench, tmp_path):
    kept, step = bench.session.keepsakes, bench.session.derived.order[0]
    about = About(kind=AboutKind.STEP, id=step)
    photo = tmp_path / "row three.png"
    photo.write_bytes(PNG)
    assert kept.note(about, " row 3 gapes \n") == "The note is kept."
    assert kept.measurement(about, 4.25, "mm", "gap") == "Kept: 4.25 mm."
    assert kept.photo(about, kept.copying(photo)(), "the gap") == "The photo is kept."
    kept.note(THE_BUILD, "for Maud")
    note, gap, seen = kept.all(about)
    assert (note.text, gap.value, gap.unit) == ("row 3 gapes", 4.25, "mm")
    assert kept.path(seen).read_bytes() == PNG
    assert kept.path(note) is None
    assert [kept.amiss(one) for one in (note, seen)] == ["", ""]
    assert len(kept.all()) == 4
    assert bench.reopened().keepsakes.all() == kept.all()
    kept.path(seen).unlink()
    assert "is gone" in kept.amiss(seen)
    assert kept.withdraw(gap) == "The measurement is shown no more."
    assert kept.all(about) == (note, seen)


def test_what_says_nothing_is_not_kept(bench):
    kept = bench.session.keepsakes
    assert kept.note(THE_BUILD, " \n").startswith("Not recorded. The note is empty.")
    assert "is no number" in kept.measurement(THE_BUILD, float("nan"), "mm")
    assert kept.all() == ()


def test_what_another_window_keeps_or_withdraws_is_seen_within_the_next_look(bench):
    other, heard = bench.reopened(), []
    other.subscribe(lambda: heard.append(len(other.keepsakes.all())))
    bench.session.keepsakes.note(THE_BUILD, "gap")
    assert other.read_along()
    bench.session.keepsakes.withdraw(bench.session.keepsakes.all()[0])
    assert other.read_along()
    assert not other.read_along()
    assert not bench.session.read_along()
    assert heard == [1, 0]
