"""Whatever a legal pattern says of its bends, something whole is told of it, and the same each time."""

import pytest
from hypothesis import given, settings
from rules.pattern_cases import patterns

from armorplan.geometry.bends.measuring import bend_measures
from armorplan.geometry.bends.slides import layer_slides
from armorplan.geometry.measures import Topic
from armorplan.rules.sketch_shelf import sketch_shelf

SHELF = sketch_shelf()


@settings(max_examples=30, deadline=None)
@given(patterns())
def test_measures_of_bends_are_whole(pattern):
    found = tuple(bend_measures(pattern, SHELF))
    known = {each.id for each in (*pattern.parts, *pattern.joints, *pattern.forms)}
    assert len({each.id for each in found}) == len(found)
    assert found == tuple(bend_measures(pattern, SHELF))
    for each in found:
        assert each.topic is Topic.BENDS
        assert each.verdict
        assert each.text.endswith(".")
        assert set(each.about) <= known
        assert all(figure.formula and figure.source for figure in each.figures)
        assert all(set(finding.about) <= set(each.about) | known for finding in each.findings)
        assert all(mark.part in each.about for mark in each.marks)


@pytest.mark.long
@settings(max_examples=500, deadline=None)
@given(patterns())
def test_measures_of_bends_are_whole_in_many_drawings(pattern):
    test_measures_of_bends_are_whole.hypothesis.inner_test(pattern)


@settings(max_examples=30, deadline=None)
@given(patterns())
def test_a_slide_counts_each_joint_once_and_in_order(pattern):
    for slide in layer_slides(pattern):
        assert len(set(slide.joints)) == len(slide.joints) == len(slide.places_mm)
        assert list(slide.places_mm) == sorted(slide.places_mm)
        if slide.total_mm is not None and not slide.along:
            ends = slide.joints[0], slide.joints[-1]
            assert slide.between_mm(*ends) == slide.total_mm


@pytest.mark.long
@settings(max_examples=500, deadline=None)
@given(patterns())
def test_a_slide_counts_each_joint_once_and_in_order_in_many_drawings(pattern):
    test_a_slide_counts_each_joint_once_and_in_order.hypothesis.inner_test(pattern)
