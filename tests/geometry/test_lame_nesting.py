"""Lames that nest: the span each layer needs, the bow of one too long, lames in each other's places."""

from dataclasses import replace
from math import pi

import pytest
from geometry.lame_sketches import (
    THICK_MM,
    bending,
    chain,
    codes,
    figure,
    findings,
    lame,
    measures,
    moved,
    pivots,
    span_mm,
    two_lames,
)

from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Form, FormKind, Route


def test_a_layer_outside_is_longer_by_its_half_turn():
    told = measures(two_lames())["lames:nest:lower-upper"]
    assert told.verdict == "nest"
    assert figure(told, "outer span has to be longer by") == pytest.approx(pi * THICK_MM)
    assert figure(told, "it is longer by") == pytest.approx(pi * THICK_MM)
    assert figure(told, "bow") == pytest.approx(0.0, abs=1e-6)


def test_an_outer_lame_too_long_bows_and_the_move_mends_it():
    pattern = two_lames(lower_in_near=(-5.0, 0.0), lower_in_far=(5.0, 0.0))
    (found,) = findings(pattern)
    assert found.code == "lames-do-not-nest"
    assert "The lower is 10.0 mm too long for the upper" in found.text
    assert "5.0 mm further in on either side" in found.remedy
    assert codes(moved(pattern, lower_in_near=(5.0, 0.0), lower_in_far=(-5.0, 0.0))) == []


def test_an_outer_lame_too_short_makes_the_inner_one_bow():
    pattern = two_lames(lower_in_near=(8.0, 0.0), lower_in_far=(-8.0, 0.0))
    (found,) = findings(pattern)
    assert "The upper is 16.0 mm too long for the lower" in found.text
    assert "further out" in found.remedy


def test_a_little_bow_is_a_note_and_less_is_nothing():
    by = {1.0: [], 2.5: [Severity.NOTE], 6.0: [Severity.WARNING]}
    for mm, severities in by.items():
        pattern = two_lames(lower_in_near=(-mm, 0.0), lower_in_far=(mm, 0.0))
        assert [f.severity for f in findings(pattern)] == severities, mm


def test_of_dished_plates_the_flat_spans_tell_nothing():
    pattern = two_lames(lower_in_near=(-9.0, 0.0), lower_in_far=(9.0, 0.0))
    dish = Form(id="cup", kind=FormKind.DISH, parts=("lower",), route=Route.DAMP, radius_mm=60.0)
    assert codes(replace(pattern, forms=(*pattern.forms, dish))) == []


def nested(order, *, movement=True):
    """Four lames under each other, the outermost first; ``order`` says how many layers out each
    was cut for."""
    names = ("first", "second", "third", "fourth")
    parts, joints = [], []
    for at, (name, layer) in enumerate(zip(names, order, strict=True)):
        rows = {} if at == 0 else {"out": 0.0}
        if at < len(names) - 1:
            rows["inward"] = 20.0
        parts.append(lame(name, layer, high_mm=80.0, low_mm=15.0, at=(0.0, 200.0 * at), **rows))
        if at:
            joints += pivots(names[at - 1], name)
    move = bending(*reversed(names), angle_deg=60.0) if movement else None
    return chain(*parts, joints=tuple(joints), movement=move)


def test_lames_in_their_order_are_sound():
    assert codes(nested((3, 2, 1, 0))) == []


def test_two_swapped_lames_are_named_with_what_it_gains():
    (found,) = findings(nested((3, 1, 2, 0)))
    assert (found.code, found.severity) == ("lames-swapped", Severity.WARNING)
    # Three spans are out: by one layer, by two, by one.
    assert "fit 37.7 mm better" in found.text
    assert f"{4 * pi * THICK_MM:.1f} mm are out now, 0.0 mm would be" in found.text
    assert set(found.about) == {"second", "third"}
    assert "the larger, the third, lies nearer the cop" in found.remedy


def test_the_names_of_lames_do_not_matter():
    pattern = nested((3, 1, 2, 0))
    renamed = replace(
        pattern, parts=tuple(replace(p, name=f"plate {n}") for n, p in enumerate(pattern.parts))
    )
    assert codes(renamed) == ["lames-swapped"]


def test_a_single_lame_cut_wrong_is_not_taken_for_a_swap():
    found = findings(nested((3, 2, 1.6, 0)))
    assert "lames-swapped" not in [f.code for f in found]
    assert "lames-do-not-nest" in [f.code for f in found]


def test_plates_of_another_size_are_no_near_twins():
    pattern = nested((3, 1, 2, 0))
    parts = tuple(
        replace(
            part,
            outline=tuple((x, y - 60 if y < 395 else y) for x, y in part.outline)
            if part.id == "third"
            else part.outline,
        )
        for part in pattern.parts
    )
    assert "lames-swapped" not in codes(replace(pattern, parts=parts))


def test_span_of_the_sketch_is_that_of_a_half_turn():
    assert span_mm(1) - span_mm(0) == pytest.approx(pi * THICK_MM)
