"""Rows of holes and bands of leather that follow the edge of a plate of the arm harness."""

from __future__ import annotations

from math import dist

from samples.shapes import Curve, Path, Point, next_at, offset

Holes = tuple[tuple[str, Point, float], ...]


def even_turns(curve: Curve, start: float, end: float, count: int) -> tuple[float, ...]:
    """Return parameters from start to end whose spots lie equally far apart, by halving the chord."""
    low, high = 0.0, dist(curve(start), curve(end)) * 4 / (count - 1)
    found = [start]
    for _ in range(60):
        chord_mm = (low + high) / 2
        found = [start]
        for _ in range(count - 1):
            found.append(next_at(curve, found[-1], chord_mm))
            if found[-1] > end:
                break
        if found[-1] > end:
            high = chord_mm
        else:
            low = chord_mm
    return tuple(found)


def numbered(prefix: str, spots: tuple[Point, ...], diameter_mm: float) -> Holes:
    """Return holes counted from 1 along a row."""
    return tuple((f"{prefix}_{n}", spot, diameter_mm) for n, spot in enumerate(spots, start=1))


def band(edge: Curve, start: float, end: float, *, wide_mm: float, pieces: int = 8) -> Path:
    """Draw a band along an edge that runs rightward with the leather below it, with round ends."""
    inner = offset(edge, -wide_mm)
    path = Path().move(edge(start)).along(edge, start, end, pieces)
    _round_end(path, edge, end, wide_mm)
    path.along(inner, end, start, pieces)
    _round_end(path, edge, start, wide_mm)
    return path


def _round_end(path: Path, edge: Curve, at: float, wide_mm: float) -> None:
    """Close the end of a band by a half circle, outward on whichever side the pen stands."""
    there = edge(at) if path.commands[-1][1][-1] != edge(at) else offset(edge, -wide_mm)(at)
    path.arc(wide_mm / 2, there, clockwise=True)
