"""A pattern's files as an order wants them: other choices, other colours, dipped or wiped.

The order is written into ``pattern.toml``, so that a build keeps it in its snapshot like anything
else, and builds alike have files alike.
"""

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from armorplan.files.faults import Faults, brief, listed
from armorplan.files.source import PATTERN_FILE, PatternFiles
from armorplan.files.toml_lines import KeyPath
from armorplan.files.toml_patch import patched
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Place
from armorplan.pattern.joining import Applying
from armorplan.workshop.orders import Order

_Change = tuple[KeyPath, str]
_NOWHERE = Place(file="")


def as_ordered(source: PatternFiles, order: Order, place: Place = _NOWHERE) -> PatternFiles:
    """Return a pattern's files with the choices and colours of an order.

    Args:
        source: the pattern's files.
        order: what is wanted otherwise.
        place: where the order is written, for faults.

    Raises:
        UnreadableError: the pattern has no such option, choice, colour or treatment.
    """
    files = dict(source.files)
    if order.is_as_written or PATTERN_FILE not in files:
        return source
    text = files[PATTERN_FILE].decode("utf-8")
    try:
        told = tomllib.loads(text.removeprefix("\ufeff"))
    except ValueError:
        return source  # Reading the pattern tells it, with its line.
    faults = Faults()
    asking = _Asking(order, told, faults, place)
    for path, value in (*asking.choices(), *asking.colours(), *asking.dips()):
        text = patched(text, path, value)
    if faults.findings:
        raise UnreadableError(faults.findings)
    files[PATTERN_FILE] = text.encode("utf-8")
    return replace(source, files=tuple(sorted(files.items())))


class _Asking:
    """Tells which keys of a pattern an order changes, and what it asks for in vain."""

    def __init__(
        self, order: Order, told: Mapping[str, Any], faults: Faults, place: Place
    ) -> None:
        self._order = order
        self._options = _tables(told, "options")
        self._treatments = _tables(told, "treatments")
        self._faults = faults
        self._place = place

    def choices(self) -> Iterator[_Change]:
        """Yield the choice in force of each option decided."""
        for option, choice in self._order.chosen:
            found = self._options.get(option)
            if found is None:
                self._tell("option", option, self._options)
            elif choice not in (choices := _tables(found, "choices")):
                self._tell(f"choice of {option}", choice, choices)
            else:
                yield ("options", option, "chosen"), choice

    def colours(self) -> Iterator[_Change]:
        """Yield the colour of each treatment that is dyed otherwise."""
        colours = {row["colour"]: 0 for row in self._treatments.values() if "colour" in row}
        for colour, instead in self._order.dyed:
            if colour not in colours:
                self._tell("colour", colour, colours)
            for name, row in self._treatments.items():
                if row.get("colour") == colour:
                    yield ("treatments", name, "colour"), instead

    def dips(self) -> Iterator[_Change]:
        """Yield how each treatment is put on that is dipped."""
        for name in self._order.dipped:
            if name not in self._treatments:
                self._tell("treatment", name, self._treatments)
            else:
                yield ("treatments", name, "applying"), Applying.DIP.value

    def _tell(self, what: str, name: str, known: Mapping[str, Any]) -> None:
        self._faults.error(
            "unknown-id",
            f'The pattern of the build "{self._order.id}" has no {what} "{brief(name)}".',
            mend=f"It has: {listed(sorted(known))}." if known else "It has none at all.",
            place=self._place,
        )


def _tables(told: Mapping[str, Any], key: str) -> dict[str, Mapping[str, Any]]:
    found = told.get(key)
    rows = found.items() if isinstance(found, dict) else ()
    return {name: row for name, row in rows if isinstance(row, dict)}
