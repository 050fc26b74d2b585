"""The samples load clean and would work in leather."""

from itertools import pairwise
from math import dist

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.checking import shape_findings
from armorplan.geometry.covers.covering import covered_heads
from armorplan.geometry.holes.edges import edge_distances_mm
from armorplan.geometry.placing import fit
from armorplan.geometry.stacks import POSTED, joint_stack
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.joining import Motion
from armorplan.pattern.parts import PartKind
from armorplan.workshop.fastening import choose_length

SHELF = read_shelf()
READ = {
    name: read_pattern(read_folder(samples_folder() / name), SHELF)
    for name in ("arm_harness", "collar", "elbow_cop", "three_lames")
}
every_sample = pytest.mark.parametrize("name", sorted(READ))
alike_rows = pytest.mark.parametrize("name", sorted(READ.keys() - {"arm_harness"}))
"""Samples whose rows are alike in both layers; the trims of an arm harness are longer than their edges."""


def _pattern(name):
    pattern = READ[name].pattern
    assert pattern is not None, READ[name].findings
    return pattern


@every_sample
def test_a_sample_has_nothing_to_find(name):
    assert READ[name].findings == ()
    assert shape_findings(_pattern(name), SHELF) == ()


@alike_rows
def test_rows_match_to_a_tenth_of_a_millimetre(name):
    pattern = _pattern(name)
    for seam in pattern.seams:
        rows = [pattern.joint(joint).stack[:2] for joint in seam.joints]
        for side in zip(*rows, strict=True):
            assert len({pattern.hole(hole).part for hole in side}) == 1
        for here, beyond in pairwise(rows):
            spans = [
                dist(pattern.hole(a).centre, pattern.hole(b).centre)
                for a, b in zip(here, beyond, strict=True)
            ]
            assert max(spans) - min(spans) < 0.1
            assert 20 <= spans[0] <= 30.01


@every_sample
def test_seams_lap_by_sixteen_millimetres(name):
    pattern = _pattern(name)
    edge = {
        hole.id: edge_mm
        for part in pattern.parts
        for hole, edge_mm in zip(part.holes, edge_distances_mm(part), strict=True)
    }
    for seam in pattern.seams:
        for joint in seam.joints:
            outer, inner = pattern.joint(joint).stack[:2]
            assert min(edge[outer], edge[inner]) >= 8
            assert edge[outer] + edge[inner] >= 16


@every_sample
def test_every_joint_has_a_post_on_sale(name):
    pattern = _pattern(name)
    for joint in pattern.joints:
        if joint.kind in POSTED:
            fastener = SHELF.fastener(joint.fastener)
            assert fastener is not None
            stack_mm = joint_stack(pattern, joint).most_mm
            assert (
                choose_length(stack_mm, fastener, pinch_pct=SHELF.constants.pinch.value)
                is not None
            ), joint.id


@pytest.mark.parametrize(
    ("name", "strap", "fold"),
    [
        ("collar", "buckle_strap", "buckle"),
        ("elbow_cop", "buckle_strap", "buckle"),
        ("three_lames", "upper_tab", "upper"),
        ("three_lames", "lower_tab", "lower"),
        *(("arm_harness", f"{name}_tab", name) for name in ("high", "low", "fore", "wrist")),
    ],
)
def test_a_folded_buckle_strap_brings_its_two_holes_together(name, strap, fold):
    pattern = _pattern(name)
    (slot,) = pattern.part(strap).slots
    fold_x = (min(x for x, _ in slot.outline) + max(x for x, _ in slot.outline)) / 2
    top, under = (pattern.hole(f"{fold}_fold_{h}").centre for h in ("top", "under"))
    assert fold_x - top[0] == pytest.approx(under[0] - fold_x, abs=0.01)


def test_the_boss_hides_the_two_rivets_of_the_lace_tab_and_no_other():
    assert covered_heads(_pattern("elbow_cop"), SHELF) == (
        ("boss", "tab_top", 100.0),
        ("boss", "tab_bottom", 100.0),
    )
    assert covered_heads(_pattern("collar"), SHELF) == ()


def test_one_rivet_of_the_right_row_holds_the_strap_too():
    pattern = _pattern("elbow_cop")
    thick = [j for j in pattern.joints if len(j.stack) == 3]
    assert [j.id for j in thick] == ["right_row_4"]
    assert pattern.stack_parts("right_row_4") == ("petal_middle", "petal_right", "closing_strap")


def test_the_rows_of_the_cop_draw_it_into_a_cup():
    """Both edges bulge towards each other: flat, the rows lie centimetres off, turned over none."""
    pattern = _pattern("elbow_cop")
    for seam in pattern.seams:
        outer, inner = zip(*(pattern.joint(j).stack[:2] for j in seam.joints), strict=True)
        laid = fit(*([pattern.hole(h).centre for h in side] for side in (outer, inner)))
        assert laid is not None
        assert laid.worst_mm > 10
        assert laid.mirrored_residual_mm < 0.01


def test_the_keeper_passes_its_slots_and_the_strap_passes_the_keeper():
    pattern = _pattern("elbow_cop")
    ys = [y for _, y in pattern.part("keeper").outline]
    keeper_mm = max(ys) - min(ys)
    slots = pattern.part("petal_left").slots
    assert [s.id for s in slots] == ["left_slot_top", "left_slot_bottom"]
    assert all(keeper_mm + 1 <= s.length_mm <= keeper_mm + 3 for s in slots)
    assert all(s.width_mm > pattern.part("keeper").thickness_mm + 1 for s in slots)
    gap_mm = min(y for _, y in slots[1].outline) - max(y for _, y in slots[0].outline)
    strap = [y for _, y in pattern.part("closing_strap").outline]
    assert gap_mm >= max(strap) - min(strap) + 4


def test_the_collar_turns_on_one_post_and_is_large_enough():
    pattern = _pattern("collar")
    assert len(pattern.parts) >= 8
    assert len(pattern.joints) >= 20
    assert [j.id for j in pattern.joints if j.motion is Motion.TURNING] == ["hinge"]
    assert {p.kind for p in pattern.parts} >= {PartKind.PLATE, PartKind.LAME, PartKind.STRAP}
