"""Five sounds that are told apart with closed eyes, each a WAV any player takes."""

import io
import wave
from array import array
from itertools import combinations, pairwise

import numpy as np
import pytest

from armorplan.app.bells import BellKind
from armorplan.desktop.sounds import LONGEST_S, MELODIES, RATE_HZ, lasts_s, wav

KINDS = pytest.mark.parametrize("kind", list(BellKind))


def samples(kind, volume_pct=100):
    with wave.open(io.BytesIO(wav(kind, volume_pct))) as file:
        assert (file.getnchannels(), file.getsampwidth()) == (1, 2)
        assert file.getframerate() == RATE_HZ
        frames = file.readframes(file.getnframes())
        assert len(frames) == 2 * file.getnframes()
    return np.array(array("h", frames), dtype=float)


def strongest_hz(wave_form):
    power = np.abs(np.fft.rfft(wave_form))
    return float(np.fft.rfftfreq(len(wave_form), 1 / RATE_HZ)[power.argmax()])


@KINDS
def test_each_is_short_and_is_heard_without_a_click_or_a_clipped_top(kind):
    heard = samples(kind)
    assert len(heard) / RATE_HZ == pytest.approx(lasts_s(kind), abs=0.001)
    assert 0.5 < lasts_s(kind) < LONGEST_S
    assert 20_000 < np.abs(heard).max() < 32_767
    assert max(abs(heard[0]), abs(heard[-1])) < 200
    # A step from sample to sample larger than any note can make would be a click.
    assert np.abs(np.diff(heard)).max() < 0.7 * np.abs(heard).max()


@KINDS
def test_each_lies_where_fading_hearing_still_reaches(kind):
    assert 500 < strongest_hz(samples(kind)) < 1800
    assert all(500 < note.pitch_hz < 1800 for note in MELODIES[kind])


def loudness_by_twentieths(kind):
    heard = samples(kind)
    step = RATE_HZ // 20
    padded = np.pad(heard, (0, int(LONGEST_S * RATE_HZ) + step - len(heard)))
    cells = padded[: len(padded) // step * step].reshape(-1, step)
    loud = np.sqrt((cells**2).mean(axis=1))
    return loud / loud.max()


def test_no_two_have_the_same_rhythm():
    """The run of loudness alone tells them apart: also where pitch is not heard."""
    runs = {kind: loudness_by_twentieths(kind) for kind in BellKind}
    for one, other in combinations(BellKind, 2):
        assert np.abs(runs[one] - runs[other]).mean() > 0.08, (one, other)


def test_no_two_have_the_same_pitches():
    """Shares of power in thirds of an octave: the tune alone tells them apart as well."""
    edges = 440 * 2 ** (np.arange(0, 10) / 3)
    spectra = {}
    for kind in BellKind:
        heard = samples(kind)
        power = np.abs(np.fft.rfft(heard)) ** 2
        at = np.fft.rfftfreq(len(heard), 1 / RATE_HZ)
        bands = [power[(at >= low) & (at < high)].sum() for low, high in pairwise(edges)]
        spectra[kind] = np.array(bands) / sum(bands)
    for one, other in combinations(BellKind, 2):
        assert np.abs(spectra[one] - spectra[other]).sum() > 0.3, (one, other)


def test_softer_is_softer_and_nothing_is_silence():
    full, half = samples(BellKind.DUE, 100), samples(BellKind.DUE, 50)
    assert np.abs(half).max() == pytest.approx(np.abs(full).max() / 8, rel=0.01)
    assert np.abs(samples(BellKind.DUE, 0)).max() == 0
