"""Post lengths against published rules for rivets.

US Navy training manual NAVEDTRA 14018, fig. 13-43 (title from memory) and FAA AC 43.13-1B ch. 4:
length = grip + 1.5 shank diameters. DIN 660 solid rivets, as a riveting-machine maker's note gives
it: length = 1.1 grip + 1.3 diameters. ASME B18.7 body sizes with one fastener maker's clinch
allowances for semi-tubular rivets. Trade rules for cap rivets, tubular rivets and screw posts are
common practice; each says so where it stands.
"""

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.geometry.edge_rule import EDGE_DIAMETERS, least_edge_mm
from armorplan.geometry.holes.edges import PITCH_DIAMETERS
from armorplan.workshop.fastening import choose_length, length_fits, pinched_mm
from armorplan.workshop.shelf import Fastener

INCH = 25.4
PINCH_PCT = 7.5
"""The middle of the 5–10 % by which leather gives (common practice, no source; from memory)."""
BURR_MM = 1.0
"""Common practice, no source."""
SHANK_MM = {"copper_burr_2_8": 2.77, "copper_burr_3_4": 3.40, "copper_burr_3_8": 3.76}
"""Birmingham wire gauge 12, 10 and 9: Machinery's Handbook (from memory)."""
CLINCH_IN = (
    (0.058, 0.061, 0.040),
    (0.085, 0.089, 0.045),
    (0.095, 0.099, 0.050),
    (0.118, 0.123, 0.075),
    (0.141, 0.146, 0.092),
)
BY_ID = {entry.id: entry for entry in read_shelf().fasteners}


def _rivet(lengths_mm, over_stack_mm):
    return Fastener(
        id="rivet",
        name="rivet",
        kind="rivet",
        head_mm=8.0,
        hole_mm=3.0,
        lengths_mm=lengths_mm,
        over_stack_mm=over_stack_mm,
        source="",
    )


def test_the_manual_s_own_example():
    """D 1/8 in, G 1/4 in: 0.4375 in. A rigid stack is not pinched."""
    diameter_mm, grip_mm = INCH / 8, INCH / 4
    on_sale = tuple(INCH * sixteenths / 16 for sixteenths in range(4, 12))
    rivet = _rivet(on_sale, (1.5 * diameter_mm, 2.0 * diameter_mm))
    assert choose_length(grip_mm, rivet, pinch_pct=0.0) == pytest.approx(0.4375 * INCH)


@pytest.mark.parametrize("fastener_id", sorted(SHANK_MM))
@pytest.mark.parametrize("stack_mm", [3.0, 5.0, 6.35, 7.1, 8.0, 9.9])
def test_copper_rivets_are_never_too_short(fastener_id, stack_mm):
    length_mm = choose_length(stack_mm, BY_ID[fastener_id], pinch_pct=PINCH_PCT)
    assert length_mm is not None
    grip_mm, shank_mm = pinched_mm(stack_mm, pinch_pct=PINCH_PCT), SHANK_MM[fastener_id]
    manual_mm = grip_mm + BURR_MM + 1.5 * shank_mm
    assert length_mm >= manual_mm - 0.06, "the catalogue rounds 1.5 shanks to a tenth"
    assert length_mm >= 1.1 * grip_mm + 1.3 * shank_mm


@pytest.mark.parametrize(("grip_mm", "shank_mm", "length_mm", "hole_mm"), [(6.0, 3.0, 10.5, 3.45)])
def test_the_machine_maker_s_own_example(grip_mm, shank_mm, length_mm, hole_mm):
    """s 6, d 3: L = 1.1 s + 1.3 d = 10.5 mm, hole 1.15 d = 3.45 mm (riveting-machine maker's note).

    Beside it NAVEDTRA's grip + 1.5 d is 10.5 mm too: the two rules meet there.
    """
    assert 1.1 * grip_mm + 1.3 * shank_mm == pytest.approx(length_mm, abs=0.1)
    rivet = _rivet((9.0, 10.5, 12.0), (1.5 * shank_mm, 2.0 * shank_mm))
    assert choose_length(grip_mm, rivet, pinch_pct=0.0) == length_mm
    copper = BY_ID["copper_burr_2_8"]
    assert copper.hole_mm <= 1.15 * SHANK_MM[copper.id]
    assert hole_mm == pytest.approx(1.15 * shank_mm)


@pytest.mark.parametrize("fastener_id", sorted(BY_ID))
def test_selection_sweep(fastener_id):
    """For each stack the smallest length on sale between the pinched stack plus its allowances.

    Selection as the trade does it (common practice, no source), written out here on its own; where
    no length fits the answer is None, never a post that does not hold.
    """
    fastener = BY_ID[fastener_id]
    least_mm, most_mm = fastener.over_stack_mm
    for tenths in range(5, 260):
        stack_mm = tenths / 10
        grip_mm = stack_mm * (1 - PINCH_PCT / 100)
        fitting = [
            length
            for length in fastener.lengths_mm
            if grip_mm + least_mm - 1e-9 <= length <= grip_mm + most_mm + 1e-9
        ]
        assert choose_length(stack_mm, fastener, pinch_pct=PINCH_PCT) == min(
            fitting, default=None
        ), stack_mm
        for length in fastener.lengths_mm:
            assert length_fits(stack_mm, fastener, length, pinch_pct=PINCH_PCT) == (
                length in fitting
            )


@pytest.mark.parametrize(
    ("fastener_id", "least_mm", "most_mm"),
    [
        ("double_cap_9", 1.0, 3.0),  # most: a trade page; least: common practice, no source
        ("tubular_9", 1.6, 3.2),  # a leather shop's page: 1/16-1/8 in above the stack
        ("bifurcated_8", 2.4, 4.0),  # a craft page: leather and about 1/8 in (3.2 mm)
        (
            "screw_post_fixed",
            -0.5,
            0.0,
        ),  # trade pages: compressed thickness (the rest from memory)
        ("screw_post_turning", 0.2, 0.5),  # from memory
    ],
)
def test_allowances_of_the_trade(fastener_id, least_mm, most_mm):
    assert BY_ID[fastener_id].over_stack_mm == (least_mm, most_mm)


@pytest.mark.parametrize("fastener_id", ["double_cap_9", "tubular_9", "copper_burr_3_8"])
def test_plates_on_plates_always_have_a_post(fastener_id):
    """Two layers of 8-14 oz (6.4-11.2 mm): the stacks that plates and lames are riveted with."""
    fastener = BY_ID[fastener_id]
    for tenths in range(64, 113):
        assert choose_length(tenths / 10, fastener, pinch_pct=PINCH_PCT) is not None, tenths


def test_screw_posts_and_caps_reach_16_mm():
    reach = {e.id: max(e.lengths_mm) for e in BY_ID.values()}
    assert (
        reach["screw_post_fixed"] == reach["screw_post_turning"] == reach["double_cap_9"] == 16.0
    )


def test_a_post_just_outside_its_window_does_not_fit():
    cap = _rivet((6.0,), (0.0, 3.0))
    assert length_fits(6.0, cap, 6.0, pinch_pct=0.0)
    assert length_fits(3.0, cap, 6.0, pinch_pct=0.0)
    assert not length_fits(6.0 + 1e-6, cap, 6.0, pinch_pct=0.0)
    assert not length_fits(3.0 - 1e-6, cap, 6.0, pinch_pct=0.0)


@pytest.mark.parametrize(("least_in", "most_in", "clinch_in"), CLINCH_IN)
def test_clinch_allowances_lie_in_the_window_of_0_4_to_0_8_diameters(least_in, most_in, clinch_in):
    diameter_mm, grip_mm = INCH * (least_in + most_in) / 2, 4.0
    published_mm = grip_mm + clinch_in * INCH
    on_sale = (grip_mm + 0.3 * diameter_mm, published_mm, grip_mm + diameter_mm)
    rivet = _rivet(on_sale, (0.4 * diameter_mm, 0.8 * diameter_mm))
    assert choose_length(grip_mm, rivet, pinch_pct=0.0) == published_mm


def test_the_tubular_rivet_s_window_holds_the_published_clinch_of_its_size():
    """A 4.0 mm hole takes a body of 0.141–0.146 in with the maker's 0.25–0.38 mm of clearance."""
    least_in, most_in, clinch_in = CLINCH_IN[-1]
    tubular = BY_ID["tubular_9"]
    assert least_in * INCH + 0.25 <= tubular.hole_mm <= most_in * INCH + 0.38
    least_mm, most_mm = tubular.over_stack_mm
    assert least_mm <= clinch_in * INCH <= most_mm


def test_edges_and_pitch_are_never_below_the_manuals():
    """Edge at least 2 D: AC 43.13-1B par. 4-57/4-58. Pitch at least 3 D: NAVEDTRA 14018."""
    assert EDGE_DIAMETERS == 2.0
    assert PITCH_DIAMETERS == 3.0
    for diameter_mm in (2.5, 3.0, 4.0, 5.5, 6.5):
        assert least_edge_mm(diameter_mm, 0.0) >= 2 * diameter_mm


@pytest.mark.parametrize("fastener_id", ["double_cap_9", "tubular_9"])
@pytest.mark.parametrize("oz", [8, 9])
def test_two_layers_take_the_middle_post_and_three_the_long_one(fastener_id, oz):
    """Common practice, no source: of short, middle and long posts, two layers of the usual 8-9 oz
    plates take the middle ones, three the long ones. All are sold.
    """
    fastener, layer_mm = BY_ID[fastener_id], oz * INCH / 64
    two, three = (
        choose_length(layers * layer_mm, fastener, pinch_pct=PINCH_PCT) for layers in (2, 3)
    )
    assert min(fastener.lengths_mm) < two < three
    assert {two, three} <= set(fastener.lengths_mm)
    assert not length_fits(3 * layer_mm, fastener, two, pinch_pct=PINCH_PCT), "a size short"


@pytest.mark.parametrize("oz", [7, 8, 9, 10])
def test_a_fixed_screw_post_is_no_longer_than_the_stack_a_turning_one_is(oz):
    """Common practice, no source; from memory: fixed 0 to -0.5 mm, turning +0.2 to +0.5 mm.

    Written out here on its own. Where no post is sold for it a washer makes one fit.
    """
    stack_mm = 2 * oz * INCH / 64
    pinched = stack_mm * (1 - PINCH_PCT / 100)
    for fastener_id, least_mm, most_mm in (
        ("screw_post_fixed", -0.5, 0.0),
        ("screw_post_turning", 0.2, 0.5),
    ):
        fastener = BY_ID[fastener_id]
        post_mm = choose_length(stack_mm, fastener, pinch_pct=PINCH_PCT)
        if post_mm is not None:
            assert least_mm - 1e-9 <= post_mm - pinched <= most_mm + 1e-9
        longer = min(mm for mm in fastener.lengths_mm if mm > pinched + most_mm)
        washer_mm = longer - (least_mm + most_mm) / 2 - pinched
        with_washer = stack_mm + washer_mm
        assert length_fits(with_washer, fastener, longer, washer_mm=washer_mm, pinch_pct=PINCH_PCT)


def test_what_turns_and_what_clamps_says_so():
    """Screw posts come either way; a rivet is set tight or over a card (common practice)."""
    assert {e.id: e.motion for e in BY_ID.values() if e.motion} == {
        "screw_post_fixed": "fixed",
        "screw_post_turning": "turning",
    }
    turning, fixed = BY_ID["screw_post_turning"], BY_ID["screw_post_fixed"]
    assert turning.hole_mm == fixed.hole_mm + 0.5, "half a millimetre more where it turns"


def test_copper_rivets_are_long_by_their_burr_and_a_half_diameters():
    """The least over the stack: 1 mm of burr (common practice) and 1.5 shanks (NAVEDTRA 14018)."""
    for fastener_id, shank_mm in SHANK_MM.items():
        least_mm, most_mm = BY_ID[fastener_id].over_stack_mm
        assert least_mm == pytest.approx(BURR_MM + 1.5 * shank_mm, abs=0.07)
        assert most_mm > 2 * least_mm, "what is too long is cut off"
