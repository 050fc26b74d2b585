"""How three weights that were typed become a weighing."""

from PySide6.QtCore import QCoreApplication

from armorplan.files.thickness_words import two_readings
from armorplan.files.typed_numbers import typed_number

HEAVIEST_G = 100_000.0


def _tr(text: str) -> str:
    return QCoreApplication.translate("weigh", text)


def weights_of(typed: tuple[tuple[str, str], ...]) -> tuple[float, ...] | str:
    """Return grams by what was typed (name, text), or the first thing that is wrong."""
    found = []
    for name, text in typed:
        grams = _grams(name, text.strip())
        if isinstance(grams, str):
            return grams
        found.append(grams)
    return tuple(found)


def _grams(name: str, text: str) -> float | str:
    if not text:
        return _tr("Still to weigh: {0}, in grams.").format(name)
    other = two_readings(text)
    if other:
        return _tr("{0}: write {1}.").format(name, other)
    grams = typed_number(text)
    if grams is not None and 0 < grams <= HEAVIEST_G:
        return grams
    said = _tr("{0}: '{1}' is no weight; type grams, such as 84.5.")
    return said.format(name, text)
