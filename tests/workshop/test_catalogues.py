import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.pattern.joining import JointKind
from armorplan.steps.model import StepKind
from armorplan.workshop.shelf import Carrier, TreatmentKind

COMMON = "common practice, no source"
PUBLICATIONS = ("NAVEDTRA 14018", "Heritage Science 2019")
BY_TREATMENT = {
    *(StepKind.CASE, StepKind.DYE, StepKind.OIL, StepKind.FINISH),
    *(StepKind.DRIP, StepKind.WATCH, StepKind.DRY, StepKind.CURE),
}
SHELF = read_shelf()
ALL = (
    *SHELF.leathers,
    *SHELF.fasteners,
    *SHELF.hardware,
    *SHELF.supplies,
    *SHELF.treatments,
    *SHELF.tools,
    *SHELF.durations,
    *SHELF.salvages,
)
MACHINE = "cut by machine"
"""Takes the place of 'cut' where an option says so."""


@pytest.mark.parametrize("entry", ALL, ids=lambda e: getattr(e, "id", None) or e.kind)
def test_every_entry_names_a_publication_or_says_common_practice(entry):
    assert COMMON in entry.source or any(name in entry.source for name in PUBLICATIONS)


def test_every_step_kind_has_its_minutes_once():
    expected = {kind.value for kind in StepKind if kind not in BY_TREATMENT}
    assert sorted(entry.kind for entry in SHELF.durations) == sorted({*expected, MACHINE})


def test_every_step_takes_hands_and_a_tool():
    for entry in SHELF.durations:
        minutes = (entry.fixed_min, entry.per_part_min, entry.per_hole_min, entry.per_cm_min)
        assert min(minutes) >= 0
        assert max(minutes) > 0, entry.kind
        assert entry.tool or entry.kind == StepKind.OWN, entry.kind


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


def test_leathers_overlap_the_range_of_hides_and_most_of_a_hide_is_used():
    for entry in SHELF.leathers:
        least, most = entry.usual_mm
        assert 0.4 <= least < most <= 6.4
        assert 50 <= entry.yield_pct <= 90


def test_every_step_of_hands_or_time_has_its_tool():
    served = {kind for tool in SHELF.tools for kind in tool.serves}
    assert served == {kind.value for kind in StepKind}


def test_what_is_dipped_has_its_minutes_and_uptake_together_and_takes_more_than_a_wipe():
    for entry in SHELF.treatments:
        assert (entry.dip_per_part_min is not None) == (entry.dip_ml_per_dm2 > 0), entry.id
        assert max(entry.wipe_ml_per_dm2, entry.dip_ml_per_dm2) > 0, entry.id
        if entry.dip_ml_per_dm2:
            assert entry.dip_ml_per_dm2 > 2 * entry.wipe_ml_per_dm2, entry.id


def test_wax_hardens_after_dye_and_water_before():
    hardeners = {e.id: e.after_dye for e in SHELF.treatments if e.kind is TreatmentKind.HARDENER}
    assert hardeners == {"hot_water_hardening": False, "wax_hardening": True}


def test_there_is_a_glue_a_cleaner_a_thread_and_a_lace():
    kinds = {entry.kind for entry in SHELF.treatments}
    assert kinds == set(TreatmentKind)
    assert {entry.kind for entry in SHELF.supplies} == {"thread", "lace"}
    assert [(e.per_seam, e.extra_mm) for e in SHELF.supplies] == [(4.0, 300.0)] * 5


@pytest.mark.parametrize("kind", ["buckle", "ring", "loop", "stud"])
def test_hardware_comes_for_straps_of_10_to_40_mm(kind):
    widths = sorted(e.strap_mm for e in SHELF.hardware if e.kind == kind)
    assert widths[-1] == 40
    assert widths[0] == (20 if kind == "stud" else 10)


def test_light_rivets_hold_no_load_and_the_others_do():
    light = {e.id for e in SHELF.fasteners if not e.load}
    assert light == {f"double_cap_{mm}" for mm in range(6, 11)} | {"bifurcated_8"}


def test_the_shipped_shelf_tells_no_prices():
    assert SHELF.currency == ""
    prices = ("price_per_dm2", "price_each", "price_per_m", "price_per_litre")
    assert all(getattr(entry, price, None) is None for entry in ALL for price in prices)
