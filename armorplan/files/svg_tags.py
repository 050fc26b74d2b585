"""The start tags of a drawing's shapes where they stand in the text, so that a tag can be changed.

What is changed keeps its line. A text that is no sound SVG, or declares entities of its own, has
no tags here; ``read_drawing`` tells why.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from xml.parsers import expat

from armorplan.files.budget import MAX_ELEMENTS
from armorplan.files.shapes import SHAPE_TAGS
from armorplan.files.svg_tree import SVG_NAMESPACE
from armorplan.files.svg_write import TAG, Edit, spliced
from armorplan.files.transforms import plain_length

_KEPT_BACK = frozenset(
    {"defs", "symbol", "clipPath", "mask", "marker", "pattern", "linearGradient", "radialGradient"}
)
_DRAWS = SHAPE_TAGS | {"use"}
_NAME = re.compile(rb"<[^\s/>]+")
_ROUND_END = re.compile(rb"</(?:[^\s>]*:)?(circle|ellipse)\s*>")
_SPLIT = " "


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeTag:
    """The start tag of a shape that is drawn.

    Attributes:
        at: where its ``<`` stands, in bytes of the text as UTF-8.
        tag: its SVG name.
        attrs: its plain attributes.
        label: what a drawing program shows as its name, or an empty text.
    """

    at: int
    tag: str
    attrs: dict[str, str]
    label: str

    @property
    def id(self) -> str:
        """Its id, or an empty text."""
        return self.attrs.get("id", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tags:
    """The shapes that are drawn, in order, and the ids of all elements."""

    shapes: tuple[ShapeTag, ...] = ()
    ids: frozenset[str] = frozenset()


class _NotForUsError(Exception):
    """The text holds more than is read; never leaves this module."""


class _Finder:
    def __init__(self) -> None:
        self.found: list[ShapeTag] = []
        self.ids: set[str] = set()
        self._kept_back = 0
        self._left = MAX_ELEMENTS
        self._parser = expat.ParserCreate("utf-8", namespace_separator=_SPLIT)
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._parser.StartDoctypeDeclHandler = self._doctype

    def read(self, data: bytes) -> Tags:
        try:
            self._parser.Parse(data, True)  # noqa: FBT003 - expat's signature
        except (expat.ExpatError, _NotForUsError):
            return Tags()
        return Tags(shapes=tuple(self.found), ids=frozenset(self.ids))

    def _doctype(
        self,
        _name: str,
        _system: str | None,
        _public: str | None,
        has_subset: bool,  # noqa: FBT001 - expat's signature
    ) -> None:
        if has_subset:
            raise _NotForUsError

    def _start(self, name: str, attrs: dict[str, str]) -> None:
        self._left -= 1
        if self._left < 0:
            raise _NotForUsError
        self.ids.add(attrs.get("id", ""))
        space, _, tag = name.rpartition(_SPLIT)
        if self._kept_back or tag in _KEPT_BACK:
            self._kept_back += 1
        elif tag in _DRAWS and space in {"", SVG_NAMESPACE}:
            plain = {key: value for key, value in attrs.items() if _SPLIT not in key}
            labels = (v for k, v in attrs.items() if k.rpartition(_SPLIT)[2] == "label")
            at = self._parser.CurrentByteIndex
            label = next(labels, plain.get("aria-label", "")).strip()
            self.found.append(ShapeTag(at=at, tag=tag, attrs=plain, label=label))

    def _end(self, _name: str) -> None:
        self._kept_back = max(0, self._kept_back - 1)


def shape_tags(text: str) -> Tags:
    """Return the tags of all shapes and uses that are drawn."""
    return _Finder().read(_bytes(text))


def with_attributes(text: str, added: Iterable[tuple[ShapeTag, str]]) -> str:
    """Return the text with something written behind the names of tags, such as an id."""
    data = _bytes(text)
    places = ((_NAME.match(data, tag.at), words) for tag, words in added)
    edits = [(name.end(), name.end(), words.encode()) for name, words in places if name]
    return spliced(data, edits).decode()


def with_round_paths(text: str, circles: Iterable[ShapeTag]) -> str:
    """Return the text with circles, and ellipses, made paths of the same shape."""
    data = _bytes(text)
    edits: list[Edit] = []
    for circle in circles:
        name, whole = _NAME.match(data, circle.at), TAG.match(data, circle.at)
        if name is None or whole is None:
            continue
        edits.append(
            (name.end() - len(circle.tag), name.end(), f'path d="{_way(circle)}"'.encode())
        )
        end = None if whole[0].endswith(b"/>") else _ROUND_END.search(data, whole.end())
        if end is not None:
            edits.append((*end.span(1), b"path"))
    return spliced(data, edits).decode()


def _way(circle: ShapeTag) -> str:
    x, y = plain_length(circle.attrs, "cx"), plain_length(circle.attrs, "cy")
    keys = ("rx", "ry") if circle.tag == "ellipse" else ("r", "r")
    across, down = (plain_length(circle.attrs, key) for key in keys)
    arc = f"A {across!r} {down!r} 0 0 1"
    return f"M {x - across!r} {y!r} {arc} {x + across!r} {y!r} {arc} {x - across!r} {y!r} Z"


def _bytes(text: str) -> bytes:
    return text.removeprefix("\ufeff").encode()
