"""The key under the parts: every mark that shows has its words, every joint its count."""

import pytest

from armorplan.app.reach_rows import JointReach, ReachFrame, RowReach, RowsInWay, WayIn
from armorplan.desktop.closing_key_words import (
    Count,
    MarkShown,
    count_words,
    counts,
    mark_words,
    marks_shown,
)
from armorplan.desktop.widgets.closing_key import count_signs, mark_signs
from armorplan.geometry.reach.model import Margin, Standing

pytestmark = pytest.mark.usefixtures("qapp")


def joint(name: str, standing: Standing | None, *, is_set: bool = False) -> JointReach:
    margin = None if standing is None else Margin(standing=standing)
    return JointReach(id=name, is_set=is_set, margin=margin)


def test_marks_of_joints_to_set_and_of_those_set_are_counted_apart_and_none_is_left_out():
    joints = (
        joint("a", Standing.CANNOT, is_set=True),
        joint("b", Standing.INSIDE),
        joint("c", Standing.INSIDE, is_set=True),
        joint("d", None),
    )
    found = counts(ReachFrame(at=1, joints=joints, rows=()))
    assert found == (Count(Standing.INSIDE, 1, 1), Count(Standing.CANNOT, 0, 1))
    assert sum(one.to_set + one.done for one in found) == 3
    assert [sign.words for sign in count_signs(found)] == [
        "within reach: 1 to set, 1 set",
        "out of reach: 1 set",
    ]
    assert count_words(Count(Standing.FLAT, 4, 0)) == "lies flat: 4 to set"


def test_only_marks_that_show_are_explained():
    bare = ReachFrame(at=0, joints=(joint("a", Standing.CURVED),), rows=())
    assert marks_shown(bare, None, None) == ()
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
    shown = marks_shown(frame, way, {2: ("b",)})
    assert set(shown) == set(MarkShown) - {MarkShown.WORSE, MarkShown.OPEN, MarkShown.SHUT}
    assert [sign.words for sign in mark_signs(shown)] == [mark_words(mark) for mark in shown]


def test_every_mark_has_words_of_its_own():
    assert len({mark_words(mark) for mark in MarkShown}) == len(MarkShown)
