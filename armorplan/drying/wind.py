"""How much faster moving air dries: two published laws, which differ and so give a band."""

from armorplan.workshop.air import STILL_AIR_M_S


def _carrier(air_m_s: float) -> float:
    """Carrier (1918), as in ASHRAE's handbook for pools, W/(m² Pa); constants from memory."""
    return 0.089 + 0.0782 * air_m_s


def _penman(air_m_s: float) -> float:
    """Penman (1948), Proc. R. Soc. A 193: the wind function's bracket; constants from memory."""
    return 1.0 + 0.54 * air_m_s


_LAWS = (_carrier, _penman)


def wind_gains(air_m_s: float) -> tuple[float, float, float]:
    """Return how many times faster drying is than in still air (0.1 m/s): least, middle, most.

    The middle is the geometric mean of the two laws. ValueError below 0 m/s.
    """
    if air_m_s < 0:
        message = f"air does not move at {air_m_s} m/s"
        raise ValueError(message)
    one, other = sorted(law(air_m_s) / law(STILL_AIR_M_S) for law in _LAWS)
    return one, float((one * other) ** 0.5), other
