"""The key under the parts: every mark that shows has its words, every joint its count."""

from itertools import pairwise

import pytest
from contrasts import contrast

from armorplan.app.reach_rows import JointReach, ReachFrame, RowReach, RowsInWay, WayIn
from armorplan.desktop.closing_key_words import (
    Count,
    MarkShown,
    Rest,
    count_words,
    counts,
    mark_words,
    marks_shown,
    shades_shown,
)
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.standing_glyphs import standing_colour
from armorplan.desktop.standing_shades import SHADES_FROM_MM, shade_colour
from armorplan.desktop.widgets.closing_key import count_signs, mark_signs, shade_signs
from armorplan.geometry.reach.model import Margin, Standing, Through, Way

pytestmark = pytest.mark.usefixtures("qapp")


def joint(
    name: str,
    standing: Standing | None,
    *,
    is_set: bool = False,
    worse: bool = False,
    along_mm: float | None = None,
) -> JointReach:
    way = None
    if along_mm is not None:
        way = Way(through=Through.RIM, name="rim-1", along_mm=along_mm, least_mm=0.0)
    margin = None if standing is None else Margin(standing=standing, way=way)
    return JointReach(id=name, is_set=is_set, margin=margin, worse=worse)


def test_every_joint_is_counted_once_what_is_set_and_what_no_shell_bars_too():
    joints = (
        joint("a", Standing.CANNOT, is_set=True),
        joint("b", Standing.INSIDE),
        joint("c", Standing.INSIDE, is_set=True),
        joint("d", None),
        joint("e", None, is_set=True),
        joint("f", Standing.FLAT),
    )
    found = counts(ReachFrame(at=1, joints=joints, rows=()))
    assert sum(one.number for one in found) == len(joints)
    assert [sign.words for sign in count_signs(found)] == [
        "lies flat: 1 to set",
        "within reach: 1 to set",
        "no shell in the way, not marked: 1 to set",
        "set, faint: 3",
    ]


def test_what_was_set_in_time_is_never_counted_as_out_of_reach():
    joints = (joint("a", Standing.CANNOT, is_set=True), joint("b", Standing.INSIDE, is_set=True))
    end = ReachFrame(at=2, joints=joints, rows=())
    assert counts(end) == (Count(Rest.SET, 2),)
    assert count_words(Count(Rest.SET, 2)) == "set, faint: 2"
    assert marks_shown(end, None) == (MarkShown.IN_TIME,)


def test_only_what_is_still_to_set_is_marked_as_harder():
    before = joint("a", Standing.INSIDE, is_set=True, worse=True)
    assert MarkShown.WORSE not in marks_shown(ReachFrame(at=1, joints=(before,), rows=()), None)
    then = joint("a", Standing.INSIDE, worse=True)
    assert MarkShown.WORSE in marks_shown(ReachFrame(at=1, joints=(then,), rows=()), None)


def test_each_step_of_depth_that_shows_has_its_words_and_none_where_all_lie_shallow():
    def frame(*along_mm: float) -> ReachFrame:
        found = (joint(f"j{n}", Standing.INSIDE, along_mm=mm) for n, mm in enumerate(along_mm))
        gone = joint("gone", Standing.INSIDE, along_mm=900.0, is_set=True)
        return ReachFrame(at=0, joints=(*found, gone), rows=())

    assert shades_shown(frame(20.0, 50.0)) == ()
    found = shades_shown(frame(20.0, 51.0, 100.0, 201.0))
    assert [sign.words for sign in shade_signs(found)] == [
        "up to 50 mm in",
        "up to 100 mm in",
        "more than 200 mm in",
    ]


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_marks_stand_out_from_every_shade_and_shades_from_one_another(colours):
    shades = [shade_colour(colours, shade) for shade in range(len(SHADES_FROM_MM) + 1)]
    for shade in shades:
        for standing in Standing:
            if standing is not Standing.FLAT:  # what lies flat lies under no depth
                assert contrast(shade, standing_colour(colours, standing)) >= 3.0
    assert all(contrast(a, b) > 1.15 for a, b in pairwise(shades))


def test_only_marks_that_show_are_explained():
    bare = ReachFrame(at=0, joints=(joint("a", Standing.CURVED),), rows=())
    assert marks_shown(bare, None) == ()
    row = RowReach(
        id="r", name="row", joints=("a", "b"), is_set=(True, False), gapes_mm=(0.0, 9.0)
    )
    reach = joint("b", Standing.END)
    frame = ReachFrame(
        at=1, joints=(joint("a", Standing.FLAT, is_set=True), reach), rows=(row,), coming=("b",)
    )
    bar = RowsInWay(rows=frozenset("r"), names=("row",), standing=Standing.CANNOT)
    way = WayIn(
        joint="b", title="b", reach=reach, legs=(((0.0, 0.0), (1.0, 0.0)),), barred_by=(bar,)
    )
    shown = marks_shown(frame, way, (2,))
    others = {MarkShown.IN_TIME, MarkShown.WORSE, MarkShown.OPEN, MarkShown.SHUT}
    assert set(shown) == set(MarkShown) - others
    assert "(number) mm in, at most" in [sign.words for sign in mark_signs(shown)]
    assert [sign.words for sign in mark_signs(shown)] == [mark_words(mark) for mark in shown]


def test_every_mark_has_words_of_its_own():
    assert len({mark_words(mark) for mark in MarkShown}) == len(MarkShown)
