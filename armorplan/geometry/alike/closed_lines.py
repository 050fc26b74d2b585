"""Closed lines as numbers: the nearest point of one, and what of a hull no turn changes."""

import numpy as np
from numpy.typing import NDArray

Spots = NDArray[np.complex128]
"""Points of a drawing as complex numbers, x + iy, in mm."""
Reals = NDArray[np.float64]
Numbers = NDArray[np.int64]
Truths = NDArray[np.bool_]
_DIRECTIONS = 360
_TONES = 20
_TINY = 1e-12


class Closed:
    """A closed line, made ready for the nearest of its points to be asked for."""

    def __init__(self, corners: Spots) -> None:
        self.corners = corners
        self._begin = corners[:-1]
        self._along = corners[1:] - corners[:-1]
        self._square = np.maximum(self._along.real**2 + self._along.imag**2, _TINY)
        self._ahead = _pairs(self._along).T
        self._before = (self._begin.conj() * self._along).real
        self._twice = 2 * _pairs(self._begin).T
        self._far = self._begin.real**2 + self._begin.imag**2

    def ways(self, spots: Spots) -> Spots:
        """Return for each spot the way to it from the nearest point of the line."""
        xy = _pairs(spots)
        reach = xy @ self._ahead - self._before
        share = reach / self._square
        np.maximum(share, 0.0, out=share)
        np.minimum(share, 1.0, out=share)
        # The spot's own square is the same for every stretch and tells nothing of the nearest.
        reach *= 2
        reach -= share * self._square
        reach *= share
        nearest = np.argmin(self._far - xy @ self._twice - reach, axis=1)
        at = share[np.arange(len(spots)), nearest]
        found: Spots = spots - self._begin[nearest] - at * self._along[nearest]
        return found


def _pairs(spots: Spots) -> Reals:
    """Return points as rows of x and y, without copying what lies in one piece."""
    return np.ascontiguousarray(spots).view(np.float64).reshape(-1, 2)


def hull_tones(hull: Spots) -> Reals:
    """Return the sizes of the Fourier terms of a hull's support function.

    Turning shifts the function, turning over runs it backwards, moving adds to the first term
    only, which is left out: the others keep their size. Outlines within d of each other have
    hulls whose support functions differ by no more than d anywhere, so that, by Parseval, the
    vectors returned lie no more than d apart.
    """
    ways = np.exp(-2j * np.pi * np.arange(_DIRECTIONS) / _DIRECTIONS)
    support = (hull[:, None] * ways[None, :]).real.max(axis=0)
    sizes = np.abs(np.fft.rfft(support))[:_TONES] / _DIRECTIONS
    sizes[1:] *= 2**0.5
    return np.asarray(np.delete(sizes, 1), dtype=np.float64)
