"""Numbers as loggers write them: decimal comma or point, a unit behind, dashes for nothing."""

import re
from math import isfinite
from unicodedata import normalize

_NUMBER = re.compile(r"([+-]?\d{1,6}(?:[.,]\d{0,12})?|[+-]?[.,]\d{1,12})\s*([^\d\s].{0,11})?")
_UNITS = re.compile(r"(?:°\s*)?[cf]?|%\s*(?:r\.?h\.?)?|r\.?h\.?|m/s", re.IGNORECASE)


def number_in(cell: str) -> float | None:
    """Return the number in a cell, a unit of air behind it or not; ``None`` where there is none."""
    plain = cell.replace("\N{MINUS SIGN}", "-").replace("º", "°")
    found = _NUMBER.fullmatch(plain if plain.isascii() else normalize("NFKC", plain).strip())
    if found is None or (found[2] and not _UNITS.fullmatch(found[2].strip())):
        return None
    value = float(found[1].replace(",", "."))
    return value if isfinite(value) else None


def says_fahrenheit(cell: str) -> bool:
    """Tell whether a cell with a number has °F behind it."""
    return cell[-1:] in ("F", "f", "\N{DEGREE FAHRENHEIT}")


def says_celsius(cell: str) -> bool:
    """Tell whether a cell with a number has °C behind it."""
    return cell[-1:] in ("C", "c", "\N{DEGREE CELSIUS}")


def says_per_cent(cell: str) -> bool:
    """Tell whether a cell with a number has % behind it."""
    return "%" in cell
