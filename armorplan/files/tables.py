"""TOML tables under reading: every fault is told with its line and dotted key.

``values`` and ``references`` take typed values out of a table. On a fault they tell it and return
a stand-in, so that the reading goes on and every fault comes out at once; whoever builds from the
values first asks whether errors were told.
"""

import re
import tomllib
from collections.abc import Mapping
from functools import cached_property, lru_cache
from typing import Any, Self

from armorplan.files.faults import Faults, brief
from armorplan.files.toml_lines import KeyPath, key_lines
from armorplan.kernel.findings import Place

_WHERE = re.compile(r"\(at line (\d+), column \d+\)|\(at end of document\)")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_TWICE = re.compile(r"Cannot declare (\(.*\)) twice")
_QUOTED = re.compile(r"""\"[^"\n]*+\"|'[^'\n]*+'""")
_LONG_KEY = re.compile(r"(?<![\w-])[\w-]++(?:[ \t]*+\.[ \t]*+[\w-]++){32}")
"""tomllib's work grows with the square of the parts of a dotted key; ours have three."""
_KEPT = 40
"""Of so many texts what they hold is kept: an edit of a drawing reads the tables again as they were."""
_ID = re.compile(r"\w[\w-]*")


class TomlText:
    """One TOML file under reading: its name, the lines of its keys, and where faults go.

    ``strict`` makes an unknown key an error, for readers that cannot pass a warning on.
    """

    def __init__(self, name: str, text: str, *, faults: Faults, strict: bool) -> None:
        self.name = name
        self.faults = faults
        self.strict = strict
        self._text = text

    def telling(self, faults: Faults) -> Self:
        """Return the same file, its faults told elsewhere."""
        return type(self)(self.name, self._text, faults=faults, strict=self.strict)

    @cached_property
    def _lines(self) -> Mapping[KeyPath, int]:
        return key_lines(self._text)

    def place(self, path: KeyPath) -> Place:
        """Return the place of a key, or of the nearest table above it that has a line."""
        above = (path[:count] for count in range(len(path), 0, -1))
        line = next((self._lines[keys] for keys in above if keys in self._lines), None)
        return Place(file=self.name, line=line, key=dotted(path) or None)


def dotted(path: KeyPath) -> str:
    """Write a key path as TOML writes it, with quotes where a key needs them."""
    return ".".join(k if _BARE_KEY.fullmatch(k) else f'"{brief(k)}"' for k in path)


def said(value: object) -> str:
    """Describe a TOML value in the words of a maker."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f'the text "{brief(value)}"'
    if isinstance(value, int | float):
        return "a number too long to show" if _is_huge(value) else f"the number {value}"
    if isinstance(value, list):
        return "a list"
    return "a table" if isinstance(value, dict) else "a date or time"


def _is_huge(value: float) -> bool:
    """Tell whether writing a whole number out would be refused or fill the message."""
    return isinstance(value, int) and value.bit_length() > 128  # noqa: PLR2004 - 39 digits


class Table:
    """One table of a TOML file; keys that nothing asked for are told by ``finish``."""

    def __init__(self, values: dict[str, object], *, path: KeyPath, toml: TomlText) -> None:
        self._values = values
        self._path = path
        self._toml = toml
        self._asked: set[str] = set()

    @property
    def faults(self) -> Faults:
        """Where this table's faults go."""
        return self._toml.faults

    def name_of(self, key: str) -> str:
        """Return the dotted name of one of its keys."""
        return dotted((*self._path, key))

    def place(self, key: str | None = None) -> Place:
        """Return the place of the table itself or of one of its keys."""
        return self._toml.place(self._path if key is None else (*self._path, key))

    def written(self) -> tuple[str, ...]:
        """Return the keys in the order they are written."""
        return tuple(self._values)

    def has(self, key: str) -> bool:
        """Tell whether the key is written."""
        return key in self._values

    @property
    def values(self) -> Mapping[str, object]:
        """Return what is written in it, unread."""
        return self._values

    def filled(self, values: Mapping[str, object]) -> Self:
        """Return this table with the keys it lacks taken from elsewhere; places stay its own."""
        return type(self)({**values, **self._values}, path=self._path, toml=self._toml)

    def raw(self, key: str) -> object:
        """Return a value as TOML gave it, or ``None``; the key counts as known from now on."""
        self._asked.add(key)
        return self._values.get(key)

    def fault(
        self, key: str | None, code: str, text: str, *, mend: str, about: tuple[str, ...] = ()
    ) -> None:
        """Tell an error at a key of this table, or at the table itself."""
        self.faults.error(code, text, mend=mend, place=self.place(key), about=about)

    def wrong(self, key: str, value: object, *, wanted: str) -> None:
        """Tell that a value is not what it has to be."""
        text = f"{self.name_of(key)} is {said(value)}."
        self.fault(key, "wrong-value", text, mend=f"Write {wanted}.")

    def idle(self, key: str, *, because: str) -> None:
        """Warn that a key is written where it says nothing."""
        if self.has(key):
            self.faults.warning(
                "says-nothing",
                f"{self.name_of(key)} says nothing here: {because}.",
                mend="Take it out.",
                place=self.place(key),
            )

    def missing(self, key: str, *, wanted: str) -> None:
        """Tell that a required key is not written."""
        where = f"[{dotted(self._path)}]" if self._path else self._toml.name
        self.fault(None, "missing-key", f'{where} lacks "{key}".', mend=f"Add {key} = {wanted}.")

    def table(self, key: str) -> Self:
        """Return a table inside this one; an empty one where it is not written."""
        value = self.raw(key)
        if value is not None and not isinstance(value, dict):
            self.wrong(key, value, wanted=f"a table, [{self.name_of(key)}]")
        inner = value if isinstance(value, dict) else {}
        return type(self)(inner, path=(*self._path, key), toml=self._toml)

    def rows(self) -> tuple[tuple[str, Self], ...]:
        """Return the tables in this one by their ids, in the order they are written."""
        rows: list[tuple[str, Self]] = []
        for key in self._values:
            row = self.table(key)
            if isinstance(self._values[key], dict):
                row.check_id(key)
                rows.append((key, row))
        return tuple(rows)

    def list_rows(self, key: str) -> tuple[Self, ...]:
        """Return a list of tables, in order; an empty one where it is not written."""
        value = self.raw(key)
        entries = value if isinstance(value, list) else []
        if value is not None and not (
            isinstance(value, list) and all(isinstance(entry, dict) for entry in entries)
        ):
            self.wrong(key, value, wanted="a list of tables, [{…}, {…}]")
        return tuple(
            type(self)(entry, path=(*self._path, key, str(row)), toml=self._toml)
            for row, entry in enumerate(entries)
            if isinstance(entry, dict)
        )

    def check_id(self, name: str) -> None:
        """Tell an id that step ids and the mirrored ids of a pair could not be made from."""
        if not _ID.fullmatch(name):
            self.fault(
                None,
                "bad-id",
                f'"{brief(name)}" cannot be an id.',
                mend="Use letters, digits, _ and - only, without blanks or dots.",
            )

    def misnamed(self) -> dict[str, str]:
        """Return the tables that nothing asked for, by name, each with the one that is meant."""
        strays = [key for key in self.unasked() if isinstance(self._values[key], dict)]
        near = {key: self.faults.nearest(key, self._asked) for key in strays}
        return {key: meant for key, meant in near.items() if meant}

    def with_names(self, meant: Mapping[str, str], faults: Faults) -> Self:
        """Return this table as if its misnamed tables had the names that are meant."""
        values = {key: value for key, value in self._values.items() if key not in meant}
        for key, name in meant.items():
            found, there = self._values[key], values.get(name, {})
            if isinstance(found, dict) and isinstance(there, dict):
                values[name] = {**found, **there}
        return type(self)(values, path=self._path, toml=self._toml.telling(faults))

    def unasked(self) -> tuple[str, ...]:
        """Return the keys that nothing asked for, in the order they are written."""
        return tuple(key for key in self._values if key not in self._asked)

    def finish(self) -> None:
        """Tell the keys that nothing asked for, each with the known name most like it."""
        tell = self.faults.error if self._toml.strict else self.faults.warning
        for key in self.unasked():
            near = self.faults.nearest(key, self._asked)
            tell(
                "unknown-key",
                f"Nothing reads {self.name_of(key)}.",
                mend=f'Perhaps "{near}" is meant.' if near else "Take it out.",
                place=self.place(key),
            )


def open_toml(name: str, text: str, faults: Faults, *, strict: bool = False) -> Table | None:
    """Read a TOML text as a table; ``None`` after a syntax error, which is told with its line."""
    plain = text.removeprefix("\ufeff")
    try:
        values = loaded(plain)
    except (ValueError, RecursionError) as error:
        # ValueError, not only its TOML kind: numbers of thousands of digits raise it as it is.
        _tell_syntax(name, error, plain, faults)
        return None
    toml = TomlText(name, plain, faults=faults, strict=strict)
    return Table(values, path=(), toml=toml)


@lru_cache(maxsize=_KEPT)
def loaded(text: str) -> dict[str, Any]:
    """Return what a text holds; it is shared, and nothing that reads it changes it.

    Raises:
        ValueError: it is not valid TOML.
        RecursionError: its lists or tables lie in each other too deep.
    """
    _check_keys(text)
    return tomllib.loads(text)


def _check_keys(text: str) -> None:
    without_texts = _QUOTED.sub("q", text)
    found = _LONG_KEY.search(without_texts)
    if found:
        line = without_texts.count("\n", 0, found.start()) + 1
        raise ValueError(f"A key of more than 32 parts (at line {line}, column 1)")


def _tell_syntax(name: str, error: Exception, text: str, faults: Faults) -> None:
    words = str(error)
    if isinstance(error, RecursionError):
        words = "lists or tables lie in each other too deep"
    found = _WHERE.search(words)
    twice = _TWICE.search(words)
    if twice:
        path = tuple(re.findall(r"'([^']*)'", twice[1]))
        words = f"the table [{dotted(path)}] is written twice"
    line = int(found.group(1) or text.count("\n") + 1) if found else None
    faults.error(
        "toml-syntax",
        f"{name} is not valid TOML: {brief(_WHERE.sub('', words).strip())}.",
        mend="Give one of the two another id, or put their keys together; nothing was read."
        if twice
        else "Mend this line; nothing in the file could be read.",
        place=Place(file=name, line=line),
    )
