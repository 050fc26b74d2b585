"""Grams of solvent against the room, by hand, and the sentences that tell them."""

from dataclasses import replace

import pytest
from drying.sample_rooms import entry
from hypothesis import given
from hypothesis import strategies as st

from armorplan.drying.vapour import vapour_caution, vapour_of
from armorplan.workshop.shelf import Carrier

DYE = entry(
    Carrier.ALCOHOL,
    solvent="ethanol",
    solvent_g_per_ml=0.75,
    lel_g_per_m3=63.0,
    lel_source="3.3 % by volume, NIOSH Pocket Guide",
    limit_g_per_m3=1.9,
    limit_source="1000 ppm, NIOSH Pocket Guide",
    wipe_ml_per_dm2=1.5,
    dip_ml_per_dm2=6.0,
)
AREAS = st.floats(0.1, 400.0)
ROOMS = st.floats(1.0, 500.0)


def told(**facts):
    vapour = vapour_of(DYE, **facts)
    assert vapour is not None
    return vapour


def test_grams_are_area_times_what_it_takes_up():
    # 15 dm², both faces, 1.5 ml each: 45 ml, 0.75 g of ethanol in each.
    assert told(area_dm2=15.0).solvent_g == pytest.approx(33.75)
    assert told(area_dm2=15.0, faces=1).solvent_g == pytest.approx(16.875)
    assert told(area_dm2=15.0, dipped=True).solvent_g == pytest.approx(67.5)


def test_a_room_of_40_m3_by_hand():
    vapour = told(area_dm2=15.0, volume_m3=40.0)
    assert vapour.in_air_g_per_m3 == pytest.approx(33.75 / 40)
    assert vapour.lel_pct == pytest.approx(100 * 33.75 / 40 / 63)
    assert vapour.least_m3 == pytest.approx(33.75 / 6.3)
    assert vapour.stays_below is True
    assert vapour.over_limit is False
    assert vapour_caution(vapour) == (
        "34 g of ethanol evaporate: in 40 m³ of still air 0.84 g/m³, 1.3 % of the lower explosive "
        "limit (63 g/m³: 3.3 % by volume, NIOSH Pocket Guide); keep below 10 %. That is no more "
        "than a workplace may have over a day (1.9 g/m³: 1000 ppm, NIOSH Pocket Guide); let fresh "
        "air in all the same. Coats put on within the same hours add up; an open tray or can gives off "
        "more. Near the wet leather and along the floor there is more. The label, "
        "local codes and licensed practice rule over these numbers."
    )


def test_a_small_room_is_told_with_the_one_it_takes():
    vapour = told(area_dm2=15.0, volume_m3=5.0)
    assert vapour.stays_below is False
    said = vapour_caution(vapour)
    assert "11 % of the lower explosive limit" in said
    assert "too much. To stay below 10 % it takes at least 5.4 m³" in said
    assert "That is more than a workplace may have over a day" in said


def test_without_a_volume_it_says_what_room_it_takes():
    vapour = told(area_dm2=15.0)
    assert (vapour.in_air_g_per_m3, vapour.lel_pct, vapour.stays_below) == (None, None, None)
    assert vapour.over_limit is None
    said = vapour_caution(vapour)
    assert said.startswith(
        "34 g of ethanol evaporate: it takes at least 5.4 m³ of air to stay below 10 % of the lower "
        "explosive limit (63 g/m³: 3.3 % by volume, NIOSH Pocket Guide). In less than 18 m³ it is "
        "more than a workplace may have over a day (1.9 g/m³"
    )


def test_an_open_tray_is_said_to_come_on_top():
    dipped = vapour_caution(told(area_dm2=15.0, dipped=True))
    assert "add up; an open tray or can gives off more. Keep the bath covered" in dipped
    assert "Keep the bath covered" not in vapour_caution(told(area_dm2=15.0))


def test_no_limit_of_a_workplace_is_made_up():
    unknown = entry(
        solvent="spirit", solvent_g_per_ml=0.7, lel_g_per_m3=40.0, lel_source="data sheet"
    )
    vapour = vapour_of(unknown, area_dm2=10.0, volume_m3=30.0)
    assert vapour is not None
    assert vapour.over_limit is None
    assert "workplace" not in vapour_caution(vapour)


@pytest.mark.parametrize(
    "facts", [{}, {"solvent": "ethanol"}, {"solvent": "ethanol", "solvent_g_per_ml": 0.7}]
)
def test_what_is_not_known_to_burn_gives_no_figure(facts):
    assert vapour_of(entry(**facts), area_dm2=10.0) is None


def test_leather_without_area_gives_off_nothing():
    assert vapour_of(DYE, area_dm2=0.0) is None


@pytest.mark.parametrize("facts", [{"area_dm2": -1.0}, {"area_dm2": 1.0, "volume_m3": 0.0}])
def test_no_area_or_room_below_nothing(facts):
    with pytest.raises(ValueError, match="no leather has"):
        vapour_of(DYE, **facts)


@given(AREAS, ROOMS)
def test_the_least_room_is_where_the_answer_turns(area_dm2, volume_m3):
    vapour = told(area_dm2=area_dm2, volume_m3=volume_m3)
    assert vapour.stays_below == (volume_m3 > vapour.least_m3)


@given(AREAS, ROOMS)
def test_what_is_told_never_contradicts_itself(area_dm2, volume_m3):
    vapour = told(area_dm2=area_dm2, volume_m3=volume_m3)
    said = vapour_caution(vapour)
    share = float(said.split(" g/m³, ")[1].split(" %")[0])
    assert (share < 10.0) == vapour.stays_below
    if not vapour.stays_below:
        least_m3 = float(said.split("at least ")[1].split(" m³")[0])
        assert least_m3 >= vapour.least_m3 - 1e-6


@pytest.mark.parametrize(
    ("volume_m3", "stays_below", "told"), [(1.0, False, "10 %"), (1.003, True, "9.9 %")]
)
def test_a_tenth_is_not_below_a_tenth_nor_told_as_if(volume_m3, stays_below, told):
    plain = replace(DYE, solvent_g_per_ml=1.0, lel_g_per_m3=50.0, wipe_ml_per_dm2=1.0)
    vapour = vapour_of(plain, area_dm2=2.5, volume_m3=volume_m3)
    assert vapour is not None
    assert vapour.stays_below is stays_below
    assert f"g/m³, {told} of the lower explosive limit" in vapour_caution(vapour)
