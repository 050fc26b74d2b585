"""Collects what is to change in a drawing's text, and writes it; each change is of the text as it was."""

from collections.abc import Collection, Mapping
from xml.sax.saxutils import quoteattr

from armorplan.files.svg_places import Stretch
from armorplan.files.svg_write import (
    Edit,
    attribute_names,
    named_tag,
    prefix_of,
    space_of,
    spliced,
    with_attributes,
)

_Attrs = Mapping[str, str | None]


class SvgChanges:
    """Changes of the elements of a drawing, told by where they stand in its bytes."""

    def __init__(self, data: bytes) -> None:
        self._data = data
        self._attrs: dict[Stretch, dict[str, str | None]] = {}
        self._tags: dict[Stretch, str] = {}
        self._cuts: list[Stretch] = []
        self._added: list[tuple[int, str]] = []

    @property
    def data(self) -> bytes:
        """The bytes with all changes so far; what is taken out is not changed besides."""
        edits: list[Edit] = [(at, at, words.encode()) for at, words in self._added]
        edits += [(*self._line_of(cut), b"") for cut in self._cuts]
        for at in self._attrs:
            if not any(cut.start <= at.start and at.end <= cut.end for cut in self._cuts):
                edits += self._edits(at)
        return spliced(self._data, edits)

    def put(self, at: Stretch, attrs: _Attrs) -> None:
        """Set attributes of an element; ``None`` takes one out."""
        self._attrs.setdefault(at, {}).update(attrs)

    def drop_foreign(self, at: Stretch, names: Collection[str]) -> None:
        """Take out attributes of these names that are of another language, whatever its prefix."""
        told = attribute_names(self._data[at.start : at.tag_end])
        self.put(at, {name: None for name in told if name.partition(":")[2] in names})

    def call(self, at: Stretch, tag: str) -> None:
        """Make an element one of another kind."""
        self._tags[at] = tag
        self.put(at, {})

    def cut(self, at: Stretch) -> None:
        """Take an element out, with its line where nothing else stands on it."""
        self._cuts.append(at)

    def add(self, behind: Stretch, tag: str, attrs: Mapping[str, str]) -> None:
        """Put a new element behind another one, on a line of its own where that one has one."""
        data = self._data
        start = data.rfind(b"\n", 0, behind.start) + 1
        indent = data[start : behind.start]
        gap = data[start - 1 - (data[start - 2 : start - 1] == b"\r") : behind.start]
        before = gap.decode() if start and not indent.strip() else ""
        like = data[behind.start : behind.tag_end]
        told = {**space_of(like), **attrs}
        words = " ".join(f"{key}={quoteattr(value)}" for key, value in told.items())
        self._added.append((behind.end, f"{before}<{prefix_of(like)}{tag} {words}/>"))

    def _edits(self, at: Stretch) -> list[Edit]:
        data = self._data
        tag = with_attributes(data[at.start : at.tag_end], self._attrs[at])
        name = self._tags.get(at)
        if not name:
            return [(at.start, at.tag_end, tag)]
        edits: list[Edit] = [(at.start, at.tag_end, named_tag(tag, name))]
        if at.end > at.tag_end:
            close = data.rfind(b"</", at.tag_end, at.end)
            edits.append((close, at.end, named_tag(data[close : at.end], name)))
        return edits

    def _line_of(self, cut: Stretch) -> tuple[int, int]:
        """Return the stretch of an element, with its line where it stands on it alone."""
        data = self._data
        start = data.rfind(b"\n", 0, cut.start) + 1
        end = data.find(b"\n", cut.end) + 1
        alone = end and not (data[start : cut.start] + data[cut.end : end]).strip()
        return (start, end) if alone else (cut.start, cut.end)
