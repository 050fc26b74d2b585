"""What is typed of a wearer, and how it becomes measures in mm; what cannot be read is told."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from math import isfinite

from PySide6.QtCore import QCoreApplication

from armorplan.kernel.units import MM_PER_INCH
from armorplan.workshop.measures import Sex
from armorplan.workshop.wearers import Wearer

_MOST_MM, _MOST_PADDING_MM = 10_000.0, 30.0
_NO_ID = re.compile(r"[^a-z0-9_-]+")


def _say(text: str) -> str:
    return QCoreApplication.translate("wearer", text)


class Unit(Enum):
    """In which unit measures are typed: what it is called, and how many mm it is."""

    MM = ("mm", 1.0)
    CM = ("cm", 10.0)
    INCH = ("in", MM_PER_INCH)

    @property
    def sign(self) -> str:
        """Its sign."""
        return self.value[0]

    @property
    def mm(self) -> float:
        """How many mm one of it is."""
        return self.value[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """What stands in the fields.

    Attributes:
        bare, padded: what is typed by measure, on the body and over the padding.
    """

    id: str
    name: str
    sex: Sex | None
    padding: str
    unit: Unit
    bare: Mapping[str, str]
    padded: Mapping[str, str]


def wearer_of(typed: Typed, former: Wearer | None) -> Wearer | str:
    """Return the wearer that is typed, or what of it cannot be read.

    Args:
        typed: what stands in the fields.
        former: the wearer as kept; of measures that are not asked for here theirs stay.
    """
    padding = _number(typed.padding, Unit.MM, _MOST_PADDING_MM)
    if isinstance(padding, str):
        return _say("Padding: {0}").format(padding)
    found: dict[str, dict[str, float]] = {"bare": {}, "padded": {}}
    for kind, fields in (("bare", typed.bare), ("padded", typed.padded)):
        kept = (former.measures if kind == "bare" else former.padded) if former else {}
        found[kind] |= {key: mm for key, mm in kept.items() if key not in fields}
        for key, words in fields.items():
            value = length_mm(words, typed.unit)
            if isinstance(value, str):
                return _say("{0}: {1}").format(words, value)
            if value is not None:
                found[kind][key] = value
    name = typed.name.strip() or _say("Somebody")
    return Wearer(
        id=typed.id or id_of(name),
        name=name,
        sex=typed.sex,
        measures=found["bare"],
        padded=found["padded"],
        padding_mm=padding,
        left=former.left if former else {},
        right=former.right if former else {},
        notes=former.notes if former else "",
    )


def _number(words: str, unit: Unit, most_mm: float) -> float | str | None:
    """Return a length in mm, ``None`` where nothing is typed, or what would be fine."""
    plain = words.strip().replace(",", ".").removesuffix(unit.sign).strip()
    if not plain:
        return None
    try:
        value = float(plain) * unit.mm
    except ValueError:
        value = float("nan")
    if not isfinite(value) or not 0 <= value <= most_mm:
        return _say("write a number of {0} from 0 to {1}").format(
            unit.sign, f"{most_mm / unit.mm:g}"
        )
    return round(value, 2)


def length_mm(words: str, unit: Unit) -> float | str | None:
    """Return a measure in mm, ``None`` where nothing is typed, or what would be fine."""
    return _number(words, unit, _MOST_MM)


def shown(value_mm: float | None, unit: Unit) -> str:
    """Return a length as it stands in a field of this unit."""
    return "" if value_mm is None else f"{round(value_mm / unit.mm, 2):g}"


def id_of(name: str) -> str:
    """Return an id made of a name: 'Mara of the west mole' is ``mara_of_the_west_mole``."""
    plain = _NO_ID.sub("_", name.strip().casefold()).strip("_")
    return plain or "wearer"
