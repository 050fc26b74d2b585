"""What falls out of reach where in the order: named with the step that does it, and whether in time."""

import pytest

from armorplan.app.reach_rows import JointReach, ReachFrame, ReachStop
from armorplan.desktop.closing_lost_words import lost_words
from armorplan.geometry.reach.model import Margin, Standing

STOPS = tuple(
    ReachStop(step=joint, title=f"Rivet {joint.upper()}", joints=(joint,)) for joint in "abcd"
)
LOST = {3: ("a", "d")}
"""The third step puts the first joint out of reach, and the last, which comes too late."""

pytestmark = pytest.mark.usefixtures("qapp")


def frame(at: int, *lost: str, gone: str = "") -> ReachFrame:
    joints = tuple(
        JointReach(
            id=joint,
            is_set="abcd".index(joint) < at,
            margin=Margin(standing=Standing.CANNOT if joint in gone else Standing.INSIDE),
        )
        for joint in "abcd"
    )
    return ReachFrame(at=at, joints=joints, rows=(), lost=lost)


def test_what_is_lost_here_and_not_set_is_told_before_what_was_set_in_time():
    told = lost_words(LOST, frame(3, "a", "d", gone="ad"), STOPS)
    assert told == ("After 'Rivet C' out of reach, and not set yet: Rivet D.", True)
    told = lost_words({3: ("a",)}, frame(3, "a", gone="a"), STOPS)
    assert told == ("After 'Rivet C' out of reach, but set in time: Rivet A.", False)


def test_what_was_lost_before_and_is_not_set_stays_told():
    told, late = lost_words({2: ("d",)}, frame(3, gone="d"), STOPS)
    assert (told, late) == ("Out of reach, and not set yet: Rivet D.", True)


def test_what_is_lost_next_is_told_ahead_with_the_step_that_does_it():
    told = "Falls out of reach next, after 'Rivet C', and is not set by then: Rivet D."
    assert lost_words(LOST, frame(0), STOPS) == (told, False)
    told = "Falls out of reach next, after 'Rivet C', but is set by then: Rivet A."
    assert lost_words({3: ("a",)}, frame(1), STOPS) == (told, False)


def test_what_is_lost_next_is_left_out_where_it_is_not_asked_for():
    assert lost_words(LOST, frame(0), STOPS, ahead=False) == ("", False)
    assert lost_words({2: ("d",)}, frame(3, gone="d"), STOPS, ahead=False)[1]


def test_nothing_is_said_where_nothing_more_is_lost_or_it_is_not_known_yet():
    assert lost_words({3: ("a",)}, frame(4, gone="a"), STOPS) == ("", False)
    assert lost_words(None, frame(0), STOPS) == ("", False)
