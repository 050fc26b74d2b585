"""The folders that hold the format for ever, and a pattern as plain data to compare with."""

from dataclasses import fields, is_dataclass
from enum import Enum
from pathlib import Path

GOLDEN = Path(__file__).resolve().parents[1] / "golden_patterns" / "form_1"
NAMES = ("every_word", "first_words")
_NOT_KEPT = {"content_hash"}


def plain(value):
    """Return a frozen value as JSON has it, numbers to a millionth; look-ups left out."""
    if is_dataclass(value):
        kept = [f.name for f in fields(value) if f.init and f.name not in _NOT_KEPT]
        return {name: plain(getattr(value, name)) for name in kept}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, tuple):
        return [plain(entry) for entry in value]
    return round(value, 6) if isinstance(value, float) else value


def holds(frozen, read, at="pattern"):
    """Yield where what was frozen is not what is read; fields that came later are let be."""
    if isinstance(frozen, dict) and isinstance(read, dict):
        for key, value in frozen.items():
            yield from holds(value, read.get(key, "not there"), f"{at}.{key}")
    elif isinstance(frozen, list) and isinstance(read, list) and len(frozen) == len(read):
        for number, (one, other) in enumerate(zip(frozen, read, strict=True)):
            yield from holds(one, other, f"{at}[{number}]")
    elif frozen != read:
        yield f"{at}: {frozen!r} was read, now {read!r}"
