"""Finds the line, and the stretch of text, of every key in a TOML text that is known to be valid.

The TOML readers at hand give values without lines (tomllib) or keep the text without telling
where (tomlkit); a maker mends a file by line. The walk below leans on the text's being valid: it
checks nothing, and only steps over what a value is made of.
"""

import re
import tomllib
from bisect import bisect_right
from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

KeyPath = tuple[str, ...]
"""Keys from the top down; a place in a list is its number as text."""


class HeaderSpan(NamedTuple):
    """A table's header ``[a.b]``: where it starts, and the end of its closing bracket."""

    path: KeyPath
    start: int
    end: int


class PairSpan(NamedTuple):
    """A key with its value, or an entry of a list, which has no key.

    ``start`` is where the key starts, ``value`` where its value does, ``end`` where that ends;
    ``within`` is where the inline table or list that holds it opens, -1 outside of these.
    """

    path: KeyPath
    start: int
    value: int
    end: int
    within: int


class Spans(NamedTuple):
    """Everything of a text that has a place in it, in the order of the text."""

    headers: tuple[HeaderSpan, ...]
    pairs: tuple[PairSpan, ...]


_BLANK = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*+")
_KEY = re.compile(r"""[ \t]*+(?:"((?:[^"\\]|\\.)*+)"|'([^']*+)'|([^\s.=\]"']++))[ \t]*+(\.?)""")
_STRINGS = (
    r'"""(?:\\.|(?!""").)*+"{3,5}',
    r"'''(?:(?!''').)*+'{3,5}",
    r'"(?:\\.|[^"\\])*+"',
    r"'[^']*+'",
)
_STRING = re.compile("|".join(_STRINGS), re.DOTALL)
_DEEPEST = 8
"""No file of ours nests deeper; below it lines are not kept, so that hostile nesting is cheap."""
_BARE = re.compile(r"[^,\]}\n#]*+")


class _Walk:
    def __init__(self, text: str) -> None:
        self._text = text
        self._at = 0
        self._breaks = [i for i, char in enumerate(text) if char == "\n"]
        self._rows: dict[KeyPath, int] = {}
        self._within = -1
        self.lines: dict[KeyPath, int] = {}
        self.headers: list[HeaderSpan] = []
        self.pairs: list[PairSpan] = []

    def whole(self) -> None:
        table: KeyPath = ()
        self._blank()
        while self._at < len(self._text):
            if self._text[self._at] == "[":
                table = self._header()
            else:
                self._pair(table)
            self._blank()

    def _header(self) -> KeyPath:
        start = self._at
        in_list = self._text.startswith("[[", start)
        self._at += 2 if in_list else 1
        path = self._inside_lists(self._key()[:_DEEPEST])
        if in_list:
            row = self._rows[path] = self._rows.get(path, -1) + 1
            self._note(path, start)
            path = (*path, str(row))
        for depth in range(1, len(path) + 1):
            self._note(path[:depth], start)
        self._at = self._text.index("]", self._at) + (2 if in_list else 1)
        self.headers.append(HeaderSpan(path, start, self._at))
        return path

    def _inside_lists(self, keys: KeyPath) -> KeyPath:
        """Point a header below ``[[a]]`` at the latest row of that list."""
        path: KeyPath = ()
        for key in keys[:-1]:
            path = (*path, key)
            if path in self._rows:
                path = (*path, str(self._rows[path]))
        return (*path, keys[-1])

    def _pair(self, table: KeyPath) -> None:
        start = self._at
        path = table
        for key in self._key()[: _DEEPEST - len(table)]:
            path = (*path, key)
            self._note(path, start)
        self._at = self._text.index("=", self._at) + 1
        self._blank()
        self._value(path, start)

    def _key(self) -> KeyPath:
        keys: list[str] = []
        more = True
        while more and (match := _KEY.match(self._text, self._at)):
            quoted, literal, bare, dot = match.groups()
            keys.append(_unescaped(quoted) if quoted is not None else (literal or bare or ""))
            self._at = match.end()
            more = bool(dot)
        return tuple(keys)

    def _value(self, path: KeyPath, key_at: int) -> None:
        begin = self._at
        opening = self._text[begin : begin + 1]
        if opening in {"[", "{"}:
            self._at += 1
            outer, self._within = self._within, begin
            self._members(path, opening)
            self._within = outer
            end = self._at
        else:
            match = _STRING.match(self._text, begin) or _BARE.match(self._text, begin)
            self._at = match.end() if match else len(self._text)
            end = begin + len(self._text[begin : self._at].rstrip(" \t\r"))
        self.pairs.append(PairSpan(path, key_at, begin, end, self._within))

    def _members(self, path: KeyPath, opening: str) -> None:
        row = 0
        self._blank()
        while self._at < len(self._text) and self._text[self._at] not in "]}":
            if opening == "[":
                member = (*path, str(row)) if len(path) < _DEEPEST else path
                self._note(member, self._at)
                self._value(member, self._at)
                row += 1
            else:
                self._pair(path)
            self._blank()
            if self._text.startswith(",", self._at):
                self._at += 1
                self._blank()
        self._at += 1

    def _blank(self) -> None:
        match = _BLANK.match(self._text, self._at)
        self._at = match.end() if match else self._at

    def _note(self, path: KeyPath, at: int) -> None:
        self.lines.setdefault(path, bisect_right(self._breaks, at - 1) + 1)


def _unescaped(quoted: str) -> str:
    if "\\" not in quoted:
        return quoted
    return str(tomllib.loads(f'key = "{quoted}"')["key"])


@lru_cache(maxsize=8)
def key_lines(text: str) -> Mapping[KeyPath, int]:
    """Return the line, counted from 1, at which each key, table and list entry stands.

    What was found of the last few texts is kept.

    Args:
        text: valid TOML; on anything else the answer is incomplete.
    """
    walk = _Walk(text)
    try:
        walk.whole()
    except (ValueError, RecursionError, IndexError):
        return walk.lines
    return walk.lines


def text_spans(text: str) -> Spans:
    """Return where each header, key and list entry stands.

    Args:
        text: valid TOML, nested no deeper than eight tables.
    """
    walk = _Walk(text)
    walk.whole()
    return Spans(tuple(walk.headers), tuple(sorted(walk.pairs, key=lambda pair: pair.start)))
