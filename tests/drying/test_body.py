"""Thicker, shut on one face or dipped: longer, and by how much at least and at most."""

import pytest
from drying.sample_rooms import entry
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.drying.body import USUAL_BODY, Body, multiples

MM = st.floats(0.5, 12.0)
COAT = entry(reference_mm=3.0)
ON_ITS_SURFACE = entry(reference_mm=None)


def test_as_the_catalogue_has_it_it_takes_as_long():
    assert multiples(COAT, USUAL_BODY) == (1.0, 1.0, 1.0)
    assert multiples(COAT, Body(thickness_mm=3.0, faces=2)) == (1.0, 1.0, 1.0)
    on_a_board = entry(reference_mm=3.0, faces=1)
    assert multiples(on_a_board, USUAL_BODY) == (1.0, 1.0, 1.0)


@settings(max_examples=30)
@given(MM)
def test_between_linear_and_square(thickness_mm):
    ratio = thickness_mm / 3.0
    least, likely, most = multiples(COAT, Body(thickness_mm=thickness_mm))
    assert (least, most) == pytest.approx(tuple(sorted((ratio, ratio**2))))
    assert least <= likely <= most


@settings(max_examples=30)
@given(MM, st.floats(0.01, 3.0), st.sampled_from((1, 2)), st.booleans())
def test_thicker_takes_longer(thickness_mm, more_mm, faces, dipped):
    one = multiples(COAT, Body(thickness_mm=thickness_mm, faces=faces, dipped=dipped))
    other = multiples(COAT, Body(thickness_mm=thickness_mm + more_mm, faces=faces, dipped=dipped))
    assert all(here < there for here, there in zip(one, other, strict=True))


@settings(max_examples=20)
@given(MM)
def test_one_face_shut_is_twice_the_thickness(thickness_mm):
    shut = multiples(COAT, Body(thickness_mm=thickness_mm, faces=1))
    assert shut == pytest.approx(multiples(COAT, Body(thickness_mm=2 * thickness_mm, faces=2)))


def test_what_dries_on_its_surface_knows_no_thickness():
    assert multiples(ON_ITS_SURFACE, Body(thickness_mm=9.0, faces=1)) == (1.0, 1.0, 1.0)


@settings(max_examples=20)
@given(st.floats(0.0, 10.0), st.floats(0.0, 30.0))
def test_dipped_never_dries_sooner_than_wiped(wipe_ml, dip_ml):
    coat = entry(wipe_ml_per_dm2=wipe_ml, dip_ml_per_dm2=dip_ml)
    wiped, dipped = multiples(coat, Body()), multiples(coat, Body(dipped=True))
    assert all(one <= other for one, other in zip(wiped, dipped, strict=True))
    assert list(dipped) == sorted(dipped)


def test_dipped_takes_at_most_as_much_longer_as_it_took_up_more():
    # 6 ml a dm² in the bath, 1 ml on each of both faces wiped: three times as much.
    assert multiples(COAT, Body(dipped=True)) == pytest.approx((1.0, 3**0.5, 3.0))


@pytest.mark.parametrize("thickness_mm", [0.0, -1.0, float("nan")])
def test_leather_has_a_thickness(thickness_mm):
    with pytest.raises(ValueError, match="leather is thicker than"):
        Body(thickness_mm=thickness_mm)


@pytest.mark.parametrize("faces", [0, 3, -1])
def test_leather_has_one_or_two_faces(faces):
    with pytest.raises(ValueError, match="one or two faces"):
        Body(faces=faces)
