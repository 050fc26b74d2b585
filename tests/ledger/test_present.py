"""The wall clock is set while the machine runs: what was recorded is told by the new wall."""

from ledger.sitting import Sitting

from armorplan.ledger import acting
from armorplan.ledger.looks import LookTaken
from armorplan.ledger.present import in_present_wall
from armorplan.ledger.records import moment_now

DAMP = LookTaken(
    treatment="dye",
    stage="dry to handle",
    dry=False,
    begun_at="2027-03-01T09:00:00+00:00",
    dose_min=5.0,
    reference_min=60.0,
)


def sat(*, jump_s, reboot=False):
    """A step begun and ticked an hour later; then the wall clock is set, or the machine restarts."""
    sitting = Sitting()
    sitting.start("case")
    sitting.clock.advance(3600)
    sitting.done("case")
    sitting.start("dry")
    recorded = sitting.state
    if reboot:
        sitting.clock.reboot(off_s=60)
    sitting.clock.set_back(-jump_s)
    return recorded, in_present_wall(recorded, moment_now(sitting.clock)), sitting.clock


def test_within_one_run_instants_follow_the_wall_clock_that_was_set():
    for jump_s in (7200, -7200, 3):
        before, after, clock = sat(jump_s=jump_s)
        case, told = before.record("case"), after.record("case")
        assert told.done_at == clock.now()
        assert (told.done_at - case.done_at).total_seconds() == jump_s
        assert (told.stretches[0].start.at - case.stretches[0].start.at).total_seconds() == jump_s
        assert told.stretches[0].end.at == told.done_at
        # What names a run stays as it was recorded.
        assert told.done_moment.boot_s == case.done_moment.boot_s
        assert after.record("dry").stretches[0].start.at == clock.now()


def test_a_clock_that_was_not_set_changes_nothing():
    before, after, _ = sat(jump_s=1)
    assert after is before


def test_what_an_earlier_run_recorded_stays():
    before, after, _ = sat(jump_s=7200, reboot=True)
    assert after is before


def damp_min(*happens):
    """Minutes from the start of a drying to a look at it, as they are told at the end."""
    sitting = Sitting()
    sitting.start("dry")
    for each in happens:
        sitting.clock.advance(300)
        each(sitting)
    record = in_present_wall(sitting.state, moment_now(sitting.clock)).record("dry")
    ago_min = (sitting.clock.now() - record.damp_at).total_seconds() / 60
    return ago_min, (record.damp_at - record.counted[0].start.at).total_seconds() / 60


def look(sitting):
    press = sitting.press()
    sitting.events += acting.look(sitting.state, "dry", DAMP, press)


def hour_on(sitting):
    sitting.clock.set_back(-3600)


def restart(sitting):
    sitting.clock.reboot(off_s=60)


def test_a_look_keeps_its_distance_wherever_the_clock_was_set():
    assert damp_min(look, hour_on) == (5, 5)
    assert damp_min(hour_on, look) == (0, 10)
    assert damp_min(restart, look) == (0, 11)
    # Of what an earlier run recorded the wall clock alone is left; the look stays where it was.
    assert damp_min(restart, look, hour_on) == (5, 71)
    assert damp_min(look, restart) == (6, 5)


def test_a_tick_taken_back_leaves_no_moment_behind():
    sitting = Sitting()
    sitting.done("case")
    assert sitting.state.record("case").done_moment.at == sitting.clock.now()
    sitting.start("case")
    assert sitting.state.record("case").done_moment is None
