"""Values of a pattern as they are typed, and back."""

import re
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from armorplan.app.draft_keys import Key, Kind
from armorplan.files.thickness_words import sold_words, two_readings
from armorplan.files.typed_numbers import typed_number
from armorplan.kernel.units import mm_to_ounces, ounces_to_mm

Values = Mapping[str, Any]
Change = tuple[str, Any]
"""A key and what it shall hold; ``None`` takes it out."""

THICKNESS_KEYS = ("weight_oz", "thickness_mm", "sold")
_APART = re.compile(r"\s*(?:;|…|\bto\b|(?<=\s)[-–](?=\s)|(?<=\d)[-–](?=\d)|,\s)\s*")
_PAIR = 2
_HAIR = 1e-9


class TypedWronglyError(ValueError):
    """What was typed is no value of this key; the text says what would be."""


def typed(key: Key, values: Values) -> str:
    """Return what an entry holds for a key, as one would type it; empty where nothing is written."""
    if key.kind is Kind.THICKNESS:
        return _thickness_typed(values)
    value = values.get(key.name)
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Mapping):
        return "\n".join(f"{name} = {_plain(factor)}" for name, factor in value.items())
    if isinstance(value, list):
        between = "\n" if key.kind is Kind.SENTENCES else "; " if _are_numbers(value) else ", "
        return between.join(map(_plain, value))
    return _plain(value)


def changes(key: Key, text: str, values: Values) -> tuple[Change, ...]:
    """Return the keys that what was typed changes; none where it says what is there already.

    Raises:
        TypedWronglyError: it is no value of this key.
    """
    text = text.strip() if key.kind not in (Kind.LINES, Kind.SENTENCES) else text
    if text == typed(key, values) or (text == key.usual and key.name not in values):
        return ()
    if key.kind is Kind.THICKNESS:
        return _thickness_changes(text, values)
    value = _READ[key.kind](text) if text.strip() or key.kind is Kind.FLAG else None
    former = values.get(key.name)
    if value == former and type(value) is type(former):
        return ()
    return ((key.name, _as_it_was(value, former)),)


def other_unit(values: Values) -> str:
    """Return a thickness in the unit it is not written in: mm for oz, oz for mm."""
    found = sold_words(_thickness_typed(values))
    if not found:
        return ""
    in_oz = found.unit == "oz"
    ends = [float(end) for end in found.ends]
    told = [ounces_to_mm(end) if in_oz else mm_to_ounces(end) for end in ends]
    # 8 oz are 3.175 mm, which is shown as 3.18 though the nearest float lies a hair below.
    words = "–".join(f"{end + _HAIR:.2f}" if in_oz else f"{end:.1f}" for end in told)
    return f"= {words} {'mm' if in_oz else 'oz'}"


# --- each kind --------------------------------------------------------------------------------


def _plain(value: object) -> str:
    if isinstance(value, float):
        return f"{value:.6f}".rstrip("0").rstrip(".")
    return str(value)


def _are_numbers(value: list[object]) -> bool:
    return all(isinstance(entry, int | float) for entry in value)


def _as_it_was(value: Any, former: Any) -> Any:
    """Return a whole number as 75.0 where it was written so, and as 75 where it was not."""
    if isinstance(former, float) and isinstance(value, int) and not isinstance(value, bool):
        return float(value)
    return value


def _number(text: str) -> int | float:
    either = two_readings(text)
    if either:
        raise TypedWronglyError(f"Write {either}.")
    number = typed_number(text)
    if number is None or not text.rstrip()[-1:].isdigit():
        raise TypedWronglyError(f'"{text}" is not a number; write one like 3.2.')
    return int(number) if number.is_integer() else number


def _whole(text: str) -> int:
    number = _number(text)
    if isinstance(number, float):
        raise TypedWronglyError(f'"{text}" is not a whole number; write one like 3.')
    return number


def _numbers(text: str) -> list[int | float]:
    bits = [bit for bit in _APART.split(text) if bit]
    if len(bits) != _PAIR:
        raise TypedWronglyError(f'"{text}" is not two numbers; write them like 300; 360.')
    return [_number(bit) for bit in bits]


def _shares(text: str) -> list[int | float]:
    """Return any count of numbers, one for each thing that shares."""
    bits = [bit for bit in _APART.split(text) if bit]
    if not bits:
        raise TypedWronglyError(f'"{text}" is no list of numbers; write them like 20; 80.')
    return [_number(bit) for bit in bits]


def _flag(text: str) -> bool:
    return text == "true"


def _names(text: str) -> list[str]:
    bits = (bit.strip() for bit in re.split(r"[,\n]", text))
    return list(dict.fromkeys(bit for bit in bits if bit))


def _sentences(text: str) -> list[str]:
    return [line.strip() for line in text.splitlines() if line.strip()]


def _times(text: str) -> dict[str, int | float]:
    found: dict[str, int | float] = {}
    for line in _sentences(text):
        kind, equals, factor = line.partition("=")
        if not equals:
            raise TypedWronglyError(f'"{line}" is not a kind of step and a factor: cut = 1.5')
        found[kind.strip().strip('"')] = _number(factor)
    return found


_READ: Mapping[Kind, Callable[[str], Any]] = MappingProxyType(
    {
        Kind.LINE: str,
        Kind.LINES: str,
        Kind.CHOICE: str,
        Kind.STEP: str,
        Kind.SENTENCES: _sentences,
        Kind.WHOLE: _whole,
        Kind.NUMBER: _number,
        Kind.NUMBERS: _numbers,
        Kind.SHARES: _shares,
        Kind.FLAG: _flag,
        Kind.NAMES: _names,
        Kind.STEPS: _names,
        Kind.TIMES: _times,
    }
)


def _thickness_typed(values: Values) -> str:
    name = next((name for name in THICKNESS_KEYS if name in values), "")
    value = values.get(name)
    if name == "sold" or value is None:
        return str(value or "")
    ends = value if isinstance(value, list) else [value]
    return f"{'–'.join(map(_plain, ends))} {'oz' if name == 'weight_oz' else 'mm'}"


def _thickness_changes(text: str, values: Values) -> tuple[Change, ...]:
    """Return the keys that say how thick it is: what is sold in words stays in words."""
    found = sold_words(text)
    if found is None:
        either = two_readings(text)
        raise TypedWronglyError(
            f"Write {either}."
            if either
            else f'"{text}" is not a thickness; write one like 9 oz, 3.2 mm or 8–9 oz.'
        )
    ends = [_number(end) for end in found.ends]
    value: Any = ends if len(ends) == _PAIR else ends[0]
    name = "weight_oz" if found.unit == "oz" else "thickness_mm"
    if "sold" in values:
        return (("sold", text),)
    gone = tuple((other, None) for other in THICKNESS_KEYS if other != name and other in values)
    return (*gone, (name, _as_it_was(value, values.get(name))))
