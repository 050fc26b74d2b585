"""Numbers as people type them: with a point or a comma, and with any minus sign."""

from math import isfinite


def typed_number(text: str) -> float | None:
    """Return the number that was typed; ``None`` where it is none: ``nan`` and ``inf`` are none.

    A comma is taken for a point: ask ``thickness_words.two_readings`` first, for 1,000 may be either.
    """
    plain = text.replace(",", ".").replace("\N{MINUS SIGN}", "-")
    try:
        number = float(plain)
    except ValueError:
        return None
    return number if isfinite(number) else None
