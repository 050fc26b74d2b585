"""Dry fits ask a pattern to change: row by row, with before and after, kept as a version with a note."""

from dataclasses import replace
from datetime import date, timedelta
from math import dist
from shutil import copytree

import pytest

from armorplan.app.carrying import carried
from armorplan.app.corrections_desk import accepted, corrections_asked, keep_accepted
from armorplan.app.corrections_model import Remedy, Standing
from armorplan.app.corrections_rows import proposals
from armorplan.app.draft import Bench as Reading
from armorplan.app.draft import Refused, drafted
from armorplan.app.drafting import Home, OpenDraft
from armorplan.app.fit_corrections import not_mended_yet
from armorplan.app.fit_findings import FitFinding, FoundKind, finding_text
from armorplan.app.fit_keeping import keep_findings
from armorplan.files.catalogue import read_shelf
from armorplan.files.source import read_folder
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.ledger import acting
from armorplan.ledger.events import EventKind
from armorplan.ledger.state import derive
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

DAY = date(2026, 11, 29)


@pytest.fixture(scope="module")
def draft():
    reading = Reading(shelf=read_shelf(), shop=one_maker("UTC"))
    return drafted(read_folder(samples_folder() / "elbow_cop"), reading)


@pytest.fixture
def folder(tmp_path):
    return copytree(samples_folder() / "elbow_cop", tmp_path / "elbow_cop")


@pytest.fixture
def ask(bench, draft, folder):
    """Return what looks through the builds after findings were told."""

    def asking(*found, now=draft):
        (fit, *_) = bench.ids(StepKind.DRY_FIT)
        for kind, about, mm in found:
            one = FitFinding(look="gap:left_row", about=about, kind=FoundKind(kind), mm=mm)
            events = acting.tell(EventKind.FOUND, fit, finding_text(one), bench.session.press())
            bench.session.keep(events, "")
        opened = OpenDraft(draft=now, home=Home(folder=folder, saved_texts=now.texts))
        return corrections_asked(bench.session, lambda: opened)()

    return asking


def punched(bench):
    """Tick what cuts and punches leather, whatever should come before it."""
    bench.session.done((*bench.ids(StepKind.CUT), *bench.ids(StepKind.PUNCH)))


def test_a_gap_is_offered_with_before_and_after_and_where_it_was_found(ask):
    (row,) = ask(("gap", "left_row_3", 2.0)).rows
    (move,) = row.moves
    assert (move.hole, move.part_name, row.standing) == ("left_3", "left petal", Standing.OFFERED)
    assert move.mm == pytest.approx(2.0, abs=0.1)
    assert dist(move.before, move.after) == pytest.approx(move.mm)
    assert [(f.build, f.version, f.words) for f in row.found] == [
        ("elbow_cop-1", 1, "a gap of 2 mm, left row, hole 3")
    ]


def test_the_same_thing_found_again_is_one_row(ask):
    (row,) = ask(("gap", "left_row_3", 2.0), ("gap", "left_row_3", 3.0)).rows
    assert len(row.found) == 2
    assert row.most_mm == pytest.approx(3.0, abs=0.1)


def test_only_what_is_accepted_goes_into_the_next_version(ask):
    asked = ask(("gap", "left_row_3", 2.0), ("gap", "right_row_5", 1.0))
    one, other = (row.key for row in asked.rows)
    made = accepted(asked, {one}, note="The left row meets.", on=DAY)
    pattern = made.draft.pattern
    assert [c.holes for c in pattern.corrections] == [("left_3",)]
    assert pattern.version == asked.next_version == 2
    (note,) = pattern.versions
    assert (note.version, note.note, note.on) == (2, "The left row meets.", "2026-11-29")
    assert note.from_builds == ("elbow_cop-1",)
    assert "left_3 in left petal moved 2 mm" in note.changed[0]
    left = ask(now=made.draft).rows
    assert {row.key: row.standing for row in left} == {
        one: Standing.KEPT,
        other: Standing.OFFERED,
    }


def test_nothing_accepted_writes_nothing(ask, folder):
    asked = ask(("gap", "left_row_3", 2.0))
    assert isinstance(accepted(asked, ()), Refused)
    before = (folder / "pattern.toml").read_bytes()
    with pytest.raises(ArmorplanError, match="Nothing is accepted"):
        keep_accepted(asked, ())
    assert (folder / "pattern.toml").read_bytes() == before


def test_it_is_written_into_the_folder_and_the_versions_tell_of_it(ask, folder):
    asked = ask(("gap", "left_row_3", 2.0))
    said = keep_accepted(asked, {asked.rows[0].key}, note="The left row meets.", on=DAY)
    assert said.startswith("Kept in version 2 of the pattern")
    assert "[versions.v2]" in (folder / "pattern.toml").read_text(encoding="utf-8")
    reading = Reading(shelf=read_shelf(), shop=one_maker("UTC"))
    new, old = ask(now=drafted(read_folder(folder), reading)).versions
    assert (new.version, new.is_now, new.builds) == (2, True, ())
    assert new.from_builds == ("Elbow cop of the lantern watch",)
    assert (old.version, old.is_now) == (1, False)
    (cut,) = old.builds
    assert cut.is_open
    assert not cut.is_cut
    assert "was begun from version 1; no leather of it is cut yet." in cut.text
    assert "Version 2 brought: The left row meets." in cut.text
    assert "Nothing that is cut or punched differs" in cut.text


def test_leather_that_is_not_punched_follows_the_new_version(ask):
    (advice,) = ask(("gap", "left_row_3", 2.0)).rows[0].advice
    assert (advice.remedy, advice.part_name, advice.holes) == (
        Remedy.NOT_YET,
        "left petal",
        ("left_3",),
    )


def test_a_punched_hole_is_made_oval_or_plugged_by_how_far_it_is_out(bench, ask):
    punched(bench)
    near, far = (ask(("gap", f"left_row_{n}", mm)).rows[-1] for n, mm in ((3, 2.0), (5, 7.0)))
    assert near.advice[0].remedy is Remedy.OVAL
    assert "1 hole is out by up to 2.0 mm. A slot of 6.0 mm would lie under heads of" in (
        near.advice[0].text
    )
    assert "leather are left to the edge" in near.advice[0].text
    assert far.advice[0].remedy in (Remedy.PLUG, Remedy.ANEW)


def test_what_punch_and_leather_make_up_is_left(bench, ask):
    punched(bench)
    (row,) = ask(("gap", "left_row_3", 0.4)).rows
    assert row.advice[0].remedy is Remedy.LEAVE
    assert "made up by punch and leather" in row.advice[0].text


def test_what_is_no_matter_of_mm_becomes_a_check_without_moves(ask):
    (row,) = ask(("pinches", "boss_left", 0.0)).rows
    assert row.moves == ()
    assert [change.table for change in row.changes] == ["fit_checks"]


def test_a_hole_moved_in_the_drawing_itself_counts_as_kept(ask, draft):
    (row,) = ask(("gap", "left_row_3", 2.0)).rows
    (move,) = row.moves
    svg = dict(draft.texts)["elbow_cop.svg"]
    x, y = (f"{value:g}" for value in move.before)
    assert svg.count(f'cx="{x}" cy="{y}"') == 1
    a, b = (f"{value:g}" for value in move.after)
    moved = svg.replace(f'cx="{x}" cy="{y}"', f'cx="{a}" cy="{b}"')
    now = draft.with_files({"elbow_cop.svg": moved})
    assert ask(now=now).rows[0].standing is Standing.KEPT


def test_a_rivet_that_is_set_is_left_as_it_is(bench, ask):
    punched(bench)
    (setting,) = (s.id for s in bench.session.derived.work.steps if s.id.endswith("/left_row_3"))
    bench.session.done((setting,))
    (row,) = ask(("gap", "left_row_3", 2.0)).rows
    assert row.advice[0].remedy is Remedy.LEAVE
    assert "set already" in row.advice[0].text


def test_a_hole_at_its_edge_is_worth_a_new_part(bench, ask):
    """A slot towards the edge has to leave a hole's diameter of leather: 7 mm leave none here."""
    punched(bench)
    (row,) = ask(("overlap", "left_row_3", 7.0)).rows
    assert row.advice[0].remedy in (Remedy.PLUG, Remedy.ANEW)
    assert "mm of leather are left to the edge" in row.advice[0].text


def test_what_was_punched_before_is_told_with_its_version(bench, ask):
    punched(bench)
    asked = ask(("gap", "left_row_3", 2.0))
    made = accepted(asked, {asked.rows[0].key})
    (_, old) = ask(now=made.draft).versions
    assert old.builds[0].is_cut
    assert "was cut from version 1." in old.builds[0].text
    assert "to the former drawing" in old.builds[0].text
    assert "'left_3' is out by 2.0 mm" in old.builds[0].text


def test_a_second_note_of_one_version_is_added_to_the_first(ask, draft):
    asked = ask(("gap", "left_row_3", 2.0), ("gap", "right_row_5", 1.0))
    one, other = (row.key for row in asked.rows)
    once = accepted(asked, {one}, note="First.").draft
    twice = accepted(ask(now=once), {other}, on=DAY).draft
    (note,) = twice.pattern.versions
    assert (note.version, note.note, note.on) == (2, "First.", "2026-11-29")
    assert len(note.changed) == 2
    assert twice.pattern.version == 2


def test_another_build_of_the_pattern_is_looked_through_as_well(bench, ask, folder):
    """A second build is begun in the same workshop; what its fit shows is a row of its own."""
    record = replace(bench.session.build, id="elbow_cop-2", name="second cop")
    bench.workshop.add_build(record)
    asked = ask(("gap", "left_row_3", 2.0))
    assert [build.name for build in asked.builds] == [bench.session.build.name, "second cop"]
    assert {advice.build_name for advice in asked.rows[0].advice} == {
        bench.session.build.name,
        "second cop",
    }
    assert len(asked.versions[0].builds) == 2


def test_builds_of_one_name_are_told_apart(bench, ask):
    name = bench.session.build.name
    bench.workshop.add_build(replace(bench.session.build, id="elbow_cop-2"))
    names = [build.name for build in ask(("gap", "left_row_3", 2.0)).builds]
    assert names == [f"{name} (elbow_cop-1)", f"{name} (elbow_cop-2)"]


def test_what_the_check_says_of_the_same_holes_is_told_as_a_likelier_cause(ask, draft):
    tight = Finding(
        code="bend-tighter-than-beneath",
        severity=Severity.WARNING,
        text="It is bent to 79 mm over 84.6 mm.",
        remedy="Turn their stacks round.",
        about=("petal_left", "left_row_2"),
    )
    elsewhere = replace(tight, about=("right_row_2",))
    (build,) = ask(("gap", "left_row", 2.0)).builds
    for finding, causes in (
        (tight, ("It is bent to 79 mm over 84.6 mm. Turn their stacks round.",)),
        (elsewhere, ()),
    ):
        found = replace(build, derived=replace(build.derived, findings=(finding,)))
        (row,) = proposals(draft, (found,))
        assert row.causes == causes


def test_another_drawing_under_the_same_number_is_told(ask, draft):
    renamed = draft.put((("parts", "boss", "name"), "lantern boss"))
    ((old,),) = (version.builds for version in ask(now=renamed).versions)
    assert "is still called version 1: raise its version" in old.text
    ((same,),) = (version.builds for version in ask().versions)
    assert same.text.endswith("Nothing was changed since.")


def test_a_build_that_goes_on_from_another_does_not_move_its_holes_twice(bench, ask):
    """Findings go over into the build of the corrected pattern; there they are mended already."""
    (row,) = ask(("gap", "left_row_3", 2.0)).rows
    made = accepted(ask(), {row.key})
    new = made.draft.derived
    events = carried(bench.session.entries(), bench.session.derived, new, build=new.assembly.build)
    state, before, after = derive(events), events[0].at, events[0].at + timedelta(days=1)
    assert len(not_mended_yet(new, state, before)) == 1
    assert not_mended_yet(new, state, after) == ()
    assert len(not_mended_yet(bench.session.derived, state, after)) == 1


def test_what_is_kept_at_once_is_noted_as_well(bench, draft, folder):
    """The shorter way, all findings of one build in one go, notes the version too."""
    (fit, *_) = bench.ids(StepKind.DRY_FIT)
    found = FitFinding(look="gap:left_row", about="left_row_3", kind=FoundKind.GAP, mm=2.0)
    opened = OpenDraft(draft=draft, home=Home(folder=folder, saved_texts=draft.texts))
    kept = keep_findings(opened, bench.session.derived, [(fit, found)])
    (note,) = kept.opened.draft.pattern.versions
    assert (note.version, note.from_builds) == (2, ("elbow_cop-1",))
    assert "left_3 in left petal moved" in note.changed[0]
