"""What the page of shapes says: how a measure stands, counts, numbers with their units."""

from collections import Counter
from collections.abc import Iterable

from PySide6.QtCore import QCoreApplication

from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.colours import Colours
from armorplan.kernel.figures import Figure

SOUND = ""
"""The severity of what is sound."""
ORDER = "order"
"""Stands for what is sound only in the right order: there is nothing to mend, nor is it all one."""
STANDINGS = (SOUND, ORDER, "note", "warning", "error")
"""How a measure can stand, the gravest last."""
_WORDS = {
    SOUND: "sound",
    ORDER: "to set in order",
    "note": "to know",
    "warning": "to look at",
    "error": "to mend",
}
_SIGNS = {SOUND: "✓", ORDER: "→", "note": "●", "warning": "▲", "error": "✖"}
_SHORT_UNIT = 3
"""A unit of so many letters stays with its number where the line breaks."""
_FINE_BELOW = 10
"""Numbers below this are told to a hundredth, others to a tenth."""


def _say(text: str) -> str:
    return QCoreApplication.translate("shapes", text)


def standing_of(row: ShapeRow) -> str:
    """Return how a row stands: its severity, or that it is sound in the right order only."""
    return ORDER if row.severity == SOUND and row.sets_order else row.severity


def standing_word(severity: str) -> str:
    """Say how a measure stands: ``sound``, ``to set in order``, ``to know``, ``to look at``, ``to mend``."""
    return _say(_WORDS[severity])


def standing_sign(severity: str) -> str:
    """Return the character that stands for it in running text."""
    return _SIGNS[severity]


def standing_colour(severity: str, colours: Colours) -> str:
    """Return the colour of its mark and word."""
    return {
        SOUND: colours.ready,
        ORDER: colours.waiting,
        "note": colours.running,
        "warning": colours.drying,
        "error": colours.alarm,
    }[severity]


def topic_title(topic: str) -> str:
    """Return a topic as a heading."""
    said = _say(topic)
    return said[:1].upper() + said[1:]


def counted(rows: Iterable[ShapeRow]) -> str:
    """Say how many there are of each standing, the gravest first: ``1 to mend, 4 sound``."""
    counts = Counter(map(standing_of, rows))
    told = [f"{counts[s]} {standing_word(s)}" for s in reversed(STANDINGS) if counts[s]]
    return ", ".join(told)


def counted_short(rows: Iterable[ShapeRow]) -> str:
    """Say the same by signs, where words have no room: ``✖ 1  ✓ 4``."""
    counts = Counter(map(standing_of, rows))
    return "  ".join(f"{_SIGNS[s]} {counts[s]}" for s in reversed(STANDINGS) if counts[s])


def spoken(row: ShapeRow) -> str:
    """Say a line as a screen reader speaks it."""
    return f"{standing_word(standing_of(row))}: {row.title}, {row.verdict}"


def number_text(value: float) -> str:
    """Write a number as finely as a maker reads it: ``4.25``, ``12.5``, ``180``."""
    digits = 2 if abs(value) < _FINE_BELOW else 1
    text = f"{value:.{digits}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text.replace("-", "\N{MINUS SIGN}")


def figure_text(figure: Figure) -> str:
    """Write a figure's number with its unit; degrees stand close."""
    number = number_text(figure.value)
    if figure.unit in ("", "°"):
        return f"{number}{figure.unit}"
    between = "\N{NO-BREAK SPACE}" if len(figure.unit) <= _SHORT_UNIT else " "
    return f"{number}{between}{figure.unit}"


def mm_text(value_mm: float) -> str:
    """Write a length to a tenth of a millimetre, as rulers are read: ``12.0 mm``."""
    return f"{value_mm:.1f}\N{NO-BREAK SPACE}mm".replace("-", "\N{MINUS SIGN}")
