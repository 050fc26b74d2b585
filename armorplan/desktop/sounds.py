"""Sounds of timers, made here: one rhythm and one pitch for each kind of moment, as WAV.

Every note lies between 500 and 1,800 Hz, where hearing that fades with age still reaches
(common practice, no source), and dies away like a struck bar, so that it pleases at the tenth
time as well.
"""

import io
import math
import wave
from array import array
from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from armorplan.app.bells import BellKind

RATE_HZ = 22_050
LONGEST_S = 1.5
_FULL = 32_767
_PEAK = 0.8
"""Share of the full scale at 100 %, so that notes that overlap do not clip."""
_ATTACK_S = 0.006
_FADE_S = 0.03
_PARTIALS = ((1.0, 1.0), (2.0, 0.32), (3.0, 0.1))
"""Multiples of a note's pitch, and how strong each is."""


class Note(NamedTuple):
    """One struck note: when it begins, how long it is heard, its pitch."""

    at_s: float
    lasts_s: float
    pitch_hz: float


MELODIES: dict[BellKind, tuple[Note, ...]] = {
    # Three even strokes.
    BellKind.DUE: tuple(Note(0.3 * beat, 0.4, 880.0) for beat in range(3)),
    # Two rising: something begins.
    BellKind.OPENS: (Note(0.0, 0.35, 587.3), Note(0.3, 0.75, 880.0)),
    # Twice two falling: hurry, it ends.
    BellKind.CLOSES: tuple(
        Note(start, 0.32, pitch)
        for start, pitch in ((0.0, 1046.5), (0.16, 698.5), (0.56, 1046.5), (0.72, 698.5))
    ),
    # One long and soft: go and look.
    BellKind.WATCH: (Note(0.0, 1.25, 659.3),),
    # Seven quick and low, from one to the other and back.
    BellKind.LATE: tuple(
        Note(0.15 * beat, 0.2, 523.3 if beat % 2 == 0 else 622.3) for beat in range(7)
    ),
}


def lasts_s(kind: BellKind) -> float:
    """Return how long a kind's sound is heard, in seconds."""
    return max(note.at_s + note.lasts_s for note in MELODIES[kind])


def wav(kind: BellKind, volume_pct: int) -> bytes:
    """Return a kind's sound as a WAV file: one channel, 16 bit, at 0 to 100 % of its loudness."""
    held = io.BytesIO()
    with wave.open(held, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE_HZ)
        # A third power: half the setting sounds half as loud.
        gain = _PEAK * _FULL * (volume_pct / 100) ** 3
        file.writeframes(_little(array("h", (round(gain * s) for s in _shape(kind)))))
    return held.getvalue()


def _little(samples: "array[int]") -> bytes:
    """Return samples lowest byte first, as WAV has them."""
    if array("h", [1]).tobytes()[0] == 0:
        samples.byteswap()
    return samples.tobytes()


@cache
def _shape(kind: BellKind) -> "array[float]":
    """Return a kind's wave, its highest point 1."""
    samples = array("d", bytes(8 * math.ceil(lasts_s(kind) * RATE_HZ)))
    for note in MELODIES[kind]:
        start = round(note.at_s * RATE_HZ)
        for at, value in enumerate(_struck(note.pitch_hz, note.lasts_s), start):
            if at < len(samples):
                samples[at] += value
    top = max(map(abs, samples))
    return array("d", (value / top for value in samples))


@cache
def _struck(pitch_hz: float, seconds: float) -> "array[float]":
    return array("d", _samples(pitch_hz, seconds))


def _samples(pitch_hz: float, seconds: float) -> Iterator[float]:
    """Yield a struck note: a quick rise, then it dies away, and a short fade to the very end."""
    turn = 2 * math.pi * pitch_hz / RATE_HZ
    for at in range(round(seconds * RATE_HZ)):
        gone_s = at / RATE_HZ
        loud = math.exp(-3.2 * gone_s / seconds) * min(1.0, gone_s / _ATTACK_S)
        loud *= min(1.0, (seconds - gone_s) / _FADE_S)
        yield loud * sum(share * math.sin(turn * times * at) for times, share in _PARTIALS)
