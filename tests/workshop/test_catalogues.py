import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.pattern.joining import JointKind
from armorplan.steps.model import StepKind
from armorplan.workshop.shelf import Carrier, TreatmentKind

COMMON = "common practice, no source"
PUBLICATIONS = ("NAVEDTRA 14018",)
BY_TREATMENT = {StepKind.DRY, StepKind.CASE, StepKind.DYE, StepKind.OIL, StepKind.FINISH}
SHELF = read_shelf()
ALL = (*SHELF.leathers, *SHELF.fasteners, *SHELF.treatments, *SHELF.durations)


@pytest.mark.parametrize("entry", ALL, ids=lambda e: getattr(e, "id", None) or e.kind)
def test_every_entry_names_a_publication_or_says_common_practice(entry):
    assert entry.source == COMMON or entry.source.startswith(PUBLICATIONS)


def test_every_step_kind_has_its_minutes_once():
    expected = {kind.value for kind in StepKind if kind not in BY_TREATMENT}
    assert sorted(entry.kind for entry in SHELF.durations) == sorted(expected)


def test_every_step_takes_hands_and_a_tool():
    for entry in SHELF.durations:
        minutes = (entry.fixed_min, entry.per_part_min, entry.per_hole_min, entry.per_cm_min)
        assert min(minutes) >= 0
        assert max(minutes) > 0, entry.kind
        assert entry.tool, entry.kind


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("cut", "blade"),
        ("punch", "hearing protection"),
        ("rivet", "eye protection"),
        ("bevel", "dust mask"),
        ("glue", "label"),
    ],
)
def test_what_can_hurt_carries_its_caution(kind, words):
    (entry,) = [e for e in SHELF.durations if e.kind == kind]
    assert any(words in caution for caution in entry.cautions)


def test_solvent_and_oil_warn_of_fire_and_rags_and_defer_to_the_label():
    for entry in SHELF.treatments:
        text = " ".join(entry.cautions).lower()
        if entry.carrier is Carrier.ALCOHOL:
            assert "no flame" in text
            assert "gloves" in text
        if entry.carrier in (Carrier.ALCOHOL, Carrier.OIL):
            assert "rags" in text
        if entry.kind is not TreatmentKind.CASING:
            assert "label" in text


def test_only_casing_has_a_window_and_handling_never_comes_before_touching():
    for entry in SHELF.treatments:
        assert (entry.window_min is not None) == (entry.kind is TreatmentKind.CASING)
        assert 0 < entry.touch_min <= entry.handle_min


def test_fasteners_are_rivets_or_screws_with_ascending_posts():
    for entry in SHELF.fasteners:
        assert JointKind(entry.kind) in (JointKind.RIVET, JointKind.SCREW)
        assert list(entry.lengths_mm) == sorted(set(entry.lengths_mm))
        assert entry.over_stack_mm[0] <= entry.over_stack_mm[1]
        assert entry.hole_mm < entry.head_mm


def test_leathers_overlap_the_range_of_hides():
    for entry in SHELF.leathers:
        least, most = entry.usual_mm
        assert 0.4 <= least < most <= 6.4
