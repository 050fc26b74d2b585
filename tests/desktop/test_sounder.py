"""Sound as the settings say, off the window's thread, never two of it at once."""

import pytest

from armorplan.app.bells import BellKind
from armorplan.desktop.settings import LOUDNESS_PCT, SOUND
from armorplan.desktop.sounder import Sounder
from armorplan.desktop.sounds import wav


@pytest.fixture
def played():
    return []


@pytest.fixture
def sounder(qapp, settings, played):
    made = Sounder(settings, [lambda heard, _should_stop: played.append(heard)])
    yield made
    assert made.close()


def until_silent(qtbot, sounder):
    qtbot.waitUntil(lambda: not sounder._runner.is_busy)


def test_kinds_are_played_in_turn_as_loud_as_the_settings_say(sounder, settings, played, qtbot):
    settings.put(LOUDNESS_PCT, 40)
    sounder.ring(BellKind.CLOSES, BellKind.DUE)
    sounder.ring(BellKind.WATCH)  # the former still plays
    until_silent(qtbot, sounder)
    assert played == [wav(BellKind.CLOSES, 40), wav(BellKind.DUE, 40)]


def test_with_sound_off_nothing_plays_and_the_level_is_told_all_the_same(
    sounder, played, settings
):
    sounder.turn(is_on=False)
    sounder.ring(BellKind.DUE)
    assert sounder.grow(1) == "Sound of timers: 100 %, but it is off."
    assert not sounder._runner.is_busy
    assert played == []
    assert settings.value(SOUND) is False


def test_louder_and_softer_are_heard_and_end_at_bounds(sounder, played, qtbot):
    assert sounder.grow(1) == "Sound of timers: 100 %"
    until_silent(qtbot, sounder)
    assert sounder.grow(1) == "Sound of timers: 100 %"
    until_silent(qtbot, sounder)
    assert sounder.grow(-1) == "Sound of timers: 80 %"
    until_silent(qtbot, sounder)
    assert played == [wav(BellKind.DUE, pct) for pct in (100, 100, 80)]
    for _ in range(6):
        said = sounder.grow(-1)
        until_silent(qtbot, sounder)
    assert said == "Sound of timers: 20 %"


def test_all_five_are_heard_in_the_order_they_are_named(sounder, played, settings, qtbot):
    said = sounder.demonstrate()
    assert said.startswith("In turn: time is up; can begin now; begin, it closes; look and turn;")
    until_silent(qtbot, sounder)
    assert played == [wav(kind, 80) for kind in BellKind]
    sounder.turn(is_on=False)
    assert sounder.demonstrate().startswith("Sound of timers is off")


def test_a_machine_without_sound_says_so_each_time(settings, qtbot):
    def fails(_heard, _should_stop):
        raise OSError

    sounder = Sounder(settings, [fails])
    for _ in range(2):  # the second time no way is left to be tried
        with qtbot.waitSignal(sounder.mute):
            sounder.ring(BellKind.DUE)
        until_silent(qtbot, sounder)
    sounder.close()
