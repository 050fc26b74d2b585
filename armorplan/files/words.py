"""Takes words of a fixed list, and pairs of numbers, out of TOML tables."""

from collections.abc import Collection, Iterable

from armorplan.files.tables import Table
from armorplan.files.values import Bounds, numbers, text, texts


def word(row: Table, key: str, words: Collection[str]) -> str:
    """Return a required word of those there are; one that is none of them is told."""
    value = text(row, key)
    _check_word(row, key, value, words)
    return value


def maybe_word(row: Table, key: str, words: Collection[str]) -> str:
    """Return a word of those there are; empty where the key is not written."""
    return word(row, key, [known for known in words if known]) if row.has(key) else ""


def words_of(row: Table, key: str, words: Collection[str]) -> tuple[str, ...]:
    """Return a list of words, each of those there are; empty where the key is not written."""
    values = texts(row, key)
    for value in values:
        _check_word(row, key, value, words)
    return values


def some(words: Iterable[str]) -> str:
    """Return words in quotes, with commas between."""
    return ", ".join(f'"{each}"' for each in words)


def pair(row: Table, key: str, bounds: Bounds) -> tuple[float, float]:
    """Return two required numbers, the least first; zeros after a fault."""
    values = numbers(row, key, bounds, count=2) or (0.0, 0.0)
    return values[0], values[1]


def _check_word(row: Table, key: str, value: str, words: Collection[str]) -> None:
    if value and value not in words:
        row.wrong(key, value, wanted=f"one of {some(words)}")
