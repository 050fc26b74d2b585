"""What one unit of a drawing's file is: as it seems, as it was said, and what follows from that."""

from functools import lru_cache
from statistics import median

from armorplan.app.bringing.answering import UNIT
from armorplan.app.bringing.asking import Asking, capital
from armorplan.app.bringing.model import Choice, Question, QuestionKind
from armorplan.files.typed_numbers import typed_number
from armorplan.geometry.brought.model import LooseDrawing, Sureness

ROUND_MM = (1.0, 30.0)
"""Outside of these most holes of a drawing tell of a wrong unit (common practice, no source)."""
_INCH_MM = 25.4
_NEARLY = 1e-4


def asked_unit(asking: Asking) -> float:
    """Ask what one unit of the file is; return mm."""
    drawing = asking.bringing.drawing
    guess = drawing.unit
    said = typed_number(asking.bringing.answer(UNIT) or "")
    factors = dict.fromkeys((guess.mm_each, *guess.others))
    keys = {f"{mm_each:.6g}": mm_each for mm_each in factors}
    if said and said > 0:
        keys.setdefault(asking.bringing.answer(UNIT) or "", said)
    told = tuple(
        Choice(key=key, words=unit_words(mm_each), why=_extent_words(drawing, mm_each))
        for key, mm_each in keys.items()
    )
    if said and said > 0 and f"{said:.6g}" != told[0].key:
        text = f"{capital(unit_words(said))}, as was said. {_extent_words(drawing, said)}"
    else:
        text = (
            f"How large is one unit of the file? {guess.why.rstrip('.')}. "
            f"{_extent_words(drawing, guess.mm_each)}"
        )
    question = Question(
        id=UNIT,
        kind=QuestionKind.UNIT,
        text=f"{text} If that is not so, choose another, or measure one line whose true length is "
        "known.",
        choices=told,
        suggested=told[0].key,
        sure=guess.sureness is Sureness.SAID,
        typed="mm that one unit of the file is",
        numeric=True,
    )
    return asking.number(question)


def unit_words(mm_each: float) -> str:
    """Say what one unit of a file is."""
    named = {
        1.0: "1 unit is 1 mm",
        10.0: "1 unit is 1 cm",
        _INCH_MM: "1 unit is 1 inch",
        1000.0: "1 unit is 1 m",
    }
    for per_inch in (96, 90, 72, 300, 1000):
        named[_INCH_MM / per_inch] = f"{per_inch} units are 1 inch"
    near = min(named, key=lambda known: abs(known / mm_each - 1))
    return named[near] if abs(near / mm_each - 1) < _NEARLY else f"1 unit is {mm_each:.5g} mm"


@lru_cache(maxsize=4)
def _extent(drawing: LooseDrawing) -> tuple[float, float]:
    """Return width and height of all strokes in units of the file."""
    xs = [x for stroke in drawing.strokes for x, _ in stroke.points]
    ys = [y for stroke in drawing.strokes for _, y in stroke.points]
    return (max(xs) - min(xs), max(ys) - min(ys)) if xs else (0.0, 0.0)


def _extent_words(drawing: LooseDrawing, mm_each: float) -> str:
    wide, high = _extent(drawing)
    words = f"All of it is then {wide * mm_each:,.0f} mm wide and {high * mm_each:,.0f} mm high."
    rounds = [stroke.circle[1] * mm_each for stroke in drawing.strokes if stroke.circle]
    if not rounds:
        return words
    usual_mm = median(rounds)
    words = f"{words[:-1]}, its round holes about {usual_mm:.1f} mm."
    if not ROUND_MM[0] <= usual_mm <= ROUND_MM[1]:
        words += f" Holes in leather are rarely below {ROUND_MM[0]:g} or above {ROUND_MM[1]:g} mm."
    return words
