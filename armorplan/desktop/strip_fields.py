"""What one measures on a test strip, and how what is typed becomes a strip."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from PySide6.QtCore import QCoreApplication

from armorplan.files.thickness_words import two_readings
from armorplan.files.typed_numbers import typed_number
from armorplan.geometry.bends.strip import Strip, StripResult
from armorplan.geometry.pictures import BendPicture, Layer


class StripBench(NamedTuple):
    """What the page of the test strip works with; both may take their time.

    ``leathers`` gives ids and names; ``keep`` writes what a strip told of a leather and returns a
    sentence. Both raise ArmorplanError with what is to be mended.
    """

    leathers: Callable[[], tuple[tuple[str, str], ...]]
    keep: Callable[[str, StripResult], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class StripField:
    """One number to measure: its name, unit, and what to measure."""

    key: str
    label: str
    unit: str
    help: str


FIELDS = (
    StripField(
        key="flat", label="&Flat length", unit="mm", help="The strip's length before it is bent."
    ),
    StripField(
        key="first",
        label="F&irst leg",
        unit="mm",
        help="Bent and dry: straight, from the end to where the bend begins.",
    ),
    StripField(key="second", label="&Second leg", unit="mm", help="The same at the other end."),
    StripField(
        key="radius", label="&Radius of the rod", unit="mm", help="Half the rod's diameter."
    ),
    StripField(
        key="angle",
        label="&Angle of the bend",
        unit="°",
        help="How far it stays bent once dry: 0 is flat, 90 a right angle, 180 a hairpin.",
    ),
    StripField(
        key="thickness", label="&Thickness", unit="mm", help="Of the leather, by calliper."
    ),
)


def _say(text: str) -> str:
    return QCoreApplication.translate("strip", text)


def plain_label(field: StripField) -> str:
    """Return a field's name as it is spoken."""
    return _say(field.label).replace("&", "")


def strip_of(typed: Mapping[str, str], *, outside: bool) -> Strip | str:
    """Return the strip that was typed, or what is still missing or cannot be read.

    Args:
        typed: texts by the keys of ``FIELDS``.
        outside: legs are measured to where the outer faces would meet.
    """
    numbers: dict[str, float] = {}
    missing = []
    for field in FIELDS:
        text = typed.get(field.key, "").strip()
        if not text:
            missing.append(plain_label(field).lower())
            continue
        number = _number(text)
        if isinstance(number, str):
            return f"{plain_label(field)}: {number}"
        numbers[field.key] = number
    if missing:
        return _say("Still to measure: {0}.").format(", ".join(missing))
    return Strip(
        flat_mm=numbers["flat"],
        legs_mm=(numbers["first"], numbers["second"]),
        radius_mm=numbers["radius"],
        angle_deg=numbers["angle"],
        thickness_mm=numbers["thickness"],
        outside=outside,
    )


def _number(text: str) -> float | str:
    """Return a number as it was typed, with point or comma, or why it is none."""
    other = two_readings(text)
    if other:
        return _say("Write {0}.").format(other)
    number = typed_number(text)
    if number is None:
        return _say("{0} is no number; write one such as 12.5.").format(f"'{text}'")
    return number


def strip_picture(strip: Strip, past_mm: float = 0.0) -> BendPicture | None:
    """Return the bent strip as a picture; ``None`` where its numbers draw nothing.

    Args:
        strip: as it was measured.
        past_mm: what of each leg lies beyond the beginning of the bend.
    """
    legs = tuple(leg - past_mm for leg in strip.legs_mm)
    whole_turn_deg = 360.0
    drawable = 0 < strip.angle_deg < whole_turn_deg and strip.thickness_mm > 0
    if not drawable or strip.radius_mm < 0 or min(legs) <= 0:
        return None
    return BendPicture(
        radius_mm=strip.radius_mm,
        angle_deg=strip.angle_deg,
        legs_mm=(legs[0], legs[1]),
        layers=(Layer(name=_say("test strip"), thick_mm=strip.thickness_mm, kind="strap"),),
    )
