"""Humidity that was perhaps told as a share of one instead of in per cent."""

_WHOLE = 1.0


def share_in_pct(humidity: float) -> float | None:
    """Return the per cent that were perhaps meant, or ``None`` where the number is no share.

    Air of 1 % and less is met in no room: the driest deserts have some 5 % (common knowledge, no
    source). 0 is taken as told, since it is no likely share either.
    """
    return round(100 * humidity, 1) if 0 < humidity <= _WHOLE else None


def share_question(humidity: float) -> str:
    """Return the question in words; empty where there is none."""
    pct = share_in_pct(humidity)
    if pct is None:
        return ""
    return f"{humidity:g} % is drier than any desert. Is that a share? Then it is {pct:g} %."
