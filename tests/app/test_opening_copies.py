"""A copied folder is work of its own; a moved one goes on with what was ticked."""

import shutil
from dataclasses import replace

import pytest
from app.carrying_scene import SHOP, finding_of, of_kind, opened, rewrite, seated, state_of
from folders_cli import copy_sample

from armorplan.app.opening import open_build
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.findings import Severity
from armorplan.steps.model import StepKind

CODE = "pattern-of-another-folder"


@pytest.fixture
def folder(tmp_path):
    return copy_sample(tmp_path)


@pytest.fixture
def begun(folder, workshop, clock):
    """A build of the sample with one cut ticked."""
    first = opened(folder, workshop, clock)
    seated(first, workshop, clock).done((of_kind(first, StepKind.CUT)[0],))
    return first


def codes(found):
    return [finding.code for finding in found.derived.findings]


def copied(folder):
    return shutil.copytree(folder, folder.parent / "second commission")


@pytest.mark.parametrize("edited", [True, False])
def test_a_copy_starts_fresh_and_says_whose_the_ticks_are(
    begun, folder, workshop, clock, *, edited
):
    copy = copied(folder)
    if edited:
        rewrite(copy, "coats = 2", "coats = 3")
    second = opened(copy, workshop, clock)
    assert second.build.id != begun.build.id
    assert second.difference is None
    assert state_of(second, workshop).records == ()
    finding = finding_of(second, CODE)
    assert finding.severity is Severity.WARNING
    assert f"'{begun.build.id}'" in finding.text
    assert str(folder) in finding.text
    assert "nothing was carried over" in finding.text
    assert "uuid" in finding.remedy


def test_a_copy_saved_at_the_bench_goes_on_with_what_was_ticked(begun, folder, workshop, clock):
    copy = copied(folder)
    rewrite(copy, "coats = 2", "coats = 3")
    second = open_build(copy, workshop, read_shelf(), SHOP, clock=clock, going_on=begun.build.id)
    assert second.difference.former == begun.build.id
    assert len(state_of(second, workshop).done_order) == 1
    assert CODE not in codes(second)


def test_each_folder_goes_on_with_its_own(begun, folder, workshop, clock):
    copy = copied(folder)
    second = opened(copy, workshop, clock)
    assert opened(folder, workshop, clock).build.id == begun.build.id
    again = opened(copy, workshop, clock)
    assert again.build.id == second.build.id
    assert CODE not in codes(again)
    cuts = of_kind(second, StepKind.CUT)
    seated(second, workshop, clock).done(tuple(cuts[1:3]))
    rewrite(copy, "coats = 2", "coats = 3")
    third = opened(copy, workshop, clock)
    assert third.difference.former == second.build.id
    assert len(state_of(third, workshop).done_order) == 2
    assert CODE not in codes(third)


def test_a_copy_with_a_uuid_of_its_own_is_another_pattern(begun, folder, workshop, clock):
    copy = copied(folder)
    rewrite(copy, "c1851013", "c1851014")
    second = opened(copy, workshop, clock)
    assert state_of(second, workshop).records == ()
    assert CODE not in codes(second)


@pytest.mark.parametrize("edited", [True, False])
def test_a_moved_folder_goes_on(begun, folder, workshop, clock, *, edited):
    moved = folder.rename(folder.parent / "moved")
    if edited:
        rewrite(moved, "coats = 2", "coats = 3")
    second = opened(moved, workshop, clock)
    assert len(state_of(second, workshop).done_order) == 1
    assert (second.build.id == begun.build.id) is not edited
    assert CODE not in codes(second)


def test_a_folder_that_now_holds_another_pattern_has_given_its_builds_away(
    begun, folder, workshop, clock
):
    moved = folder.rename(folder.parent / "moved")
    copy_sample(folder.parent, "collar").rename(folder)
    rewrite(moved, "coats = 2", "coats = 3")
    assert len(state_of(opened(moved, workshop, clock), workshop).done_order) == 1


def test_a_build_whose_folder_nobody_noted_is_gone_on_with(begun, folder, workshop, clock):
    class Forgetful:
        """The workshop as an older program left it."""

        events, add_build = workshop.events, workshop.add_build

        def builds(self):
            return tuple(replace(build, folder="") for build in workshop.builds())

    rewrite(folder, "coats = 2", "coats = 3")
    second = open_build(folder, Forgetful(), read_shelf(), SHOP, clock=clock)
    assert second.difference.former == begun.build.id


def test_a_copied_drawing_is_told_apart_too(folder, workshop, clock):
    drawing = folder / "elbow_cop.svg"
    first = opened(drawing, workshop, clock)
    other = folder.parent / "elbow_cop.svg"
    shutil.copy(drawing, other)
    second = opened(other, workshop, clock)
    assert second.build.id != first.build.id
    assert str(drawing) in finding_of(second, CODE).text
