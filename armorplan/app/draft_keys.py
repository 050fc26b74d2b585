"""What of a pattern can be edited as a text, number, flag or choice: read from a shipped table."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum, unique
from functools import cache
from types import MappingProxyType
from typing import Any

from armorplan.kernel.shipped import resources_folder


@unique
class Kind(StrEnum):
    """How a value is written by hand."""

    LINE = "line"
    LINES = "lines"
    SENTENCES = "sentences"
    WHOLE = "whole"
    NUMBER = "number"
    NUMBERS = "numbers"
    SHARES = "shares"
    THICKNESS = "thickness"
    FLAG = "flag"
    CHOICE = "choice"
    NAMES = "names"
    STEP = "step"
    STEPS = "steps"
    TIMES = "times"


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """One key of a table.

    Attributes:
        of: where its words come from: names in the pattern ('part', 'joint' …), or things on the
            shelf ('leather', 'fastener' …); empty where ``words`` lists them.
        words: what it may hold, each with what that means.
        usual: what holds where it is not written, as it is typed.
        needed: it cannot be left out.
        fixed: it is shown, and changed in the file only.
        only_written: it is shown where it is written.
        names_it: no key of the entry but its id, which is chosen where the entry is added.
    """

    name: str
    kind: Kind
    label: str
    unit: str = ""
    help: str = ""
    of: str = ""
    words: tuple[tuple[str, str], ...] = ()
    usual: str = ""
    needed: bool = False
    fixed: bool = False
    only_written: bool = False
    names_it: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class TableKeys:
    """A table of the pattern: its heading, and what its entries hold.

    Attributes:
        one: what one entry is called.
        called: the key that an entry is called by; empty: by its id.
        grows: entries can be added and taken out in the window.
        within: the table whose entries hold these ones.
    """

    title: str
    one: str
    keys: tuple[Key, ...]
    called: str = "name"
    grows: bool = False
    help: str = ""
    within: str = ""

    def key(self, name: str) -> Key:
        """Return a key by its name; KeyError where there is none."""
        return next(key for key in self.keys if key.name == name)


@cache
def editable_tables() -> Mapping[str, TableKeys]:
    """Return the tables by their names, in the order they are shown."""
    text = (resources_folder() / "editing.toml").read_text(encoding="utf-8")
    return MappingProxyType({name: _table(told) for name, told in tomllib.loads(text).items()})


def _table(told: dict[str, Any]) -> TableKeys:
    keys = tuple(_key(name, values) for name, values in told.pop("keys").items())
    return TableKeys(keys=keys, **told)


def _key(name: str, told: dict[str, Any]) -> Key:
    words = told.pop("words", {})
    pairs = words.items() if isinstance(words, dict) else ((word, word) for word in words)
    kind = Kind(told.pop("kind"))
    return Key(name=name, kind=kind, words=tuple(pairs), **told)
