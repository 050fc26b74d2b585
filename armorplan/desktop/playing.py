"""Ways to let a sound be heard, the best one first; whatever is missing, none of them raises."""

import logging
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from time import monotonic, sleep
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Generator

ShouldStop = Callable[[], bool]
Way = Callable[[bytes, ShouldStop], None]
"""Plays a WAV to its end or until told to stop; raises where it cannot."""

PROGRAMS: tuple[tuple[str, ...], ...] = (
    ("paplay",),
    ("pw-play",),
    ("aplay", "-q"),
    ("afplay",),
)
"""Players that come with Linux desktops and with macOS; each takes a WAV file."""
LONGEST_S = 4.0
"""A sound that lasts longer hangs, for each of ours is shorter."""
LOOK_S = 0.05
TAIL_S = 0.2
"""What a sound card still holds once it was handed the last of a sound."""
_LOG = logging.getLogger(__name__)


def ways(
    find: Callable[[str], str | None] = shutil.which, platform: str = sys.platform
) -> Iterator[Way]:
    """Yield what this machine may play with: the audio library, its own player, Windows' call."""
    yield by_library
    for name, *options in PROGRAMS:
        path = find(name)
        if path:
            yield by_program(path, *options)
    if platform == "win32":
        yield by_windows


def play(wav: bytes, should_stop: ShouldStop, known: list[Way]) -> bool:
    """Play by the first way that works; tell whether one did.

    ``known`` holds the ways to try; those that fail are taken out, so each fails once only.
    """
    for way in tuple(known):
        try:
            way(wav, should_stop)
        except Exception as error:  # noqa: BLE001 - a timer rings by other means then
            _LOG.info("No sound by %s: %s", way, error)
            # One that plays on while it is told to stop may have found the same.
            with suppress(ValueError):
                known.remove(way)
        else:
            return True
    return False


def by_library(wav: bytes, should_stop: ShouldStop) -> None:
    """Play with ``miniaudio``, where it is installed (extra ``sound``)."""
    import miniaudio  # type: ignore[import-not-found,unused-ignore]

    decoded = miniaudio.decode(wav, nchannels=1)
    frames = decoded.samples.tobytes()
    width = decoded.sample_width
    ended: list[bool] = []

    def stream() -> "Generator[bytes, int, None]":
        at = 0
        wanted = yield b""
        while at < len(frames):
            part = frames[at : at + wanted * width]
            at += wanted * width
            wanted = yield part
        ended.append(True)

    source = stream()
    next(source)
    with miniaudio.PlaybackDevice(
        output_format=decoded.sample_format, nchannels=1, sample_rate=decoded.sample_rate
    ) as device:
        device.start(source)
        _wait(lambda: bool(ended), should_stop)
        if not should_stop():
            sleep(TAIL_S)


def by_program(path: str, *options: str) -> Way:
    """Return the way that hands a file to a player of the machine."""

    def way(wav: bytes, should_stop: ShouldStop) -> None:
        with tempfile.TemporaryDirectory(prefix="armorplan-") as folder:
            file = Path(folder) / "timer.wav"
            file.write_bytes(wav)
            running = subprocess.Popen(  # noqa: S603 - a player found on the path, our own file
                [path, *options, str(file)],
                stdin=subprocess.DEVNULL,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
            )
            _wait(lambda: running.poll() is not None, should_stop)
            was_stopped = running.poll() is None
            with suppress(OSError):
                running.kill()
            code = running.wait()
        if code and not was_stopped:
            message = f"{path} ended with {code}"
            raise OSError(message)

    return way


def by_windows(wav: bytes, should_stop: ShouldStop) -> None:
    """Play with the call of Windows for it; it cannot be stopped, but is short."""
    import winsound

    if not should_stop():
        winsound.PlaySound(wav, winsound.SND_MEMORY)  # type: ignore[attr-defined,unused-ignore]


def _wait(is_over: Callable[[], bool], should_stop: ShouldStop) -> None:
    until_s = monotonic() + LONGEST_S
    while not is_over() and not should_stop() and monotonic() < until_s:
        sleep(LOOK_S)
