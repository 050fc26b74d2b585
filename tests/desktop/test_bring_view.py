"""A match as it is drawn: laid on, turned over, or joined; what is lit with it."""

from dataclasses import replace

import pytest
from desktop.fake_bringing import FakeCore, hole, match
from PySide6.QtGui import QPainterPath

from armorplan.app.bringing.answering import begun
from armorplan.desktop.bring_view import ghost_of, lit_with, pairs_of, path_of
from armorplan.desktop.bring_words import head_and_rest, shape_words
from armorplan.geometry.placing import fit


@pytest.fixture(scope="module")
def view():
    from desktop.fake_bringing import DRAWING

    return FakeCore().look(begun(DRAWING), None)


def places(view, keys):
    shapes = {shape.key: shape for shape in view.found.shapes}
    return [shapes[key].circle[0] for key in keys]


def test_a_part_turned_over_is_laid_with_its_x_reversed(view):
    plain = match()
    first = places(view, [one for one, _ in plain.pairs])
    second = places(view, [other for _, other in reversed(plain.pairs)])
    over = fit(first, [(-x, y) for x, y in second])
    pairs = tuple(
        (one, other)
        for (one, _), (_, other) in zip(plain.pairs, reversed(plain.pairs), strict=True)
    )
    ghost = ghost_of(replace(plain, pairs=pairs, fit=over, mirrored=True), view)
    assert max(link.miss_mm for link in ghost.links) == pytest.approx(over.worst_mm)
    assert [link.number for link in ghost.links] == [1, 2, 3, 4]
    # The row lies near the upper edge of the second part, turned over or not.
    assert min(y for _, y in ghost.outline) < 95 < max(y for _, y in ghost.outline)


def test_where_nothing_lays_it_on_holes_are_joined_where_they_are_drawn(view):
    ghost = ghost_of(replace(match(), fit=None), view)
    assert ghost.outline == ()
    assert [(link.first, link.miss_mm) for link in ghost.links[:1]] == [((40, 95), None)]


def test_of_several_matches_one_that_can_be_chosen_stands_alone_else_one_leafs_through_all(view):
    other = replace(match(), pairs=match().pairs[:2])
    question = replace(view.questions[-1], matches=(match(), other))
    assert pairs_of(question, "all") == (match(), other)
    assert pairs_of(question, other.key) == (other,)
    assert pairs_of(question, "none") == ()


def test_of_a_match_its_parts_and_holes_are_lit_else_what_is_asked_about(view):
    question = view.questions[-1]
    assert lit_with(question, match())[:4] == ("upper", "lower", "a0", "b0")
    assert lit_with(question, None) == ("upper", "lower")


def test_what_is_up_is_shown_on_a_part_and_on_the_one_laid_on_it_the_other_way_round(view):
    turned = tuple(
        (one, other)
        for (one, _), (_, other) in zip(match().pairs, match().pairs[::-1], strict=True)
    )
    first = places(view, [one for one, _ in turned])
    over = replace(match(), pairs=turned, fit=fit(first, places(view, [o for _, o in turned])))
    for fitted, sign in ((match(), 1), (over, -1)):
        still, laid = ghost_of(fitted, view).ups
        assert (still.name, still.is_laid, laid.is_laid) == ("breast plate", False, True)
        assert still.foot[1] - still.tip[1] == pytest.approx(36)
        assert sign * (laid.foot[1] - laid.tip[1]) == pytest.approx(28, abs=0.1)


def test_a_hole_is_drawn_round_and_an_open_line_stays_open(view):
    assert path_of(hole("h", 10, 20, "")).boundingRect().width() == pytest.approx(5)
    line = next(shape for shape in view.found.shapes if not shape.closed)
    assert isinstance(path_of(line), QPainterPath)
    assert path_of(line).elementCount() == 2


def test_a_part_is_gone_through_before_what_lies_in_it(view):
    keys = list(view.places)
    assert keys.index("upper") < keys.index("a0") < keys.index("fold") < keys.index("lower")
    assert keys[-1] == "frame"
    assert view.box == (0, 0, 400, 140)


def test_words_of_a_shape_name_it_where_it_has_a_name(view):
    shapes = {shape.key: shape for shape in view.found.shapes}
    assert shape_words(shapes["upper"]) == "'breast plate', part, 160.0 × 90.0 mm."


@pytest.mark.parametrize(
    ("text", "head"),
    [("Is it so? Look.", "Is it so?"), ("7 rows fit: a, b. All?", "7 rows fit:"), ("One", "One")],
)
def test_the_first_sentence_is_told_from_the_others(text, head):
    assert head_and_rest(text)[0] == head
