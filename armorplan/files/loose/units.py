"""What one unit of a drawing is in mm: by its own word, by its holes, by its size.

A punched hole is 2.5 to 8 mm wide, a pattern fits a body: common practice, no source. Programs
write 96 units to an inch (CSS 2.1, section 4.3.2), 72 (the point of printers), or 90 (before it).
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain
from statistics import median

from armorplan.geometry.brought.model import Stroke, Sureness, UnitGuess
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.stopping import ShouldStop, go_on
from armorplan.kernel.units import MM_PER_INCH
from armorplan.pattern.parts import Ring

HOLES_MM = (2.5, 8.0)
_ROUND_MM = (0.8, 16.0)
_WHOLE_MM = (60.0, 3_000.0)
MOST_MM = 12_000.0
LEAST_PART_MM, LEAST_MM = 15.0, 2.0
"""What is smaller than the first is hardly a part; smaller than the second is nothing to cut."""
PX_MM = MM_PER_INCH / 96
FACTORS = (1.0, PX_MM, MM_PER_INCH / 72, MM_PER_INCH, 10.0, MM_PER_INCH / 90)
_WRONG_BY = (MM_PER_INCH, 10.0, 96 / 72, 96 / MM_PER_INCH)
_SAME = 0.01
_CLEARLY = 1.0
_FEW, _FEW_OF_PIECES = 3, 0.02
"""With fewer round lines than that most holes are likely drawn in pieces."""
_NEAR = 1e-4
"""Ends nearer than this share of the whole drawing belong together, whatever the unit is."""
_TOLD = 5
_WHOLE = 100.0
"""From so many mm on, whole ones are told."""
_NAMES = {
    1.0: "one unit is 1 mm",
    PX_MM: "96 units are an inch",
    MM_PER_INCH / 72: "72 units are an inch",
    MM_PER_INCH / 90: "90 units are an inch",
    MM_PER_INCH: "one unit is an inch",
    10.0: "one unit is 1 cm",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """How large a drawing is in its own units, and how wide its round lines are."""

    span: float
    rounds: tuple[float, ...]


def sizes_of(strokes: Sequence[Stroke], should_stop: ShouldStop) -> Sizes:
    """Return the sizes of what is drawn."""
    import numpy as np

    if not strokes:
        return Sizes(span=0.0, rounds=())
    go_on(should_stop)
    corners = np.array(list(chain.from_iterable(stroke.points for stroke in strokes)))
    go_on(should_stop)
    rings = [stroke.points for stroke in strokes if stroke.closed and stroke.circle is None]
    found = _diameters(rings, should_stop)
    found += (stroke.circle[1] for stroke in strokes if stroke.circle is not None)
    span = float(np.ptp(corners, axis=0).max())
    pieces = sum(not stroke.closed for stroke in strokes)
    if pieces and len(found) < max(_FEW, pieces * _FEW_OF_PIECES):
        found += _rounds_in_pieces(strokes, span, should_stop)
    return Sizes(span=span, rounds=tuple(sorted(found)))


def _rounds_in_pieces(
    strokes: Sequence[Stroke], span: float, should_stop: ShouldStop
) -> list[float]:
    """Return the diameters of circles that are drawn in several open lines.

    Where the ends lie too close together for that, as one corner far out makes them, none.
    """
    from armorplan.geometry.brought.joining import joined
    from armorplan.geometry.brought.lines import as_drawn

    loose = [as_drawn(n, stroke) for n, stroke in enumerate(strokes) if not stroke.closed]
    try:
        lines = joined(loose, span * _NEAR, should_stop).lines
    except UnreadableError:
        return []
    rings = [line.points for line in lines if line.closed]
    return _diameters(rings, should_stop)


def _diameters(rings: Sequence[Ring], should_stop: ShouldStop) -> list[float]:
    from armorplan.geometry.brought.rounds import rounds_of

    fits = rounds_of(rings, scale_free=True, should_stop=should_stop)
    return [fit.diameter for fit in fits if fit is not None]


def said(mm_each: float, how: str, sizes: Sizes, *, least_mm: float = LEAST_MM) -> UnitGuess:
    """Return what a file says one unit is, unless its holes or its size make that impossible.

    Where it is only unlikely, it is believed and yet not sure.

    Args:
        mm_each: what it says.
        how: the sentence that tells by what, such as 'The page is 210 mm wide'.
        sizes: those of the drawing.
        least_mm: how small the whole may be; a page that was drawn so is believed further than a
            number in a header, which programs write unasked.
    """
    wrong = (mm_each * f for w in _WRONG_BY for f in (w, 1 / w))
    others = _ranked(chain(wrong, FACTORS), sizes)
    best = next((f for f in others if not _same(f, mm_each)), None)
    clearly = best is not None and _score(best, sizes) >= _score(mm_each, sizes) + _CLEARLY
    if best is not None and clearly and _impossible(mm_each, sizes, least_mm):
        why = (
            f"{how}, but then {_so(mm_each, sizes)}. With 1 unit = {best:.4g} mm "
            f"{_so(best, sizes)}."
        )
        return _guess(best, why, Sureness.GUESSED, (mm_each, *others))
    sure = Sureness.SAID
    why = f"{how}: {_so(mm_each, sizes)}."
    if best is not None and clearly and mm_each * sizes.span < LEAST_PART_MM:
        sure = Sureness.GUESSED
        why += f" That is small: with 1 unit = {best:.4g} mm {_so(best, sizes)}."
    return _guess(mm_each, why, sure, others)


def guessed(sizes: Sizes, *, usual: Sequence[float] = ()) -> UnitGuess:
    """Return the likeliest unit of a drawing that says nothing; of equals the ``usual`` one."""
    ranked = _ranked(chain(usual, FACTORS), sizes)
    best = ranked[0] if ranked else 1.0
    second = _score(ranked[1], sizes) if len(ranked) > 1 else -_CLEARLY
    sure = Sureness.LIKELY if _score(best, sizes) >= second + _CLEARLY / 2 else Sureness.GUESSED
    name = next((word for factor, word in _NAMES.items() if _same(factor, best)), "")
    why = f"The drawing names no unit. If {name or f'one unit is {best:.4g} mm'}, {_so(best, sizes)}."
    return _guess(best, why, sure, ranked)


def widest_mm(unit: UnitGuess) -> float:
    """Return the most that one unit may be in mm, for curves to be fine enough for it."""
    return unit.mm_each if unit.sureness is Sureness.SAID else max(unit.mm_each, *unit.others, 0.0)


def _guess(mm_each: float, why: str, sureness: Sureness, ranked: Iterable[float]) -> UnitGuess:
    others: list[float] = []
    for factor in ranked:
        if not any(_same(factor, each) for each in (mm_each, *others)):
            others.append(factor)
    return UnitGuess(mm_each=mm_each, why=why, sureness=sureness, others=tuple(others[:_TOLD]))


def _ranked(factors: Iterable[float], sizes: Sizes) -> list[float]:
    """Return those that are at all possible, the likeliest first, equals in the order given."""
    possible = [f for f in dict.fromkeys(factors) if LEAST_PART_MM <= f * sizes.span <= MOST_MM]
    return sorted(possible, key=lambda f: -_score(f, sizes))


def _score(factor: float, sizes: Sizes) -> float:
    holes = [wide * factor for wide in sizes.rounds]
    low, high = _WHOLE_MM
    score = 1.0 if low <= factor * sizes.span <= high else 0.0
    if holes:
        score += 2 * _share(holes, HOLES_MM) + _share(holes, _ROUND_MM)
    return score


def _share(values: Sequence[float], between: tuple[float, float]) -> float:
    return sum(between[0] <= value <= between[1] for value in values) / len(values)


def _impossible(factor: float, sizes: Sizes, least_mm: float) -> bool:
    if not least_mm <= factor * sizes.span <= MOST_MM:
        return True
    return bool(sizes.rounds) and _share([w * factor for w in sizes.rounds], _ROUND_MM) == 0


def _so(factor: float, sizes: Sizes) -> str:
    whole = f"the whole drawing is {_told_mm(sizes.span * factor)} long"
    if not sizes.rounds:
        return whole
    middle = median(sizes.rounds) * factor
    return f"{whole} and its round holes are about {_told_mm(middle)} wide"


def _told_mm(value: float) -> str:
    """Return a length in words.

    >>> [_told_mm(v) for v in (15933.4, 101.6, 12.34, 4.0, 0.157, 0.002)]
    ['15,933 mm', '102 mm', '12.3 mm', '4 mm', '0.16 mm', '0.002 mm']
    """
    if value >= _WHOLE:
        return f"{value:,.0f} mm"
    return f"{value:.1f} mm".replace(".0 ", " ") if value >= 1 else f"{value:.2g} mm"


def _same(one: float, other: float) -> bool:
    return abs(one - other) <= _SAME * max(one, other)
