"""A number with the way it was come by, so that a maker can check it with a pencil."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One number that a sentence rests on.

    Attributes:
        name: what it is, in a few words: 'slide per spacing'.
        value: the number, in ``unit``.
        unit: ``mm``, ``°``, ``%`` or empty for a plain number.
        formula: how it is reckoned with the numbers put in: ``d / R = 4.0 / 45 = 8.9 %``. A number
            measured on the drawing says so: ``measured on the drawing``.
        source: a publication, 'circle geometry', or 'common practice, no source'.
    """

    name: str
    value: float
    unit: str
    formula: str
    source: str
