"""Timers are right however the machine's clocks behave: each case by a table of minutes left.

A plate is cased (window 20 to 90 min), a timer of 60 min is set by hand, in another build a cuff
dries to the touch. Then something happens to the machine, and true minutes pass.
"""

from dataclasses import dataclass
from datetime import UTC, datetime

import pytest
from app.timer_scene import CLOSES_MIN, CUFF, OPENS_MIN, TOUCH_MIN

from armorplan.steps.model import StepKind

FREE_MIN = 60


@dataclass(frozen=True)
class Story:
    """What happens after five true minutes, and how many pass by then."""

    name: str
    happens: object
    passed_min: float
    restarts: bool = False


def crash(_shop):
    """The process dies: nothing is closed."""


def suspend(shop):
    shop.clock.advance(7 * 60)


def forward(shop):
    shop.clock.set_back(-3600)


def back(shop):
    shop.clock.set_back(3600)


def there_and_back(shop):
    shop.clock.set_back(-3600)
    shop.clock.advance(60)
    shop.clock.set_back(3600)


def power_off(shop):
    shop.clock.reboot(off_s=7 * 60)


def jump_then_off(shop):
    shop.clock.set_back(-3600)
    shop.clock.reboot(off_s=0)
    shop.clock.set_back(3600)


STORIES = (
    Story("nothing", lambda _shop: None, 0),
    Story("crash", crash, 0, restarts=True),
    Story("suspend", suspend, 7),
    Story("suspend, then closed and opened", suspend, 7, restarts=True),
    Story("wall clock an hour forward", forward, 0),
    Story("wall clock an hour back", back, 0),
    Story("forward, closed, opened in the same run", forward, 0, restarts=True),
    Story("back, closed, opened in the same run", back, 0, restarts=True),
    Story("forward and back again", there_and_back, 1),
    Story("power off", power_off, 7, restarts=True),
    Story("wrong before the restart, right after", jump_then_off, 0, restarts=True),
)


def left_min(window):
    """Minutes to what comes next, by what timer."""
    now = window.clock.now()
    found = {}
    for row in window.timing.rows:
        name = "free" if row.free else row.step.split("/")[3]
        found[name] = round((row.next_bell_at - now).total_seconds() / 60, 2)
    return found


def begun(shop):
    """All timers begin, and five minutes pass."""
    other = shop.window(CUFF)
    other.do(StepKind.FINISH)
    other.session.done((other.one(StepKind.DRIP),))
    other.begin(StepKind.WATCH)
    other.do(StepKind.WATCH)
    other.close()
    window = shop.window()
    window.do(StepKind.CASE)
    window.timing.set_timer(FREE_MIN, "tea")
    window.run(5)
    return window


def left_after(minutes):
    return {
        "form": OPENS_MIN - minutes,
        "free": FREE_MIN - minutes,
        "dry": TOUCH_MIN - minutes,
        "finish": 1440 - 10 - minutes,
    }


@pytest.mark.parametrize("story", STORIES, ids=lambda story: story.name)
def test_every_timer_is_right_after(shop, story):
    window = begun(shop)
    story.happens(shop)
    if story.restarts:
        window = shop.window()
    else:
        window.session.read_along()
    gone = 5 + story.passed_min
    assert left_min(window) == left_after(gone)
    assert window.timing.doubt == ""
    # And they go on rightly from there.
    window.run(3)
    assert left_min(window)["free"] == FREE_MIN - gone - 3


def test_a_doubtful_clock_is_asked_about_in_words(shop):
    window = shop.window()
    window.timing.set_timer(FREE_MIN, "tea")
    window.run(10)
    window.timing.set_timer(FREE_MIN, "more")
    shop.clock.reboot(off_s=0)
    shop.clock.set_back(24 * 3600)
    window = shop.window()
    assert window.timing.doubt == (
        "Is the computer's clock right? It says 09:10 on 28 February 2027, but something was "
        "recorded at 09:10 on 01 March 2027. Until it is set, timers may be wrong."
    )
    assert all("is the computer's clock right?" in row.title for row in window.timing.rows)
    shop.clock.set_back(-24 * 3600)
    window.session.read_along()
    assert window.timing.doubt == ""


def test_a_clock_that_lost_time_while_off_is_doubted_until_it_is_set_right(shop):
    begun(shop).close()
    shop.clock.reboot(off_s=7 * 60)
    shop.clock.set_back(30 * 60)
    window = shop.window()
    assert window.timing.doubt
    # No timer ends before its time for that.
    assert all(minutes > 0 for minutes in left_min(window).values())
    # By this clock the timer begins in 18 min; it ends an hour after that, and does not slide.
    assert left_min(window)["free"] == 18 + FREE_MIN
    window.run(3)
    assert left_min(window)["free"] == 15 + FREE_MIN
    shop.clock.set_back(-30 * 60)
    assert window.session.read_along()
    assert window.timing.doubt == ""
    assert left_min(window) == left_after(15)


def test_an_answer_holds_when_the_clock_is_set(shop):
    window = shop.window()
    window.do(StepKind.CASE)
    window.run(OPENS_MIN)
    window.timing.hush(window.timing.rows[0].id)
    for seconds in (7200, -3 * 3600, 3600):
        shop.clock.set_back(-seconds)
        assert window.session.read_along()
        assert not window.ringing()
    window.run(CLOSES_MIN - OPENS_MIN - 10)
    assert window.ringing()


def test_a_clock_set_past_a_moment_and_back_rings_nothing_by_itself(shop):
    window = shop.window()
    window.timing.set_timer(30, "tea")
    window.run(1)
    shop.clock.set_back(-3600)
    assert window.session.read_along()
    assert not window.ringing()
    assert window.timing.missed() == ()
    shop.clock.set_back(3600)
    window.run(29)
    assert len(window.ringing()) == 1


def test_what_passed_between_two_looks_is_missed_whatever_the_wall_clock_did(shop):
    window = shop.window()
    window.timing.set_timer(30, "tea")
    window.close()
    shop.clock.advance(45 * 60)
    shop.clock.set_back(6 * 3600)
    (bell,) = shop.window().timing.missed()
    assert bell.meaning == "The time you set was up at 03:30."


NIGHT_AT = datetime(2027, 3, 28, 0, 30, tzinfo=UTC)
"""In Berlin half past one in the night in which clocks go forward: 02:00 becomes 03:00."""


@pytest.mark.parametrize(
    ("zone", "start_at", "told"),
    [
        ("Europe/Berlin", NIGHT_AT, "03:30"),
        ("Europe/Berlin", datetime(2027, 10, 31, 0, 30, tzinfo=UTC), "02:30"),
        ("UTC", NIGHT_AT, "01:30"),
        ("Asia/Kathmandu", NIGHT_AT, "07:15"),
    ],
)
def test_zones_and_summer_time_change_words_and_nothing_else(shop, zone, start_at, told):
    shop.clock.set_now(start_at)
    window = shop.window(zone=zone)
    window.timing.set_timer(60, "tea")
    assert left_min(window) == {"free": 60}
    assert window.timing.rows[0].meaning == f"The time you set is up at {told}."
    window.close()
    # The machine's or the shop's zone is another one at the next start.
    again = shop.window(zone="America/New_York")
    assert left_min(again) == {"free": 60}
    assert again.timing.rows[0].meaning != f"The time you set is up at {told}."
