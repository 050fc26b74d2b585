"""How much flat leather a bend takes, and how far its outside stretches.

A bend keeps its length in one layer of the leather, the neutral one, ``K`` thicknesses from the
inside: it takes ``BA = angle · (R + K · t)`` of the flat part (sheet-metal texts after Machinery's
Handbook).
"""

from math import pi, radians, tan

HALF_TURN_DEG, WHOLE_TURN_DEG = 180.0, 360.0


def allowance_mm(
    angle_deg: float, radius_mm: float, *, thickness_mm: float, neutral: float
) -> float:
    """Return how much of the flat part a bend takes, in mm; ``radius_mm`` is the inner one."""
    return radians(angle_deg) * (radius_mm + neutral * thickness_mm)


def neutral_of(
    bend_mm: float, *, angle_deg: float, radius_mm: float, thickness_mm: float
) -> float | None:
    """Return K of a bend that took so much of the flat part; ``None`` without angle or thickness."""
    if angle_deg <= 0 or thickness_mm <= 0:
        return None
    return (bend_mm / radians(angle_deg) - radius_mm) / thickness_mm


def setback_mm(angle_deg: float, radius_mm: float, thickness_mm: float) -> float | None:
    """Return how far the outer faces meet beyond a straight leg, in mm; ``None`` from 180° on."""
    if angle_deg >= HALF_TURN_DEG:
        return None
    return (radius_mm + thickness_mm) * tan(radians(angle_deg) / 2)


def outer_strain_pct(radius_mm: float, thickness_mm: float) -> float:
    """Return how much the outer fibre stretches in a bend, in per cent.

    Beam theory with the neutral line in the middle: (t/2) / (R + t/2). A bend without a radius
    around leather without thickness stretches nothing.
    """
    half_mm = thickness_mm / 2
    return 100 * half_mm / (radius_mm + half_mm) if radius_mm + half_mm > 0 else 0.0


def turn_deg(bend_mm: float, radius_mm: float, *, thickness_mm: float, neutral: float) -> float:
    """Return through how many degrees so much flat leather goes round at a radius."""
    middle_mm = radius_mm + neutral * thickness_mm
    return bend_mm / middle_mm * HALF_TURN_DEG / pi if middle_mm > 0 else 0.0
