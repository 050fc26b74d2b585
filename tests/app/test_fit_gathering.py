"""What was found twice, or left and right, counts once: a pattern is drawn once for both sides."""

from math import hypot

import pytest

from armorplan.app.draft import Bench, drafted
from armorplan.app.fit_corrections import CHECKS, changes_for
from armorplan.app.fit_findings import FitFinding, FoundKind
from armorplan.app.fit_gathering import gathered
from armorplan.files.catalogue import read_shelf
from armorplan.files.source import read_folder
from armorplan.kernel.shipped import samples_folder
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

JOINT, ROW = "upper_tab_1", "upper_tab_row"


@pytest.fixture(scope="module")
def draft():
    bench = Bench(shelf=read_shelf(), shop=one_maker("UTC"))
    return drafted(read_folder(samples_folder() / "three_lames"), bench)


@pytest.fixture(scope="module")
def tell(draft):
    """Return a finding at a joint or row of one side, with the step of that side's fit."""
    fits = draft.derived.work.of_kind(StepKind.DRY_FIT)

    def told(side, kind, mm, note="", about=JOINT):
        step = next(fit.id for fit in fits if f"/{side}/" in fit.id)
        place = f"{about}.{side}"
        return step, FitFinding(look="x", about=place, kind=FoundKind(kind), mm=mm, note=note)

    return told


def changes(draft, *found):
    return [change for one in gathered(found) for change in changes_for(draft.derived, one)]


def far(change):
    return pytest.approx(hypot(*change.values["move_mm"]), abs=0.1)


def test_of_both_sides_the_larger_counts_once(draft, tell):
    (change,) = changes(draft, tell("left", "gap", 2.0), tell("right", "gap", 3.0))
    assert far(change) == 3.0
    assert ", on both sides: " in change.text
    assert change.text.endswith("Left and right are drawn once: both move.")


def test_told_twice_with_another_note_it_moves_once(draft, tell):
    first, again = tell("left", "gap", 2.0, "By the strap."), tell("left", "gap", 2.0, "Again.")
    (change,) = changes(draft, first, again)
    assert far(change) == 2.0
    assert change.values["notes"] == "By the strap. Again."
    assert "on both sides" not in change.text


def test_found_both_ways_no_hole_moves_and_it_is_looked_for(draft, tell):
    (change,) = changes(draft, tell("left", "gap", 2.0), tell("right", "overlap", 2.0))
    assert change.table == CHECKS
    assert "found both ways" in change.values["notes"]


def test_across_and_along_a_row_are_two_things(draft, tell):
    across, along = changes(draft, tell("left", "gap", 2.0), tell("left", "long", 1.0))
    assert (far(across), far(along)) == (2.0, 1.0)
    assert across.id != along.id


def test_what_a_hole_showed_goes_before_what_its_row_showed(draft, tell):
    found = [tell("left", "gap", 1.0, about=ROW), tell("left", "gap", 3.0)]
    row, hole = gathered(found)
    (own,) = changes_for(draft.derived, hole)
    moved = frozenset(own.values["holes"])
    rest = [h for c in changes_for(draft.derived, row, moved) for h in c.values["holes"]]
    every = [h for c in changes_for(draft.derived, row) for h in c.values["holes"]]
    assert len(every) == len(rest) + 1
    assert {*every} - {*rest} == moved
