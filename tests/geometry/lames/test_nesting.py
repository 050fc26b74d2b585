"""Lames that nest: the span each layer needs, the bow of one too long, lames in each other's places."""

from dataclasses import replace
from math import pi

import pytest
from geometry.lame_sketches import (
    RADIUS_MM,
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
from geometry.leather_sketches import shelf

from armorplan.geometry.lames.measuring import lame_measures
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Form, FormKind, Route
from armorplan.pattern.parts import PartKind


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
    assert "It is 10.0 mm too long and gapes: between the pivots it bows 4.9 mm off" in found.text
    assert "set the pivots of the lower 5.0 mm further in on either side" in found.remedy
    # 10 mm over half a turn: so much further out it would lie with the length it has.
    assert f"{10 / pi:.1f} mm more of washers" in found.remedy
    assert codes(moved(pattern, lower_in_near=(5.0, 0.0), lower_in_far=(-5.0, 0.0))) == []


def shorter(mm):
    return two_lames(lower_in_near=(mm / 2, 0.0), lower_in_far=(-mm / 2, 0.0))


def test_an_outer_lame_too_short_does_not_go_over_the_inner_one():
    (found,) = findings(shorter(16.0))
    assert found.severity is Severity.ERROR
    assert "16.0 mm too short and does not go over the upper: it pinches and binds" in found.text
    assert "set the pivots of the lower 8.0 mm further out on either side" in found.remedy
    # In cut leather the inner one's pivots come nearer to each other.
    assert "punch the pivots of the upper anew 8.0 mm further in on either side" in found.remedy
    told = measures(shorter(16.0))
    assert told["lames:nest:lower-upper"].verdict == "outer 16.0 mm too short: it pinches"


def test_mended_in_cut_leather_as_told_it_is_sound():
    pattern = moved(shorter(16.0), upper_out_near=(8.0, 0.0), upper_out_far=(-8.0, 0.0))
    assert codes(pattern) == []


def test_lames_all_of_one_span_are_an_error():
    (found,) = findings(shorter(pi * THICK_MM))
    assert found.severity is Severity.ERROR
    assert "and is as long. It is 9.4 mm too short" in found.text


def test_what_is_missing_decides_how_grave_it_is():
    by = {1.0: None, 2.5: Severity.NOTE, 4.9: Severity.WARNING, 8.5: Severity.ERROR}
    for mm, severity in by.items():
        told = measures(shorter(mm))["lames:nest:lower-upper"]
        assert told.severity is severity, mm


def test_limits_of_a_short_lame_are_the_makers():
    lenient = replace(
        shelf().constants,
        short_lame=replace(shelf().constants.short_lame, value=20.0),
        bad_short_lame=replace(shelf().constants.bad_short_lame, value=30.0),
    )
    found = lame_measures(shorter(9.0), replace(shelf(), constants=lenient))
    assert [f for measure in found for f in measure.findings] == []


def test_screwed_at_the_same_pivots_a_half_round_lame_comes_half_of_what_it_lacks_short():
    # Half round, the height changes by half of what the arc does: height' = sin h × R dh, arc' = 2R dh.
    told = measures(shorter(1.0))["lames:nest:lower-upper"]
    assert figure(told, "comes short of going over by") == pytest.approx(0.5, abs=0.01)
    assert figure(told, "outer pivots apart, once bent") == pytest.approx(
        2 * (RADIUS_MM + THICK_MM)
    )


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
    assert "the larger, the third, lies nearer the outermost plate, the first," in found.remedy


def test_where_a_cop_lies_outermost_the_larger_lies_nearer_the_cop():
    pattern = nested((3, 1, 2, 0))
    parts = tuple(replace(p, kind=PartKind.COP) if p.id == "first" else p for p in pattern.parts)
    (found,) = findings(replace(pattern, parts=parts))
    assert "the larger, the third, lies nearer the cop and" in found.remedy


def test_of_the_outermost_swapped_the_larger_lies_outermost():
    (found,) = findings(nested((2, 3, 1, 0)))
    assert "the larger, the second, lies outermost and" in found.remedy


def test_the_cover_that_swapped_lames_lack_is_told_as_the_swap():
    pattern = nested((3, 1, 2, 0))
    # The edge of the second runs so far that little is left under its neighbour.
    parts = tuple(
        replace(p, outline=tuple((x, y + 12 if y < 130 else y) for x, y in p.outline))
        if p.id == "second"
        else p
        for p in pattern.parts
    )
    assert set(codes(replace(pattern, parts=parts))) <= {"lames-swapped", "lame-gap-opens"}


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


def test_a_little_short_goes_on_tight():
    (found,) = findings(shorter(2.5))
    assert "It is 2.5 mm short: it goes on tight." in found.text
    assert "binds" not in found.text
    assert "leave it so if it turns freely" in found.remedy
    told = measures(shorter(2.5))["lames:nest:lower-upper"]
    assert told.verdict == "outer 2.5 mm short: goes on tight"


def other_way(pattern):
    return replace(
        pattern,
        joints=tuple(replace(joint, stack=joint.stack[::-1]) for joint in pattern.joints),
    )


def test_both_stacks_the_wrong_way_round_are_turned_before_anything_is_punched():
    pattern = other_way(two_lames())
    (found,) = [each for each in findings(pattern) if each.code == "lames-do-not-nest"]
    assert found.severity is Severity.ERROR
    assert f"It is {2 * pi * THICK_MM:.1f} mm too short" in found.text
    assert found.remedy.startswith(
        "List the lower first in both stacks, 'lower_upper_near' and 'lower_upper_far': "
        "with the lower outside they fit to 0.0 mm."
    )
    assert "punch" not in found.remedy
    told = measures(pattern)["lames:nest:upper-lower"]
    assert told.verdict == "nest the other way about: lower outside"
    assert codes(other_way(pattern)) == []


def radii(pattern, **radius_mm):
    """Return a pattern whose bends say an inner radius."""
    return replace(
        pattern,
        forms=tuple(
            replace(form, radius_mm=radius_mm.get(form.parts[0])) for form in pattern.forms
        ),
    )


def test_the_plate_that_its_own_bend_speaks_against_is_the_one_to_mend():
    """The inner one is 12 mm too long; the outer one is as its bend of 53 - 1.5 mm asks."""
    wide = two_lames(upper_out_near=(-6.0, 0.0), upper_out_far=(6.0, 0.0))
    (either,) = findings(wide)
    assert "or those of the upper as far in" in either.remedy
    (found,) = findings(radii(wide, upper=RADIUS_MM - 1.5, lower=RADIUS_MM + 1.5))
    assert (
        "It is the upper that is off: its own bend takes 157.1 mm, and its pivots lie 169.1 mm"
        in (found.text)
    )
    assert "the lower fits its own bend" in found.text
    assert "set the pivots of the upper 6.0 mm further in on either side." in found.remedy
    assert "lower" not in found.remedy
    told = measures(radii(wide, upper=RADIUS_MM - 1.5, lower=RADIUS_MM + 1.5))
    assert told["lames:pivots:upper"].verdict == "its bend says another radius"
    assert told["lames:pivots:upper"].findings == ()


def test_the_plate_that_fits_its_other_neighbour_is_not_the_one_to_mend():
    parts = (
        lame("inmost", 0, out=0.0),
        lame("middle", 1, out=40.0, inward=0.0, at=(0.0, 200.0)),
        lame("outmost", 2, inward=0.0, at=(0.0, 400.0)),
    )
    sound = chain(*parts, joints=(*pivots("middle", "inmost"), *pivots("outmost", "middle")))
    assert codes(sound) == []
    (found,) = findings(moved(sound, inmost_out_near=(-6.0, 0.0), inmost_out_far=(6.0, 0.0)))
    assert "It is the inmost that is off: the middle fits the outmost." in found.text
    assert "set the pivots of the inmost 6.0 mm further in" in found.remedy
    assert "punch the pivots of the inmost anew" in found.remedy


def test_what_is_too_short_in_cut_leather_is_made_anew():
    short = shorter(12.0)
    (found,) = findings(radii(short, upper=RADIUS_MM - 1.5))
    assert "It is the lower that is off: the upper fits its own bend." in found.text
    assert "make the lower anew, 12.0 mm longer from pivot to pivot" in found.remedy
