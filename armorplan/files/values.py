"""Takes typed, bounded values out of TOML tables.

Each function tells a fault through the table and then returns a stand-in (see ``tables``).
"""

from collections.abc import Sequence
from enum import StrEnum
from itertools import pairwise
from math import isfinite
from typing import NamedTuple, TypeVar

from armorplan.files.tables import Table

_E = TypeVar("_E", bound=StrEnum)


class Bounds(NamedTuple):
    """What a number may be, and what it counts; ``above`` itself is not allowed."""

    least: float | None = None
    most: float | None = None
    above: float | None = None
    unit: str = ""

    def hold(self, value: float) -> bool:
        """Tell whether the value is within the bounds."""
        return (
            (self.least is None or value >= self.least)
            and (self.most is None or value <= self.most)
            and (self.above is None or value > self.above)
        )

    @property
    def ends(self) -> str:
        """Both ends with the unit, as they follow 'from': ``0 to 100 %``."""
        both = " to ".join(_plain(end) for end in (self.least, self.most) if end is not None)
        return f"{both} {self.unit}".rstrip()

    def __str__(self) -> str:
        """Say the bounds as they follow 'a number'."""
        words = (("above", self.above), ("of at least", self.least), ("at most", self.most))
        said = " and ".join(
            f"{word} {_plain(value)}" for word, value in words if value is not None
        )
        return f"{said} {self.unit}".rstrip()


def _plain(value: float) -> str:
    return f"{value:,.10g}"


ANY = Bounds()
_ENDS = 2


def maybe_text(table: Table, key: str) -> str | None:
    """Return a text, or ``None`` where the key is not written."""
    value = table.raw(key)
    if value is None or isinstance(value, str):
        return value
    table.wrong(key, value, wanted="a text in quotes")
    return None


def text(table: Table, key: str, *, default: str | None = None) -> str:
    """Return a text that is not empty; required unless there is a default."""
    if not table.has(key) and default is None:
        table.missing(key, wanted='"…"')
    value = maybe_text(table, key)
    if value is not None and not value.strip():
        table.wrong(key, value, wanted="a text that is not empty")
    return value or default or ""


def maybe_number(table: Table, key: str, bounds: Bounds = ANY) -> float | None:
    """Return a finite number within bounds, or ``None`` where the key is not written."""
    value = table.raw(key)
    if value is None:
        return None
    number = _finite(value)
    if number is not None and bounds.hold(number):
        return number
    table.wrong(key, value, wanted=f"a number {bounds}".strip())
    return None


def number(table: Table, key: str, bounds: Bounds = ANY, *, default: float | None = None) -> float:
    """Return a finite number within bounds; required unless there is a default."""
    if not table.has(key) and default is None:
        table.missing(key, wanted="…, a number")
    value = maybe_number(table, key, bounds)
    return (default or 0.0) if value is None else value


def maybe_range(table: Table, key: str, bounds: Bounds = ANY) -> tuple[float, float] | None:
    """Return a number, or [least, most], as its two ends; ``None`` where it is not written."""
    value = table.raw(key)
    if value is None:
        return None
    entries = value if isinstance(value, list) else [value]
    ends = [n for n in map(_finite, entries) if n is not None and bounds.hold(n)]
    if ends and len(ends) == len(entries) <= _ENDS:
        if ends == sorted(ends):
            return ends[0], ends[-1]
        tell_falling(table, key, ends)
        return None
    table.wrong(key, value, wanted=f"a number {bounds}, or two as [least, most]")
    return None


def point(table: Table, key: str, bounds: Bounds = ANY) -> tuple[float, float] | None:
    """Return a required pair of numbers within bounds, x and y; ``None`` after a fault."""
    if not table.has(key):
        table.missing(key, wanted="[x, y]")
        return None
    found = as_point(table.raw(key), bounds)
    if found is None:
        table.wrong(key, table.raw(key), wanted=f"two numbers, [x, y], each {bounds}")
    return found


def as_point(value: object, bounds: Bounds = ANY) -> tuple[float, float] | None:
    """Return a list of two numbers within bounds as a point, or ``None`` for anything else."""
    entries = value if isinstance(value, list) else []
    found = [n for n in map(_finite, entries) if n is not None and bounds.hold(n)]
    return (found[0], found[1]) if len(found) == len(entries) == _ENDS else None


def maybe_whole(table: Table, key: str, *, least: int, most: int) -> int | None:
    """Return a whole number of ``least`` to ``most``, or ``None`` where the key is not written."""
    return whole(table, key, least=least, most=most, default=most) if table.has(key) else None


def whole(table: Table, key: str, *, least: int, most: int, default: int | None = None) -> int:
    """Return a whole number of ``least`` to ``most``; required unless there is a default."""
    value = table.raw(key)
    if value is None and default is None:
        table.missing(key, wanted=str(least))
    elif value is not None:
        if isinstance(value, int) and not isinstance(value, bool) and least <= value <= most:
            return value
        table.wrong(key, value, wanted=f"a whole number from {least} to {most:,}")
    return least if default is None else default


def flag(table: Table, key: str, *, default: bool) -> bool:
    """Return true or false."""
    value = table.raw(key)
    if isinstance(value, bool):
        return value
    if value is not None:
        table.wrong(key, value, wanted="true or false, without quotes")
    return default


def choice(table: Table, key: str, kinds: type[_E]) -> _E | None:
    """Return one of a fixed set of words, required; ``None`` after a fault."""
    if not table.has(key):
        table.missing(key, wanted=_one_of(kinds))
    return maybe_choice(table, key, kinds)


def maybe_choice(table: Table, key: str, kinds: type[_E]) -> _E | None:
    """Return one of a fixed set of words; ``None`` after a fault or where it is not written."""
    words = [kind.value for kind in kinds]
    value = maybe_text(table, key)
    if value is None:
        return None
    if value in words:
        return kinds(value)
    table.wrong(key, value, wanted=_one_of(kinds))
    return None


def _one_of(kinds: type[StrEnum]) -> str:
    return "one of " + ", ".join(f'"{kind.value}"' for kind in kinds)


def texts(table: Table, key: str, *, required: bool = False) -> tuple[str, ...]:
    """Return a list of texts; where required, of at least one."""
    if required and not table.has(key):
        table.missing(key, wanted='["…"]')
    value = table.raw(key)
    if value is None:
        return ()
    if not isinstance(value, list) or not all(isinstance(entry, str) for entry in value):
        table.wrong(key, value, wanted='a list of texts, ["…", "…"]')
        return ()
    if required and not value:
        fault = f"{table.name_of(key)} is an empty list."
        table.fault(key, "empty-list", fault, mend="Name at least one.")
    return tuple(value)


def numbers(
    table: Table,
    key: str,
    bounds: Bounds = ANY,
    *,
    count: int | None = None,
    rising: bool = True,
) -> tuple[float, ...]:
    """Return a required list of numbers within bounds; ``count`` if given, the least first if rising."""
    order = ", the least first" if rising else ""
    kind = "number" if count == 1 else "numbers"
    wanted = f"a list of {'' if count is None else f'{count} '}{kind}{order}"
    if not table.has(key):
        table.missing(key, wanted=f"[…], {wanted}")
        return ()
    value = table.raw(key)
    entries = value if isinstance(value, list) else []
    found = [n for n in map(_finite, entries) if n is not None and bounds.hold(n)]
    if not found or len(found) != len(entries) or count not in {None, len(found)}:
        table.wrong(key, value, wanted=f"{wanted}, each {bounds}" if str(bounds) else wanted)
        return ()
    if rising and found != sorted(found):
        tell_falling(table, key, found)
        return ()
    return tuple(found)


def tell_falling(table: Table, key: str, found: Sequence[float]) -> None:
    """Tell which number stands before a smaller one."""
    first, then = next((a, b) for a, b in pairwise(found) if a > b)
    table.fault(
        key,
        "wrong-value",
        f"{table.name_of(key)}: {first:g} stands before {then:g}.",
        mend="Write the least first.",
    )


def _finite(value: object) -> float | None:
    """Return a finite float, or ``None`` for anything else."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    try:
        result = float(value)
    except OverflowError:
        return None
    return result if isfinite(result) else None
