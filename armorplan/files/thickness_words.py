"""How thick a leather is: a number, a range, or the words it is sold by."""

import re
from dataclasses import dataclass
from typing import NamedTuple

from armorplan.files.limits import OUNCES, THICKNESS, THICKNESS_MM, WEIGHT
from armorplan.files.tables import Table
from armorplan.files.values import maybe_range, maybe_text
from armorplan.kernel.units import ounces_to_mm

_NUMBER = r"([0-9]{1,6}(?:[.,][0-9]{1,6})?)"
_UNIT = r"(oz|mm)\.?"
# Texts pasted from a seller's page bring every dash there is.
_DASH = "[-/\N{HYPHEN}\N{NON-BREAKING HYPHEN}\N{FIGURE DASH}\N{EN DASH}\N{EM DASH}\N{MINUS SIGN}]"
_SOLD = re.compile(
    rf"\s*{_NUMBER}\s*(?:(?:{_UNIT}\s*)?(?:{_DASH}|\bto\b)\s*{_NUMBER}\s*)?{_UNIT}\s*",
    re.IGNORECASE,
)
_EITHER_WAY = re.compile(r"(?<![\d.,])[1-9]\d{0,2},\d{3}(?![\d.,])")
KEYS = ("thickness_mm", "weight_oz", "sold")
_WANTED = (
    'a thickness like "8-9 oz", "3.2–3.6 mm" or "8 oz", the least first, at most '
    f"{THICKNESS_MM} mm or {OUNCES} oz"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Thickness:
    """The upper end in mm, and the lower end where it is sold as a range."""

    thickness_mm: float
    least_mm: float | None = None


class SoldWords(NamedTuple):
    """What leather is sold by: the ends with decimal points, one or two, and their unit."""

    ends: tuple[str, ...]
    unit: str


def read_thickness(row: Table) -> Thickness:
    """Return how thick a material is; exactly one of the three keys says it."""
    in_mm = maybe_range(row, "thickness_mm", THICKNESS)
    in_oz = maybe_range(row, "weight_oz", WEIGHT)
    sold = _sold_mm(row)
    written = [key for key in KEYS if row.has(key)]
    if not written:
        row.missing("thickness_mm", wanted='3.2, or weight_oz = 8, or sold = "8-9 oz"')
    elif len(written) > 1:
        row.fault(
            written[-1],
            "two-thicknesses",
            f"{' and '.join(written)} are written together.",
            mend="Keep one of them.",
        )
    if in_oz is not None:
        in_mm = ounces_to_mm(in_oz[0]), ounces_to_mm(in_oz[1])
    least_mm, most_mm = in_mm or sold or (0.0, 0.0)
    return Thickness(thickness_mm=most_mm, least_mm=least_mm if least_mm < most_mm else None)


def _sold_mm(row: Table) -> tuple[float, float] | None:
    words = maybe_text(row, "sold")
    if words is None:
        return None
    found = sold_mm(words)
    if found is None:
        row.wrong("sold", words, wanted=two_readings(words) or _WANTED)
    return found


def two_readings(words: str) -> str:
    """Return how else to write a number like 1,000, which may be a thousand or one; else ''."""
    found = _EITHER_WAY.search(words)
    if found is None:
        return ""
    return f"{found[0].replace(',', '')} or {found[0].replace(',', '.')}: {found[0]} may be either"


def sold_words(words: str) -> SoldWords | None:
    """Return the ends and the unit that the words write; ``None`` where they write no thickness."""
    found = None if two_readings(words) else _SOLD.fullmatch(words)
    if found is None:
        return None
    least, first_unit, most, unit = found.groups()
    if first_unit is not None and first_unit.lower() != unit.lower():
        return None
    ends = (least,) if most is None else (least, most)
    return SoldWords(tuple(end.replace(",", ".") for end in ends), unit.lower())


def sold_mm(words: str) -> tuple[float, float] | None:
    """Return the least and the most thickness in mm that the words say.

    ``None`` where they say none, the most first, or more than leather is.
    """
    found = sold_words(words)
    if found is None:
        return None
    in_oz = found.unit == "oz"
    ends = [float(end) for end in found.ends]
    if ends != sorted(ends) or not all((WEIGHT if in_oz else THICKNESS).hold(end) for end in ends):
        return None
    in_mm = [ounces_to_mm(end) for end in ends] if in_oz else ends
    return in_mm[0], in_mm[-1]
