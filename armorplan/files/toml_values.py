"""Writes values as TOML, as near as can be to how the value they replace was written."""

import tomllib
from collections.abc import Mapping, Sequence
from difflib import SequenceMatcher
from typing import NamedTuple

import tomlkit

from armorplan.files.toml_lines import text_spans

TomlValue = str | int | float | bool | Sequence["TomlValue"] | Mapping[str, "TomlValue"]
_PROBE = "v = "


def key_text(keys: Sequence[str]) -> str:
    """Write a dotted key, with quotes where a key needs them."""
    return ".".join(tomlkit.key(key).as_string() for key in keys)


def value_text(value: TomlValue, *, former: str = "", eol: str = "\n") -> str:
    """Write a value.

    Args:
        value: a text, number, flag, list, or table (written inline).
        former: how the value it replaces is written: quotes, and the lines and comments of a
            list, are kept where they can be.
        eol: the line end of the file.

    Raises:
        ValueError: the value cannot be written as TOML.
    """
    if isinstance(value, str):
        return _string(value, former, eol)
    if isinstance(value, Mapping):
        inner = ", ".join(f"{key_text([k])} = {value_text(v, eol=eol)}" for k, v in value.items())
        return f"{{ {inner} }}" if inner else "{}"
    if isinstance(value, Sequence):
        kept = _kept_lines(value, former, eol) if "\n" in former else None
        return kept or f"[{', '.join(value_text(entry, eol=eol) for entry in value)}]"
    return str(tomlkit.item(value).as_string())


def _string(value: str, former: str, eol: str) -> str:
    is_plain = value.isprintable()
    if former.startswith("'") and not former.startswith("'''") and is_plain and "'" not in value:
        return f"'{value}'"
    if "\n" in value or former.startswith(('"""', "'''")):
        # A line end inside the quotes reads as \n whatever the file's line ends are; \r is escaped.
        lines = (_escaped(line) for line in value.split("\n"))
        return f'"""{eol}{eol.join(lines)}"""'
    return f'"{_escaped(value)}"'


def _escaped(line: str) -> str:
    return str(tomlkit.string(line).as_string())[1:-1]


class _Entry(NamedTuple):
    """An entry of a list: what stands before it, the entry, and what follows its comma."""

    lead: str
    text: str
    rest: str


def _kept_lines(value: Sequence[TomlValue], former: str, eol: str) -> str | None:
    """Write a list over several lines, keeping the lines of the entries that stay.

    ``None`` where the former list is written in a way that this cannot keep.
    """
    parsed = tomllib.loads(_PROBE + former)["v"]
    if not isinstance(parsed, list) or not parsed or not value:
        return None
    split = _split(former)
    if split is None:
        return None
    opening, entries, has_last_comma, closing = split
    new = _merged(entries, parsed, list(value), eol=eol)
    texts = [
        f"{e.lead}{e.text}{',' if at + 1 < len(new) or has_last_comma else ''}{e.rest}"
        for at, e in enumerate(new)
    ]
    made = opening + "".join(texts) + closing
    try:
        return made if tomllib.loads(_PROBE + made)["v"] == list(value) else None
    except tomllib.TOMLDecodeError:
        return None


def _split(former: str) -> tuple[str, list[_Entry], bool, str] | None:
    """Return opening, entries, whether a comma follows the last one, and closing."""
    shift = len(_PROBE)
    spans = [s for s in text_spans(_PROBE + former).pairs if s.within == shift]
    starts = [s.start - shift for s in spans]
    at = first = _line_end(former, 1, starts[0])
    entries: list[_Entry] = []
    has_comma = False
    for number, span in enumerate(spans):
        start, end = span.start - shift, span.end - shift
        bound = starts[number + 1] if number + 1 < len(spans) else len(former) - 1
        gap = former[end:bound]
        has_comma = gap.lstrip(" \t").startswith(",")
        if not has_comma and "," in gap.partition("#")[0]:
            return None
        after = end + gap.index(",") + 1 if has_comma else end
        stop = _line_end(former, after, bound)
        entries.append(_Entry(former[at:start], former[start:end], former[after:stop]))
        at = stop
    return former[:first], entries, has_comma, former[at:]


def _line_end(text: str, at: int, bound: int) -> int:
    """Return the start of the next line, where that comes before the bound; else ``at``."""
    found = text.find("\n", at, bound)
    return found + 1 if found >= 0 else at


def _merged(
    entries: list[_Entry], old: list[TomlValue], new: list[TomlValue], *, eol: str
) -> list[_Entry]:
    indent = entries[0].lead.rpartition("\n")[2]
    indent = indent if not indent.strip() else ""
    merged: list[_Entry] = []
    keys = [repr(v) for v in old], [repr(v) for v in new]
    for _, i1, i2, j1, j2 in SequenceMatcher(None, *keys, autojunk=False).get_opcodes():
        if keys[0][i1:i2] == keys[1][j1:j2]:
            merged += entries[i1:i2]
            continue
        for value in new[j1:j2]:
            on_own_line = not merged or "\n" in merged[-1].rest
            lead, rest = (indent, eol) if on_own_line else (" ", "")
            merged.append(_Entry(lead, value_text(value, eol=eol), rest))
    return merged
