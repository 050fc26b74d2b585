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


def typed_sides(text: str) -> tuple[float, ...]:
    """Return lengths typed with an x between them: ``600 x 400``; none where one is no number.

    >>> typed_sides("600 x 400,5"), typed_sides("98.7"), typed_sides("600x")
    ((600.0, 400.5), (98.7,), ())
    """
    sides = [typed_number(side.strip()) for side in text.lower().replace("×", "x").split("x")]
    known = tuple(side for side in sides if side is not None)
    return known if len(known) == len(sides) else ()
