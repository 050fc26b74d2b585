"""How thick a leather is: a number, a range, or the words it is sold by."""

import re
from dataclasses import dataclass

from armorplan.files.tables import Table
from armorplan.files.values import ABOVE_ZERO, maybe_range, maybe_text
from armorplan.kernel.units import ounces_to_mm

_NUMBER = r"([0-9]{1,6}(?:[.,][0-9]{1,6})?)"
_SOLD = re.compile(
    rf"\s*{_NUMBER}\s*(?:(?:[-–\N{{EM DASH}}/]|\bto\b)\s*{_NUMBER}\s*)?(oz|mm)\.?\s*",
    re.IGNORECASE,
)
KEYS = ("thickness_mm", "weight_oz", "sold")
_WANTED = 'a thickness like "8-9 oz", "3.2–3.6 mm" or "8 oz", the least first'


@dataclass(frozen=True, slots=True, kw_only=True)
class Thickness:
    """The upper end in mm, and the lower end where it is sold as a range."""

    thickness_mm: float
    least_mm: float | None = None


def read_thickness(row: Table) -> Thickness:
    """Return how thick a material is; exactly one of the three keys says it."""
    in_mm = maybe_range(row, "thickness_mm", ABOVE_ZERO)
    in_oz = maybe_range(row, "weight_oz", ABOVE_ZERO)
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
        row.wrong("sold", words, wanted=_WANTED)
    return found


def sold_mm(words: str) -> tuple[float, float] | None:
    """Return the least and the most thickness in mm that the words say, or ``None``."""
    found = _SOLD.fullmatch(words)
    if found is None:
        return None
    least, most, unit = found.groups()
    ends = tuple(float(end.replace(",", ".")) for end in (least, most or least))
    if not 0 < ends[0] <= ends[1]:
        return None
    in_oz = unit.lower() == "oz"
    return (ounces_to_mm(ends[0]), ounces_to_mm(ends[1])) if in_oz else (ends[0], ends[1])
