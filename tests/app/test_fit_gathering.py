"""What was found twice, or left and right, counts once: a pattern is drawn once for both sides."""

from dataclasses import replace

import pytest

from armorplan.app.draft import Bench, drafted
from armorplan.app.fit_corrections import with_findings
from armorplan.app.fit_findings import FitFinding, FoundKind
from armorplan.files.catalogue import read_shelf
from armorplan.files.source import read_folder
from armorplan.kernel.shipped import samples_folder
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

BENCH = Bench(shelf=read_shelf(), shop=one_maker("UTC"))
JOINT, HOLE = "upper_tab_1", "upper_tab_1"


@pytest.fixture(scope="module")
def draft():
    return drafted(read_folder(samples_folder() / "three_lames"), BENCH)


@pytest.fixture(scope="module")
def told(draft):
    """Findings at one joint: side, kind, mm, note."""
    fits = draft.derived.work.of_kind(StepKind.DRY_FIT)

    def tell(*found):
        return [
            (
                next(fit.id for fit in fits if f"/{side}/" in fit.id),
                FitFinding(
                    look="x", about=f"{JOINT}.{side}", kind=FoundKind(kind), mm=mm, note=note
                ),
            )
            for side, kind, mm, note in found
        ]

    return tell


def moves(made):
    return [c.move_mm for c in made.draft.derived.pattern.corrections]


def checks(made):
    return [c for c in made.draft.derived.pattern.fit_checks if c.id.startswith("found_")]


def far(made):
    (move,) = moves(made)
    return pytest.approx((move[0] ** 2 + move[1] ** 2) ** 0.5, abs=0.1)


def test_of_both_sides_the_larger_counts_once(draft, told):
    found = told(("left", "gap", 2.0, ""), ("right", "gap", 3.0, ""))
    made = with_findings(draft, draft.derived, found)
    assert far(made) == 3.0
    assert ", on both sides: " in made.changes[0].text
    assert made.changes[0].text.endswith("Left and right are drawn once: both move.")


def test_told_twice_with_another_note_it_moves_once(draft, told):
    found = told(("left", "gap", 2.0, "By the strap."), ("left", "gap", 2.0, "Again."))
    made = with_findings(draft, draft.derived, found)
    assert far(made) == 2.0
    assert made.draft.derived.pattern.corrections[0].notes == "By the strap. Again."
    assert "on both sides" not in made.changes[0].text


def test_found_both_ways_no_hole_moves_and_it_is_looked_for(draft, told):
    found = told(("left", "gap", 2.0, ""), ("right", "overlap", 2.0, ""))
    made = with_findings(draft, draft.derived, found)
    assert moves(made) == []
    (check,) = checks(made)
    assert "found both ways" in check.notes


def test_what_is_found_later_takes_the_place_of_what_was_written(draft, told):
    first = told(("left", "gap", 2.0, ""))
    once = with_findings(draft, draft.derived, first).draft
    more = [*first, *told(("right", "gap", 3.0, ""))]
    twice = with_findings(once, draft.derived, more)
    assert far(twice) == 3.0
    against = [*more, *told(("left", "overlap", 1.0, ""))]
    last = with_findings(twice.draft, draft.derived, against)
    assert moves(last) == []
    assert len(checks(last)) == 1
    assert last.draft.derived.pattern.version == draft.derived.pattern.version + 1


def test_what_a_hole_showed_goes_before_what_its_row_showed(draft, told):
    hole = told(("left", "gap", 3.0, ""))
    step, one = hole[0]
    row = (step, replace(one, about="upper_tab_row.left", mm=1.0))
    made = with_findings(draft, draft.derived, [row, *hole])
    by_hole = [h for c in made.draft.derived.pattern.corrections for h in c.holes]
    assert len(by_hole) == len(set(by_hole)) > 1
