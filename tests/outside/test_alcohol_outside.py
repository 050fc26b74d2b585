"""Alcohol in the air, against published vapour pressures and the hazards NIOSH lists.

NIOSH Pocket Guide to Chemical Hazards: ethyl alcohol, isopropyl alcohol. Smith, Van Ness and
Abbott, Introduction to Chemical Engineering Thermodynamics, table B.2; Gmehling's and NIST's
constants for ethanol from memory; an equation of state by CoolProp, printed.
"""

from math import exp, log10

import pytest
from drying.sample_rooms import air
from scipy.constants import R, atm, torr

from armorplan.drying.air import alcohol_pressure_pa
from armorplan.drying.pace import paces
from armorplan.files.catalogue import read_shelf
from armorplan.workshop.shelf import Carrier

ETHANOL_G_MOL, PROPANOL_G_MOL, HEXANE_G_MOL = 46.07, 60.10, 86.18
ALCOHOL = Carrier.ALCOHOL
SHELF = read_shelf()
LISTED = {
    # Lower explosive limit in per cent by volume, g/mol, exposure limit in ppm.
    "ethanol": (3.3, ETHANOL_G_MOL, 1000),
    "2-propanol": (2.0, PROPANOL_G_MOL, 400),
    # As n-hexane, which the guide limits most of what is in them (from memory).
    "petroleum solvents": (1.1, HEXANE_G_MOL, 50),
}
"""NIOSH Pocket Guide."""


def ethanol_pa(temperature_c):
    """Smith, Van Ness and Abbott, 3 to 96 °C."""
    return 1000 * exp(16.8958 - 3795.17 / (temperature_c + 230.918))


def gmehling_pa(temperature_c):
    return torr * 10 ** (8.20417 - 1642.89 / (temperature_c + 230.300))


def nist_pa(temperature_c):
    return 1e5 * 10 ** (5.24677 - 1598.673 / (temperature_c + 273.15 - 46.424))


def propanol_pa(temperature_c):
    """Smith, Van Ness and Abbott (from memory)."""
    return 1000 * exp(16.6796 - 3640.20 / (temperature_c + 219.610))


def grams_per_m3(share, g_mol, temperature_c=25.0):
    """Return what a share of the air's volume weighs (ideal gas)."""
    return share * atm * g_mol / (R * (temperature_c + 273.15))


@pytest.mark.parametrize(
    ("temperature_c", "state_pa"), [(10, 3148), (20, 5876), (25, 7886), (30, 10467)]
)
def test_ethanol_by_four_sources(temperature_c, state_pa):
    for theirs in (ethanol_pa, gmehling_pa, nist_pa):
        assert theirs(temperature_c) == pytest.approx(state_pa, rel=0.015)


@pytest.mark.parametrize(
    ("temperature_c", "handbook_pa"), [(10, 2277), (20, 4414), (25, 6021), (30, 8112)]
)
def test_2_propanol_by_two_sources(temperature_c, handbook_pa):
    assert alcohol_pressure_pa(temperature_c) == pytest.approx(handbook_pa, rel=0.001)
    assert alcohol_pressure_pa(temperature_c) == pytest.approx(
        propanol_pa(temperature_c), rel=0.015
    )


def test_the_pressures_niosh_lists_at_20_degrees():
    # 44 mmHg ethanol, 33 mmHg 2-propanol.
    assert ethanol_pa(20.0) == pytest.approx(44 * torr, rel=0.015)
    assert alcohol_pressure_pa(20.0) == pytest.approx(33 * torr, rel=0.015)


def test_a_paper_s_pressures_at_25_degrees():
    # A paper of 2024 lists 0.079 and 0.061 bar, in two digits.
    assert ethanol_pa(25.0) == pytest.approx(0.079e5, rel=0.015)
    assert alcohol_pressure_pa(25.0) == pytest.approx(0.061e5, rel=0.015)


@pytest.mark.parametrize("alcohol_c", [(ethanol_pa, 78.25), (alcohol_pressure_pa, 82.3)])
def test_they_boil_where_they_do(alcohol_c):
    pressure_pa, boils_c = alcohol_c
    assert log10(pressure_pa(boils_c) / atm) == pytest.approx(0.0, abs=0.01)


@pytest.mark.parametrize(
    ("temperature_c", "times"), [(10, 1.87), (15, 1.36), (20, 1.0), (25, 0.74), (30, 0.56)]
)
def test_times_scale_with_the_vapour_pressure_of_either_alcohol(temperature_c, times):
    """Ethanol's, against 20 °C: one law serves both within 5 %."""
    there, here = paces(ALCOHOL, air(20)), paces(ALCOHOL, air(temperature_c))
    for pace, other in zip(here, there, strict=True):
        assert other / pace == pytest.approx(times, rel=0.05)


@pytest.mark.parametrize("temperature_c", range(10, 41, 5))
def test_ethanol_scales_as_2_propanol_does(temperature_c):
    ours = alcohol_pressure_pa(temperature_c) / alcohol_pressure_pa(23.0)
    assert ours == pytest.approx(ethanol_pa(temperature_c) / ethanol_pa(23.0), rel=0.05)


def test_a_limit_in_ppm_is_the_one_in_grams():
    # NIOSH: 1000 ppm ethanol (1900 mg/m³), 400 ppm 2-propanol (980 mg/m³), at 25 °C.
    assert 1000 * grams_per_m3(1000e-6, ETHANOL_G_MOL) == pytest.approx(1900, rel=0.015)
    assert 1000 * grams_per_m3(400e-6, PROPANOL_G_MOL) == pytest.approx(980, rel=0.015)


def test_ethanol_reaches_its_explosive_limit_where_it_flashes():
    """NIOSH: limit 3.3 % by volume, flash point 12.8 °C, where saturated air holds 3.7 %."""
    assert 100 * ethanol_pa(11.0) / atm == pytest.approx(3.3, abs=0.05)
    assert 100 * ethanol_pa(12.8) / atm == pytest.approx(3.7, abs=0.05)


@pytest.mark.parametrize("solvent", LISTED)
def test_the_catalogue_s_limits_are_those_listed(solvent):
    """Explosive limits as grams in a m³ of air at 20 °C."""
    lel_pct, g_mol, _ = LISTED[solvent]
    treatments = [entry for entry in SHELF.treatments if entry.solvent == solvent]
    assert treatments
    for entry in treatments:
        listed = grams_per_m3(lel_pct / 100, g_mol, 20.0)
        assert entry.lel_g_per_m3 == pytest.approx(listed, rel=0.015)
        assert "NIOSH" in entry.lel_source


@pytest.mark.parametrize("solvent", LISTED)
def test_the_catalogue_s_workplace_limits_are_those_listed(solvent):
    _, g_mol, ppm = LISTED[solvent]
    treatments = [entry for entry in SHELF.treatments if entry.solvent == solvent]
    assert treatments
    for entry in treatments:
        assert entry.limit_g_per_m3 == pytest.approx(grams_per_m3(ppm * 1e-6, g_mol), rel=0.025)
        assert "NIOSH" in entry.limit_source
