"""How water leaves, against laws published for pools, fields and slabs.

Dalton (1802); Carrier (1918), as in ASHRAE's handbook for pools; Penman, Proc. R. Soc. A 193
(1948), with Shuttleworth's constants (1993); Lewis, J. Ind. Eng. Chem. 13 (1921); Crank, The
Mathematics of Diffusion (1975). Constants of all of them from memory.
"""

from math import exp, log, pi

import pytest
from drying.sample_rooms import air, entry
from scipy.constants import foot, minute

from armorplan.drying.air import deficit_pa
from armorplan.drying.body import Body, multiples
from armorplan.drying.pace import paces
from armorplan.drying.wind import _carrier, _penman, wind_gains
from armorplan.workshop.shelf import Carrier

WATER = Carrier.WATER


LATENT_J_KG = 2.43e6


def test_carrier_s_constants_are_those_in_feet():
    # (95 + 0.425 V) BTU/(h ft² inHg), V in ft/min.
    to_si = 1055.056 / 3600 / foot**2 / 3386.389
    assert _carrier(0.0) == pytest.approx(95 * to_si, rel=0.006)
    assert _carrier(1.0) - _carrier(0.0) == pytest.approx(0.425 * to_si * minute / foot, rel=0.006)


def test_a_pool_by_carrier():
    # 28 °C of water, air of 30 °C and 60 % at 0.1 m/s: 0.177 kg/h m² (reckoned independently).
    kg_s_m2 = (3782.0 - 0.6 * 4246.9) * _carrier(0.1) / LATENT_J_KG
    assert 3600 * kg_s_m2 == pytest.approx(0.177, abs=0.002)


def test_penman_s_wind_is_shuttleworth_s():
    # 6.43 (1 + 0.536 u) / 2.45 against 2.62 (1 + 0.54 u), mm a day for each kPa.
    for air_m_s in (0.0, 1.0, 2.0):
        theirs = 6.43 * (1 + 0.536 * air_m_s) / 2.45
        assert 2.62 * _penman(air_m_s) == pytest.approx(theirs, rel=0.005)


def test_the_band_for_a_fan_is_bounded_by_both_laws():
    # From 0 to 2 m/s Penman's law gains 2.08, Carrier's 2.76.
    still, fan = wind_gains(0.0), wind_gains(2.0)
    assert fan[0] / still[2] == pytest.approx(2.08, abs=0.005)
    assert fan[2] / still[0] == pytest.approx(2.76, abs=0.005)
    assert fan[0] < fan[1] < fan[2]


@pytest.mark.parametrize("air_m_s", [0.0, 0.05, 0.1, 0.5, 1.0, 3.0])
def test_each_law_of_wind_lies_on_the_edge_of_the_band(air_m_s):
    laws = [
        (0.089 + 0.0782 * air_m_s) / (0.089 + 0.0782 * 0.1),
        (1 + 0.54 * air_m_s) / (1 + 0.54 * 0.1),
    ]
    least, middle, most = wind_gains(air_m_s)
    assert [least, most] == pytest.approx(sorted(laws))
    assert least <= middle <= most


@pytest.mark.parametrize(
    ("climate", "times"),
    [
        ((23, 50), 0.92),
        ((15, 50), 1.17),
        ((15, 70), 2.02),
        ((10, 80), 3.64),
        ((25, 40), 0.71),
        ((30, 30), 0.52),
        ((20, 80), 2.68),
        ((20, 90), 5.48),
    ],
)
def test_times_scale_as_an_independent_library_has_them(climate, times):
    """Dalton with the surface at the wet bulb, against 20 °C and 50 %, reckoned with CoolProp."""
    there, here = paces(WATER, air(20, 50)), paces(WATER, air(*climate))
    for pace, other in zip(here, there, strict=True):
        assert other / pace == pytest.approx(times, rel=0.02)


@pytest.mark.parametrize(("air_m_s", "times"), [(1.0, 0.58), (2.0, 0.40)])
def test_a_fan_helps_at_best_as_carrier_has_it(air_m_s, times):
    there = paces(WATER, air(20, 50))[1]
    slow, likely, fast = paces(WATER, air(20, 50, air_m_s))
    assert there / fast == pytest.approx(times, rel=0.02)
    assert there / likely > times
    assert slow < likely < fast


def test_dalton_s_law():
    held = paces(WATER, air(25, 60))[1] / paces(WATER, air(25, 30))[1]
    assert held == pytest.approx(deficit_pa(25, 60) / deficit_pa(25, 30))
    assert paces(WATER, air(25, 100)) == (0.0, 0.0, 0.0)


def slab(time, thickness):
    """Crank, equation 4.18: moisture left, dry on both sides, diffusivity 1."""
    half = thickness / 2
    terms = (
        exp(-((2 * n + 1) ** 2) * pi**2 * time / (4 * half**2)) / (2 * n + 1) ** 2
        for n in range(60)
    )
    return 8 / pi**2 * sum(terms)


def until(left, moisture):
    """Return when so much is left, by halving."""
    low, high = 0.0, 100.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if moisture(middle) > left else (low, middle)
    return low


@pytest.mark.parametrize(
    ("left", "published"), [(0.5, 0.1967), (0.1, 0.8481), (0.05, 1.129), (0.01, 1.7813)]
)
def test_crank_s_slab_is_solved_rightly(left, published):
    # D t / l² with l half the thickness.
    assert until(left, lambda t: slab(t, 2.0)) == pytest.approx(published, rel=0.001)


def test_lewis_dries_to_5_pct_in_2_996_and_to_1_pct_in_4_605():
    assert -log(0.05) == pytest.approx(2.996, abs=0.001)
    assert -log(0.01) == pytest.approx(4.605, abs=0.001)
    assert until(0.05, lambda t: exp(-t)) == pytest.approx(2.996, abs=0.001)


def test_twice_as_thick_lies_between_the_surface_and_the_slab():
    coat = entry(reference_mm=2.0)
    least, likely, most = multiples(coat, Body(thickness_mm=4.0))
    # Lewis: as much leaves a m² of surface, and there is twice as much of it.
    assert least == pytest.approx(
        until(0.05, lambda t: exp(-t / 2)) / until(0.05, lambda t: exp(-t))
    )
    thick, thin = (until(0.05, lambda t, mm=mm: slab(t, mm)) for mm in (4.0, 2.0))
    assert most == pytest.approx(thick / thin)
    assert least < likely < most


def test_one_face_shut_is_half_a_slab_twice_as_thick():
    """Crank, section 4.3.6: nothing passes the middle of a slab, nor a shut face."""
    coat = entry(reference_mm=2.0, faces=2)
    shut = multiples(coat, Body(thickness_mm=2.0, faces=1))
    assert shut == pytest.approx(multiples(coat, Body(thickness_mm=4.0, faces=2)))
    assert shut[2] == pytest.approx(
        until(0.05, lambda t: slab(t, 4.0)) / until(0.05, lambda t: slab(t, 2.0))
    )
