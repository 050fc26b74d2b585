"""What falls out of reach where in the order: named with the step that does it, and whether in time."""

import pytest

from armorplan.app.reach_rows import JointReach, ReachFrame, ReachStop
from armorplan.desktop.closing_lost_words import Tone, late_places, lost_words
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
    assert told == ("After 'Rivet C' out of reach, and not set yet: Rivet D.", Tone.ALARM)


def test_what_was_lost_before_and_is_not_set_stays_told():
    told = lost_words({2: ("d",)}, frame(3, gone="d"), STOPS, asked=False)
    assert told == ("Out of reach, and not set yet: Rivet D.", Tone.ALARM)


def test_what_will_be_too_late_is_told_ahead_with_the_step_that_does_it():
    told = "Falls out of reach after 'Rivet C', and is not set by then: Rivet D."
    assert lost_words(LOST, frame(0), STOPS, asked=False) == (told, Tone.PLAIN)


def test_what_is_set_in_time_is_told_quietly_and_only_where_it_is_asked_for():
    told = "Set in time: Rivet A. After 'Rivet C' no tool gets there any more."
    moment = frame(3, "a", gone="a")
    assert lost_words({3: ("a",)}, moment, STOPS) == (told, Tone.QUIET)
    assert lost_words({3: ("a",)}, moment, STOPS, asked=False)[0] == ""
    assert lost_words({3: ("a",)}, frame(1), STOPS)[0] == ""


def test_only_places_where_something_is_not_set_yet_are_marked():
    assert late_places(LOST, STOPS) == (3,)
    assert late_places({3: ("a",), 4: ("b", "d")}, STOPS) == ()
    assert late_places(None, STOPS) == ()


def test_nothing_is_said_where_nothing_more_is_lost_or_it_is_not_known_yet():
    assert lost_words({3: ("a",)}, frame(4, gone="a"), STOPS)[0] == ""
    assert lost_words(None, frame(0), STOPS)[0] == ""
