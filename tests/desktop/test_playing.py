"""Whatever this machine has or lacks to play with, a timer is heard or nothing raises."""

import sys
import time
from types import SimpleNamespace

import pytest

from armorplan.app.bells import BellKind
from armorplan.desktop import playing
from armorplan.desktop.playing import by_library, by_program, play, ways
from armorplan.desktop.sounds import wav

WAV = wav(BellKind.DUE, 60)


def never():
    return False


@pytest.fixture
def no_library(monkeypatch):
    monkeypatch.setitem(sys.modules, "miniaudio", None)


def script(tmp_path, body):
    made = tmp_path / "player"
    made.write_text(f"#!{sys.executable}\nimport sys\n{body}\n")
    made.chmod(0o755)
    return str(made)


def test_a_player_of_the_machine_is_handed_the_wav(tmp_path):
    heard = tmp_path / "heard"
    player = script(tmp_path, f"open({str(heard)!r}, 'wb').write(open(sys.argv[2], 'rb').read())")
    by_program(player, "-q")(WAV, never)
    assert heard.read_bytes() == WAV


def test_players_are_sought_in_order(no_library):
    tried = []
    found = list(ways(find=tried.append, platform="linux"))
    assert tried == ["paplay", "pw-play", "aplay", "afplay"]
    assert found == [by_library]
    assert list(ways(find=lambda _: None, platform="win32"))[-1] is playing.by_windows


def test_a_way_that_fails_gives_way_to_the_next_and_is_not_tried_again(no_library, tmp_path):
    calls = []

    def works(_wav, _should_stop):
        calls.append("works")

    known = [by_library, by_program(script(tmp_path, "sys.exit(1)")), works]
    assert play(WAV, never, known)
    assert known == [works]
    assert play(WAV, never, known)
    assert calls == ["works", "works"]


def test_with_no_way_at_all_it_says_so_and_does_not_raise(no_library):
    assert not play(WAV, never, [by_library, by_program("/nowhere/player")])
    assert not play(WAV, never, [])


def test_a_player_that_hangs_is_ended_when_asked(tmp_path):
    player = script(tmp_path, "import time; time.sleep(60)")
    began = time.monotonic()
    assert play(WAV, lambda: True, [by_program(player)])
    assert time.monotonic() - began < 2


class Device:
    """A sound card that takes all it is given at once."""

    taken = b""

    def __init__(self, **_options):
        pass

    def __enter__(self):
        return self

    def __exit__(self, *_error):
        return None

    def start(self, source):
        for _ in range(1000):
            try:
                type(self).taken += source.send(256)
            except StopIteration:
                return


def test_the_library_is_given_every_frame(monkeypatch):
    frames = WAV[44:]
    decoded = SimpleNamespace(
        samples=memoryview(frames), sample_width=2, sample_format="s16", sample_rate=22_050
    )
    fake = SimpleNamespace(PlaybackDevice=Device, decode=lambda _wav, **_options: decoded)
    monkeypatch.setitem(sys.modules, "miniaudio", fake)
    monkeypatch.setattr(playing, "TAIL_S", 0)
    by_library(WAV, never)
    assert Device.taken == frames


def test_no_sound_card_is_a_way_that_failed(monkeypatch):
    def refuse(**_options):
        message = "no device"
        raise RuntimeError(message)

    decoded = SimpleNamespace(
        samples=memoryview(b"ab"), sample_width=2, sample_format="s16", sample_rate=22_050
    )
    fake = SimpleNamespace(PlaybackDevice=refuse, decode=lambda _wav, **_options: decoded)
    monkeypatch.setitem(sys.modules, "miniaudio", fake)
    assert not play(WAV, never, [by_library])


def test_a_way_taken_out_by_another_meanwhile_takes_no_other_with_it():
    known = []

    def fails(_wav, _should_stop):
        known.remove(fails)
        raise OSError

    def works(_wav, _should_stop):
        pass

    known += [fails, works]
    assert play(WAV, never, known)
    assert known == [works]
