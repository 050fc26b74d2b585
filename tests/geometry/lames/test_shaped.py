"""Pivots of a plate on those of a dished one: told where no bend makes both right."""

import re
from dataclasses import replace
from math import pi

import pytest
from geometry.lame_sketches import THICK_MM, codes, figure, findings, measures, two_lames

from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Form, FormKind, Route

SPANS = "lames:spans:lower-upper"
NESTS_MM = pi * THICK_MM
"""By so much the outer lame of the sketch is longer: half a turn of its leather (circle geometry)."""


def shaped(*parts, longer_mm):
    """Two lames, some of them dished; the outer one so much longer from pivot to pivot."""
    by = (longer_mm - NESTS_MM) / 2
    pattern = two_lames(lower_in_near=(-by, 0.0), lower_in_far=(by, 0.0))
    dish = Form(id="dish", kind=FormKind.DISH, parts=parts, route=Route.DAMP, radius_mm=90.0)
    return replace(pattern, forms=(*pattern.forms, dish))


@pytest.mark.parametrize(
    ("parts", "longer_mm"),
    [
        (("lower",), -1.4),
        (("lower",), 0.0),
        (("lower",), NESTS_MM + 20.0),  # dishing may draw that in
        (("upper",), -20.0),
        (("upper",), NESTS_MM + 1.4),
        (("lower", "upper"), -20.0),
    ],
)
def test_spans_that_shaping_can_make_right_are_shown_and_not_told(parts, longer_mm):
    pattern = shaped(*parts, longer_mm=longer_mm)
    measure = measures(pattern)[SPANS]
    assert figure(measure, "outer span is longer by") == pytest.approx(longer_mm)
    assert figure(measure, "bent only, longer by") == pytest.approx(NESTS_MM)
    assert codes(pattern) == []


@pytest.mark.parametrize(
    ("part", "longer_mm", "severity", "words"),
    [
        ("lower", -2.9, Severity.NOTE, "it is 2.9 mm short"),
        ("lower", -3.2, Severity.WARNING, "it is 3.2 mm short"),
        ("upper", NESTS_MM + 2.5, Severity.NOTE, "it is 2.5 mm too long and gapes"),
        ("upper", NESTS_MM + 4.0, Severity.WARNING, "it is 4.0 mm too long and gapes"),
    ],
)
def test_a_pivot_moved_away_is_told_and_the_move_mends_it(part, longer_mm, severity, words):
    (found,) = findings(shaped(part, longer_mm=longer_mm))
    assert (found.code, found.severity) == ("pivot-spans-differ", severity)
    assert words in found.text
    told = re.search(r"pivots of the lower (\S+) mm further (apart|together)", found.remedy)
    assert told
    mended = longer_mm + float(told[1]) * (1 if told[2] == "apart" else -1)
    assert codes(shaped(part, longer_mm=mended)) == []
