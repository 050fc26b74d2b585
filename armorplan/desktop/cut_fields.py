"""What is typed about cutting, and how it becomes what is asked: cutter, bed, margin, kerf."""

from PySide6.QtCore import QCoreApplication

from armorplan.files.typed_numbers import typed_number, typed_sides
from armorplan.needs.cutting.model import (
    MOST_BED_MM,
    MOST_KERF_MM,
    MOST_MARGIN_MM,
    Bed,
    CutAsked,
    Cutter,
)

_SIDES = 2


def _say(text: str) -> str:
    return QCoreApplication.translate("cut", text)


def cutter_words(cutter: Cutter) -> str:
    """Return what cuts, as it stands in a list."""
    return {
        Cutter.HAND: _say("Knife and punch, by hand"),
        Cutter.LASER: _say("Laser"),
        Cutter.KNIFE_TABLE: _say("Knife table"),
    }[cutter]


def asked_of(cutter: Cutter, bed: str, margin: str, kerf: str) -> CutAsked | str:
    """Return what is asked with what was typed, or what cannot be read, in a sentence.

    Args:
        cutter: what cuts.
        bed: its two sides in mm, ``600 x 400``; empty: blanks are not laid.
        margin: in mm.
        kerf: in mm; empty: none.
    """
    margin_mm = _number(margin or "0", MOST_MARGIN_MM, _say("Margin"))
    kerf_mm = _number(kerf or "0", MOST_KERF_MM, _say("Kerf"))
    for value in (margin_mm, kerf_mm):
        if isinstance(value, str):
            return value
    size = _bed(bed)
    if isinstance(size, str):
        return size
    if isinstance(margin_mm, str) or isinstance(kerf_mm, str):
        return ""
    laid = Bed(wide_mm=size[0], high_mm=size[1], margin_mm=margin_mm) if size else None
    return CutAsked(cutter=cutter, bed=laid, kerf_mm=kerf_mm)


def _bed(text: str) -> tuple[float, float] | str | None:
    """Return the sides of a bed in mm; ``None`` where none was typed; or why they are none."""
    if not text.strip():
        return None
    sides = typed_sides(text)
    if len(sides) != _SIDES or not all(0 < side <= MOST_BED_MM for side in sides):
        return _say("Bed: write its two sides in mm, such as 600 x 400.")
    return sides[0], sides[1]


def _number(text: str, most: float, name: str) -> float | str:
    number = typed_number(text)
    if number is None or not 0 <= number <= most:
        return _say("{0}: write a number of mm from 0 to {1}.").format(name, f"{most:g}")
    return number
