"""Double caps: their post reaches into the cap; and washers, which do not give."""

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.geometry.stacks import Post, Stack
from armorplan.workshop.fastening import choose_length, length_fits, pinched_mm

PINCH = 7.5
CAPS = [entry for entry in read_shelf().fasteners if entry.id.startswith("double_cap")]


def _post(fastener, stack_mm, washer_mm=0.0):
    return Post(fastener=fastener, stack=Stack(stack_mm, stack_mm, washer_mm), pinch_pct=PINCH)


@pytest.mark.parametrize("cap", CAPS, ids=lambda cap: cap.id)
def test_a_cap_s_post_stands_at_least_a_millimetre_above_the_stack(cap):
    """Common practice, no source; that it be at most 3 mm is a trade page's."""
    assert cap.over_stack_mm == (1.0, 3.0)


def test_a_stack_as_high_as_its_post_takes_the_next_longer_one():
    (cap,) = (cap for cap in CAPS if cap.id == "double_cap_9")
    assert choose_length(6.4, cap, pinch_pct=PINCH) == 8.0
    assert choose_length(5.4, cap, pinch_pct=PINCH) == 6.0


@pytest.mark.parametrize("cap", CAPS, ids=lambda cap: cap.id)
def test_with_lengths_two_mm_apart_one_fits_every_stack_in_their_range(cap):
    least, most = min(cap.lengths_mm) - 3.0, max(cap.lengths_mm) - 1.0
    for tenths in range(round(10 * least), round(10 * most) + 1):
        assert choose_length(tenths / 10, cap, pinch_pct=0.0) is not None, tenths


def test_washers_are_not_pinched():
    assert pinched_mm(8.0, pinch_pct=PINCH) == pytest.approx(7.4)
    assert pinched_mm(8.0, washer_mm=2.0, pinch_pct=PINCH) == pytest.approx(0.925 * 6.0 + 2.0)
    assert _post(CAPS[0], 8.0, 2.0).pinched_mm == pytest.approx(7.55)


def test_a_post_that_fits_only_because_washers_do_not_give():
    """8.2 mm are 7.6 mm pinched, but 7.9 mm with 4 mm of washers among them."""
    (post,) = (e for e in read_shelf().fasteners if e.id == "screw_post_turning")
    assert length_fits(8.2, post, 8.0, pinch_pct=PINCH)
    assert not length_fits(8.2, post, 8.0, washer_mm=4.0, pinch_pct=PINCH)
    assert _post(post, 8.2, 4.0).length_mm is None
    assert _post(post, 8.2).length_mm == 8.0


def test_a_hundredth_of_a_millimetre_costs_no_post():
    """Two layers of 9 oz (3.572 mm) and 1.2 mm of washers: the 8 mm post is 0.005 mm short."""
    (post,) = (e for e in read_shelf().fasteners if e.id == "screw_post_turning")
    assert choose_length(8.344, post, washer_mm=1.2, pinch_pct=PINCH) is None
    assert _post(post, 8.344, 1.2).length_mm == 8.0
    assert _post(post, 8.45, 1.2).length_mm is None
