"""How large letters have to be: by arithmetic, and against what is published."""

from math import hypot

import pytest

from armorplan.desktop.bench_type import ScreenFacts, Sight, capital_mm

DEJAVU_CAPITAL = 1493 / 2048
"""What a capital is of the letter size in the font that ships with matplotlib (its OS/2 table)."""


def screen(wide, high, inch):
    return ScreenFacts(wide_px=wide, high_px=high, own_diagonal_mm=25.4 * inch)


def test_a_capital_of_16_minutes_of_arc_at_a_metre_and_a_half_is_7_mm():
    """ISO 9241-303 asks for 16 minutes of arc at least (from memory); 7.0 mm by the tangent."""
    assert capital_mm(1500) == pytest.approx(6.98, abs=0.005)
    assert capital_mm(3000) == pytest.approx(2 * capital_mm(1500))


@pytest.mark.parametrize(
    ("wide", "high", "inch", "letters_px"),
    [(1920, 1080, 24, 35), (1920, 1080, 15.6, 53), (1366, 768, 13, 46)],
)
def test_letters_for_screens_of_the_bench(wide, high, inch, letters_px):
    facts = screen(wide, high, inch)
    sight = Sight(distance_mm=1500, px_per_mm=facts.px_per_mm)
    assert sight.body_px(DEJAVU_CAPITAL) == pytest.approx(letters_px, abs=1)


def test_the_makers_word_on_the_screen_goes_before_the_screens():
    said = ScreenFacts(wide_px=1920, high_px=1080, wide_mm=531, high_mm=299)
    assert said.is_known
    assert said.px_per_mm == pytest.approx(1920 / 531, rel=0.01)
    own = ScreenFacts(wide_px=1920, high_px=1080, wide_mm=531, high_mm=299, own_diagonal_mm=330)
    assert own.px_per_mm == pytest.approx(hypot(1920, 1080) / 330)


@pytest.mark.parametrize(("wide_mm", "high_mm"), [(0, 0), (16, 9), (16000, 9000)])
def test_a_screen_that_cannot_be_so_large_is_not_believed(wide_mm, high_mm):
    facts = ScreenFacts(wide_px=1920, high_px=1080, wide_mm=wide_mm, high_mm=high_mm)
    assert not facts.is_known
    assert facts.px_per_mm == pytest.approx(96 / 25.4)


def test_from_how_far_letters_are_read_is_the_way_back():
    sight = Sight(distance_mm=1700, px_per_mm=4.2)
    assert sight.readable_mm(sight.capital_px) == pytest.approx(1700)
    assert sight.readable_mm(sight.capital_px / 2) == pytest.approx(850)


def test_the_makers_own_hand_on_the_size_counts():
    plain = Sight(distance_mm=1500, px_per_mm=4.0)
    assert Sight(distance_mm=1500, px_per_mm=4.0, pct=130).capital_px == pytest.approx(
        1.3 * plain.capital_px
    )
