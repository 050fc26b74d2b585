"""Builds: found again, or started anew when the pattern was changed."""

from dataclasses import replace

import pytest
from clocks import FakeClock
from folders_cli import copy_sample

from armorplan.app.derived import derive_build
from armorplan.app.opening import build_named, check_folder, open_build, resume_build
from armorplan.app.session import Session
from armorplan.app.snapshots import relations_from, relations_text, shelf_from, shelf_text
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import WorkshopError
from armorplan.relations.model import Before, Force
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.shop import one_maker

SHOP = one_maker("UTC")


def test_the_same_pattern_is_the_same_build_and_a_changed_one_is_new(tmp_path):
    clock = FakeClock()
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", clock)
    folder = copy_sample(tmp_path)
    first = open_build(folder, workshop, read_shelf(), SHOP, clock=clock)
    again = open_build(folder, workshop, read_shelf(), SHOP, clock=clock)
    assert again.build.id == first.build.id == "elbow_cop-1"
    toml = folder / "pattern.toml"
    toml.write_text(toml.read_text(encoding="utf-8").replace("coats = 2", "coats = 3", 1))
    changed = open_build(folder, workshop, read_shelf(), SHOP, clock=clock)
    assert changed.build.id == "elbow_cop-2"
    assert len(changed.derived.order) == len(first.derived.order) + 2
    (told,) = (f for f in changed.derived.findings if f.code == "pattern-changed")
    assert "--build elbow_cop-1" in told.remedy
    kept = resume_build(build_named(workshop.builds(), "elbow_cop-1"), SHOP)
    assert kept.derived.order == first.derived.order
    workshop.close()


def test_a_running_build_keeps_its_relations_and_says_so(tmp_path):
    clock = FakeClock()
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", clock)
    build = open_build(copy_sample(tmp_path), workshop, read_shelf(), SHOP, clock=clock).build
    fewer = relations_text(relations_from(build.relations_json)[:-3])
    resumed = resume_build(replace(build, relations_json=fewer), SHOP)
    (finding,) = (f for f in resumed.derived.findings if f.code == "relations-kept")
    assert "would add 3 and drop 0" in finding.text
    workshop.close()


def test_a_build_resumed_in_other_air_counts_its_minutes_in_that_air(tmp_path):
    clock = FakeClock()
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", clock)
    started = open_build(copy_sample(tmp_path), workshop, read_shelf(), SHOP, clock=clock)
    damp = replace(SHOP, room=Room(usual=Climate(temperature_c=15.0, humidity_pct=75.0)))
    resumed = resume_build(started.build, damp).derived
    anew = derive_build(
        started.derived.pattern, started.derived.shelf, damp, build=started.build.id
    )
    assert resumed.relations == anew.relations != started.derived.relations
    assert {r.lag_min for r in resumed.waits} != {r.lag_min for r in started.derived.waits}
    assert not [f for f in resumed.findings if f.code == "relations-kept"]
    workshop.close()


def test_a_kept_relation_stays_as_strong_as_it_was(tmp_path):
    clock = FakeClock()
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", clock)
    opened = open_build(copy_sample(tmp_path), workshop, read_shelf(), SHOP, clock=clock)
    first, *rest = opened.derived.relations
    weaker = replace(first, reason=replace(first.reason, force=Force.USUAL, text="as it was told"))
    record = replace(opened.build, relations_json=relations_text((weaker, *rest)))
    resumed = resume_build(record, SHOP).derived.relations[0]
    assert resumed.reason.force is Force.USUAL
    assert resumed.reason.text == first.reason.text
    workshop.close()


def test_a_kept_window_to_a_step_that_is_gone_asks_for_nothing(tmp_path):
    clock = FakeClock()
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", clock)
    opened = open_build(copy_sample(tmp_path), workshop, read_shelf(), SHOP, clock=clock)
    first, *rest = opened.derived.order
    reason = opened.derived.relations[0].reason
    gone = Before(first=first, then="gone", reason=reason, max_lag_min=30)
    kept = relations_text((*opened.derived.relations, gone))
    resumed = resume_build(replace(opened.build, relations_json=kept), SHOP)
    (told,) = (f for f in resumed.derived.findings if f.code == "relations-kept")
    assert "would add 0 and drop 1" in told.text
    session = Session(resumed.build, resumed.derived, workshop, clock, lambda: "press")
    session.done((first,))
    assert session.timers() == ()
    assert set(session.ready_steps()) <= set(rest)
    workshop.close()


@pytest.mark.parametrize("text", ["", "{", "[]", "{}", '{"first": 3}', "[1, 2]", '["a"]', "null"])
def test_a_snapshot_of_another_form_is_told_in_words(text, tmp_path):
    clock = FakeClock()
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", clock)
    build = open_build(copy_sample(tmp_path), workshop, read_shelf(), SHOP, clock=clock).build
    with pytest.raises(WorkshopError, match="catalogues kept with this build cannot be read"):
        resume_build(replace(build, constants_json=text), SHOP)
    if text not in {"[]", "{}"}:
        with pytest.raises(WorkshopError, match="relations kept with this build cannot be read"):
            resume_build(replace(build, relations_json=text), SHOP)
    workshop.close()


def test_snapshots_come_back_as_they_were(tmp_path):
    shelf = read_shelf()
    assert shelf_from(shelf_text(shelf)) == shelf
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", FakeClock())
    opened = open_build(copy_sample(tmp_path), workshop, shelf, SHOP, clock=FakeClock())
    assert relations_from(relations_text(opened.derived.relations)) == opened.derived.relations
    workshop.close()


def test_check_gathers_what_files_shapes_and_relations_tell(tmp_path):
    folder = copy_sample(tmp_path)
    drawing = folder / "elbow_cop.svg"
    text = drawing.read_text(encoding="utf-8")
    moved = text.replace('<circle id="left_1" cx="106.426"', '<circle id="left_1" cx="108.926"')
    assert moved != text
    drawing.write_text(moved, encoding="utf-8")
    found = check_folder(folder, read_shelf(), SHOP).findings
    (off,) = (f for f in found if f.code == "hole-off-row")
    assert "'left_1' of left petal lies 0.7 mm too far towards 'left_2'" in off.text


def test_a_build_that_is_not_there_is_told_with_those_that_are(tmp_path):
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", FakeClock())
    open_build(copy_sample(tmp_path), workshop, read_shelf(), SHOP, clock=FakeClock())
    with pytest.raises(WorkshopError, match="elbow_cop-1"):
        build_named(workshop.builds(), "elbow_cop-9")
    workshop.close()


def test_a_bare_drawing_becomes_a_build_that_comes_back(tmp_path):
    clock = FakeClock()
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", clock)
    drawing = copy_sample(tmp_path) / "elbow_cop.svg"
    first = open_build(drawing, workshop, read_shelf(), SHOP, clock=clock)
    codes = {finding.code for finding in first.derived.findings}
    assert {"bare-drawing", "drawn-part", "look-alikes"} <= codes
    again = open_build(drawing, workshop, read_shelf(), SHOP, clock=clock)
    assert again.build.id == first.build.id == "elbow_cop-1"
    assert {finding.code for finding in again.derived.findings} == codes
    kept = resume_build(build_named(workshop.builds(), "elbow_cop-1"), SHOP)
    assert kept.derived.order == first.derived.order
    workshop.close()
