"""Writes numbers, attributes and names into the tags of a drawing; all else of a tag stays."""

import re
from collections.abc import Mapping
from math import ceil, isclose, log10
from xml.sax.saxutils import quoteattr

from fontTools.misc.transform import Identity, Transform

KEPT_MM = 0.001
"""Numbers are written to so much, or finer."""
LOOKS = ("class", "style", "fill", "stroke", "stroke-width", "opacity")
"""Attributes that a new shape takes over from the one it is to look like."""
TAG = re.compile(rb"""<(?:[^"'>]|"[^"]*"|'[^']*')*>""")
"""A whole start tag, whatever its attributes hold."""
_NOTHING = 1e-6
_ATTRIBUTE = re.compile(rb"""\s+([^\s=/>]+)\s*=\s*("[^"]*"|'[^']*')""")
_NAME = re.compile(rb"<([^\s/>]+)")
Edit = tuple[int, int, bytes]
"""A stretch of bytes, and what takes its place."""


def number_words(value: float, unit_mm: float, former: str | None = None) -> str:
    """Write a number as finely as ``KEPT_MM`` asks; one that is the same stays as it is written."""
    places = max(0, ceil(log10(unit_mm / KEPT_MM)))
    words = f"{value:.{places}f}"
    words = words.rstrip("0").rstrip(".") if "." in words else words
    if former is not None:
        try:
            is_same = abs(float(former) - value) < 10**-places / 2
        except ValueError:
            is_same = False
        if is_same:
            return former
    return "0" if words == "-0" else words


def transform_words(moved: Transform) -> str | None:
    """Write a transform without the dust of reckoning; ``None`` for one that moves nothing."""
    if all(isclose(a, b, abs_tol=_NOTHING) for a, b in zip(moved, Identity, strict=True)):
        return None
    return f"matrix({' '.join(f'{round(value, 9) + 0.0:.10g}' for value in moved)})"


def prefix_of(tag: bytes) -> str:
    """Return the prefix of a start tag's name with its colon, or an empty text."""
    named = _NAME.match(tag)
    space, colon, _ = named[1].decode().rpartition(":") if named else ("", "", "")
    return f"{space}{colon}"


def attribute_names(tag: bytes) -> tuple[str, ...]:
    """Return the names of a start tag's attributes, prefixes and all."""
    return tuple(match[1].decode() for match in _ATTRIBUTE.finditer(tag))


def space_of(tag: bytes) -> dict[str, str]:
    """Return the attribute by which a start tag declares the language of its own name, if it does."""
    prefix = prefix_of(tag).rstrip(":")
    key = f"xmlns:{prefix}" if prefix else "xmlns"
    told = {match[1].decode(): match[2].decode()[1:-1] for match in _ATTRIBUTE.finditer(tag)}
    return {key: told[key]} if key in told else {}


def with_attributes(tag: bytes, changed: Mapping[str, str | None]) -> bytes:
    """Return a start tag with attributes set, or taken out; ``href`` by whatever prefix it has."""
    edits: list[Edit] = []
    left = dict(changed)
    named = _NAME.match(tag)
    last = named.end() if named else len(tag)
    for match in _ATTRIBUTE.finditer(tag):
        last = match.end()
        name = match[1].decode()
        key = "href" if name.endswith(":href") else name
        if key not in left:
            continue
        value = left.pop(key)
        edits.append((*match.span(), b"") if value is None else _valued(match, value))
    new = "".join(f" {key}={quoteattr(v)}" for key, v in left.items() if v is not None)
    return spliced(tag, [*edits, (last, last, new.encode())])


def _valued(match: re.Match[bytes], value: str) -> Edit:
    quote = match[2][:1].decode()
    inner = quoteattr(value)[1:-1].replace(quote, "&quot;" if quote == '"' else "&apos;")
    return (*match.span(2), f"{quote}{inner}{quote}".encode())


def named_tag(tag: bytes, name: str) -> bytes:
    """Return a start or end tag under another name, its prefix kept."""
    return re.sub(rb"^(</?(?:[^\s/>:]+:)?)[^\s/>]+", rb"\g<1>" + name.encode(), tag)


def spliced(data: bytes, edits: list[Edit]) -> bytes:
    """Return the bytes with all edits made, in the order of their places."""
    pieces: list[bytes] = []
    done = 0
    for start, end, words in sorted(edits, key=lambda edit: edit[:2]):
        pieces += (data[done:start], words)
        done = max(done, end)
    return b"".join((*pieces, data[done:]))
