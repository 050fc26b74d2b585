"""A part copied from left to right on a mirrored one."""

from dataclasses import replace
from math import cos, radians, sin

import pytest
from geometry.leather_sketches import box, part, pattern, rivet

from armorplan.geometry.alike.copies import copy_findings
from armorplan.kernel.findings import Severity
from armorplan.pattern.parts import MadeOn, PartKind, Piece
from armorplan.workshop.constants import Constants


def _sketch(*spots, mirrored=True, up_deg=90.0, copied=True, partner=None):
    crest = part("crest", box(80, 60), {f"c{n}": at for n, at in enumerate(spots)})
    crest = replace(crest, kind=PartKind.TRIM, copied=copied, up_deg=up_deg)
    lame = part("lame", box(200, 90), {f"l{n}": (40 + x, y) for n, (x, y) in enumerate(spots)})
    joints = tuple(rivet(f"j{n}", f"c{n}", f"l{n}") for n in range(len(spots)))
    sketch = pattern(crest, replace(lame, **(partner or {})), joints=joints)
    return replace(sketch, pieces=(Piece(id="piece", name="piece", mirrored=mirrored),))


LEVEL = ((20.0, 30.0), (60.0, 30.0))
TILTED = ((20.0, 24.0), (60.0, 30.0))


def _told(sketch):
    return list(copy_findings(sketch, Constants()))


def test_holes_alike_on_both_sides_meet_the_mirrored_ones():
    assert not _told(_sketch(*LEVEL))
    assert not _told(_sketch(*LEVEL, (40.0, 12.0)))
    assert not _told(_sketch((20.0, 24.0)))


def test_a_tilted_row_misses_by_its_tilt():
    (found,) = _told(_sketch(*TILTED))
    assert found.severity is Severity.WARNING
    assert found.text == (
        "The right crest is a copy of the left one, but the right lame is mirrored: with crest "
        "upright the holes miss there by up to 6.0 mm."
    )
    assert found.about == ("crest", "lame", "j0", "j1")


def test_three_holes_of_which_one_is_off_centre():
    (found,) = _told(_sketch(*LEVEL, (50.0, 12.0)))
    assert "by up to 20.0 mm" in found.text


@pytest.mark.parametrize("up_deg", [0.0, 35.0, 180.0, 270.0])
def test_upright_is_what_up_deg_says(up_deg):
    """Turned with its own 'up', a part is judged as it was."""
    turn = radians(90.0 - up_deg)

    def turned(spot):
        x, y = spot
        return x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn)

    assert not _told(_sketch(*map(turned, LEVEL), up_deg=up_deg))
    (found,) = _told(_sketch(*map(turned, TILTED), up_deg=up_deg))
    assert "by up to 6.0 mm" in found.text


@pytest.mark.parametrize(
    "more",
    [
        {"mirrored": False},
        {"copied": False},
        {"partner": {"copied": True}},
        {"partner": {"made_on": MadeOn.LEFT}},
    ],
    ids=["single", "mirrored", "both copied", "one side"],
)
def test_where_nothing_is_mirrored_against_a_copy_nothing_is_told(more):
    assert not _told(_sketch(*TILTED, **more))


@pytest.mark.parametrize(("miss_mm", "told"), [(0.4, 0), (0.6, 1)])
def test_half_a_millimetre_is_made_up(miss_mm, told):
    assert len(_told(_sketch((20.0, 30.0 - miss_mm), (60.0, 30.0)))) == told
