"""One TOML text with the places in it, changed at its own places; ``toml_patch`` checks each result."""

from bisect import bisect_left
from collections.abc import Iterable, Mapping
from functools import cached_property
from typing import Any

from armorplan.files.toml_lines import HeaderSpan, KeyPath, PairSpan, Spans, text_spans
from armorplan.files.toml_values import TomlValue, key_text, value_text

Edit = tuple[int, int, str]
"""A stretch of the text, and what takes its place."""


def _starts(path: KeyPath, head: KeyPath) -> bool:
    return path[: len(head)] == head


class Spliced:
    """One text with the places in it; each method returns the text changed once."""

    def __init__(self, text: str, data: dict[str, Any]) -> None:
        self.text = text
        self._data = data
        self._spans: Spans = text_spans(text)
        self._eol = "\r\n" if "\r\n" in text else "\n"
        self._starts = [header.start for header in self._spans.headers]

    # --- changes ------------------------------------------------------------------------------

    def edited(self, edits: Iterable[Edit]) -> str:
        """Return the text with edits made that do not touch each other."""
        pieces: list[str] = []
        done = 0
        for start, end, words in sorted(edits, key=lambda edit: edit[:2]):
            pieces += (self.text[done:start], words)
            done = end
        return "".join((*pieces, self.text[done:]))

    def put(self, path: KeyPath, value: TomlValue) -> Edit:
        """Set a key, written as the value it replaces; one that is not there is inserted."""
        pair = self._pair(path)
        if pair is not None:
            former = self.text[pair.value : pair.end]
            return pair.value, pair.end, value_text(value, former=former, eol=self._eol)
        return self._insert(path, value)

    def add_table(self, path: KeyPath, values: Mapping[str, TomlValue]) -> Edit:
        """Add a table; ValueError where there is one."""
        if self._is_there(path):
            message = f"there is one already; its table is [{key_text(path)}]"
            raise ValueError(message)
        if self._is_open(path[:-1]):
            return self._block(path, values)
        return self._insert(path, values)

    def stands(self, table: KeyPath) -> bool:
        """Tell whether a table has a header of its own, or is written in one line."""
        return self._pair(table) is not None or any(h.path == table for h in self._spans.headers)

    def is_one(self, path: KeyPath) -> bool:
        """Tell whether what a path names stands in one place."""
        heads = sum(_starts(header.path, path) for header in self._spans.headers)
        return heads == 1 or (not heads and self._pair(path) is not None)

    def rename(self, path: KeyPath, name: str) -> str:
        """Give a table another name; ValueError where it is not there, or the name is taken."""
        if not self._is_there(path) or self._is_there((*path[:-1], name)):
            message = f"[{key_text((*path[:-1], name))}] cannot take its place"
            raise ValueError(message)
        text, at = self.text, len(path) - 1
        for header in reversed(self._spans.headers):
            if _starts(header.path, path):
                new = key_text((*header.path[:at], name, *header.path[at + 1 :]))
                text = f"{text[: header.start]}[{new}]{text[header.end :]}"
        if text == self.text:
            message = "it has no header of its own"
            raise ValueError(message)
        return text

    # --- inserting ----------------------------------------------------------------------------

    def _insert(self, path: KeyPath, value: TomlValue) -> Edit:
        """Insert a key that is not written yet where its table is; make that where it is not."""
        table, key = path[:-1], path[-1]
        inline = self._pair(table)
        if inline is not None:
            return self._insert_inline(inline, f"{key_text([key])} = {self._said(value)}")
        header = next((h for h in self._spans.headers if h.path == table), None)
        if header is not None or not table:
            return self._insert_line(
                self._last_of(header), f"{key_text([key])} = {self._said(value)}"
            )
        dotted = [p for p in self._lines() if _starts(p.path, table)]
        dotted = [p for p in dotted if len(self._path_above(p)) < len(table)]
        if dotted:
            written = key_text(path[len(self._path_above(dotted[-1])) :])
            return self._insert_line(dotted[-1], f"{written} = {self._said(value)}")
        if self._is_open(table[:-1]) or self._is_there(table):
            return self._block(table, {key: value})
        return self._insert(table, {key: value})

    def _said(self, value: TomlValue) -> str:
        return value_text(value, eol=self._eol)

    def _insert_inline(self, table: PairSpan, pair: str) -> Edit:
        members = [p for p in self._spans.pairs if p.within == table.value]
        if not members:
            return table.value, table.end, f"{{ {pair} }}"
        at = members[-1].end
        return at, at, f", {pair}"

    def _insert_line(self, above: PairSpan | HeaderSpan | None, line: str) -> Edit:
        """Insert a line below a value or header, indented as that is."""
        if above is None:
            return self._spliced(0, f"{line}{self._eol}")
        start = self.text.rfind("\n", 0, above.start) + 1
        indent = self.text[start : above.start]
        return self._spliced(self._below(above.end), f"{indent}{line}{self._eol}")

    def _block(self, path: KeyPath, values: Mapping[str, TomlValue]) -> Edit:
        """Insert a table with a header behind the last one of its group, or at the end."""
        group = [h for h in self._spans.headers if len(path) > 1 and _starts(h.path, path[:-1])]
        at = self._past_own_comment(self._block_end(group[-1])) if group else len(self.text)
        lines = [f"[{key_text(path)}]"]
        lines += [f"{key_text([k])} = {self._said(v)}" for k, v in values.items()]
        gap = self._eol if at and self._keeps_gaps and self.text[:at].strip() else ""
        return self._spliced(at, gap + self._eol.join(lines) + self._eol)

    def _spliced(self, at: int, lines: str) -> Edit:
        begun = at and not self.text.endswith("\n", 0, at)
        return at, at, f"{self._eol if begun else ''}{lines}"

    @cached_property
    def _keeps_gaps(self) -> bool:
        """Tell whether tables of this file are set apart by empty lines."""
        rest = self._spans.headers[1:]
        if not rest:
            return True
        above = (self.text[: self._with_comment(h.start)] for h in rest)
        return any(text.endswith(("\n\n", "\n\r\n")) for text in above)

    # --- cutting ------------------------------------------------------------------------------

    def cut(self, path: KeyPath) -> tuple[int, int] | None:
        """Return the first stretch that has to go for a path to be gone."""
        for header in self._spans.headers:
            if _starts(header.path, path):
                return self._block_stretch(header)
        pair = next((p for p in self._spans.pairs if _starts(p.path, path)), None)
        if pair is None:
            return None
        if pair.within < 0:
            return self.text.rfind("\n", 0, pair.start) + 1, self._below(pair.end)
        members = [p for p in self._spans.pairs if p.within == pair.within]
        at = members.index(pair)
        if at + 1 < len(members):
            return pair.start, members[at + 1].start
        return (members[at - 1].end if at else pair.start), pair.end

    def _block_stretch(self, header: HeaderSpan) -> tuple[int, int]:
        start = self._with_comment(header.start)
        end = self._below(self._block_end(header))
        before, after = self.text[:start], self.text[end:]
        if not before.strip() or before.endswith(("\n\n", "\n\r\n")):
            if after.startswith(("\n", "\r\n")):
                end = self._below(end)
            elif not after and before.strip():
                start -= len(self._eol)
        return start, end

    def _with_comment(self, at: int) -> int:
        """Return the start of the comment lines right above a line, or of the line itself."""
        start = self.text.rfind("\n", 0, at) + 1
        while start:
            above = self.text.rfind("\n", 0, start - 1) + 1
            if not self.text[above:start].lstrip(" \t").startswith("#"):
                break
            start = above
        return start

    # --- places -------------------------------------------------------------------------------

    def _pair(self, path: KeyPath) -> PairSpan | None:
        return next((p for p in self._spans.pairs if p.path == path), None)

    def _lines(self) -> list[PairSpan]:
        return [p for p in self._spans.pairs if p.within < 0]

    def _path_above(self, pair: PairSpan) -> KeyPath:
        """Return the path of the header that a line stands under."""
        at = bisect_left(self._starts, pair.start)
        return self._spans.headers[at - 1].path if at else ()

    def _last_of(self, header: HeaderSpan | None) -> PairSpan | HeaderSpan | None:
        """Return the last value under a header (``None``: above all headers), or the header."""
        begin = header.end if header else 0
        at = bisect_left(self._starts, begin)
        end = self._starts[at] if at < len(self._starts) else len(self.text)
        inside = [pair for pair in self._lines() if begin <= pair.start < end]
        return inside[-1] if inside else header

    def _block_end(self, header: HeaderSpan) -> int:
        return (self._last_of(header) or header).end

    def _below(self, at: int) -> int:
        """Return the start of the line below a place."""
        found = self.text.find("\n", at)
        return len(self.text) if found < 0 else found + 1

    def _past_own_comment(self, after: int) -> int:
        """Return the start of the line below, past comments that close a table's text."""
        at = start = self._below(after)
        while at < len(self.text) and self.text[at:].lstrip(" \t").startswith("#"):
            at = self._below(at)
        rest = self.text[at:]
        return at if not rest or rest.startswith(("\n", "\r\n")) else start

    def _is_there(self, path: KeyPath) -> bool:
        inner: Any = self._data
        for key in path:
            if not isinstance(inner, dict) or key not in inner:
                return False
            inner = inner[key]
        return True

    def _is_open(self, table: KeyPath) -> bool:
        """Tell whether tables with headers can stand below a table: it is not written in a line."""
        heads = [table[:depth] for depth in range(1, len(table) + 1)]
        return not any(
            _starts(pair.path, head) and len(self._path_above(pair)) < len(head)
            for pair in self._lines()
            for head in heads
        )
