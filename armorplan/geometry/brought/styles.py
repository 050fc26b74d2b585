"""Layers and colours: which are engraving, which are beside the pattern, what looks like letters."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from armorplan.geometry.brought.lines import Drawn, is_hole
from armorplan.geometry.brought.nesting import Nest

Style = tuple[str, str]
_ENGRAVED = (
    "engrav", "etch", "score", "scor", "mark", "fold", "crease", "tool", "carv", "draw", "raster",
    "gravur", "gravier", "ritz", "anzeichn", "falz", "muster", "grav", "pli", "trac", "grab",
    "marca", "dobl", "incis", "pieg", "segn", "gravur", "vouw", "rysun", "grawer", "гравир", "刻",
)  # fmt: skip
"""Beginnings of what makers call a layer that does not cut, in some languages; no source."""
_ASIDE = (
    "guide", "constr", "dimension", "note", "hilf", "bema", "maß", "mass", "beschrift", "cota",
    "cote", "quot", "aide", "ayuda", "defpoints", "title block",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Styles:
    """What layers and colours tell; ``letters`` are lines that look like letters of a text."""

    engraved: Mapping[Style, str]
    letters: frozenset[int]

    def is_engraved(self, line: Drawn) -> bool:
        """Tell whether all of its layer and colour is engraving."""
        return _style(line) in self.engraved

    def told(self, line: Drawn) -> str:
        """Say why, as a sentence without its end."""
        return self.engraved[_style(line)]

    def aside(self, line: Drawn) -> str:
        """Say why a line does not belong to the pattern, or nothing."""
        word = line.layer.lower()
        if word.startswith(_ASIDE):
            return f'Its layer "{line.layer}" is named for what helps to draw.'
        return ""


def styles_of(
    lines: Sequence[Drawn], nest: Nest, frames: Mapping[int, str], letters: frozenset[int]
) -> Styles:
    """Return what the layers and colours of a drawing tell."""
    counts = {style: Counter[str]() for style in dict.fromkeys(map(_style, lines))}
    for n, line in enumerate(lines):
        if n not in letters and n not in frames:
            in_some = any(m not in frames for m in nest.around[n])
            counts[_style(line)][_role(line, in_some=in_some)] += 1
    return Styles(
        engraved={s: why for s, count in counts.items() if (why := _engraved(s, count))},
        letters=letters,
    )


def _role(line: Drawn, *, in_some: bool) -> str:
    if not line.closed:
        return "opened" if in_some else "loose"
    if not in_some:
        return "cut"
    return "hole" if is_hole(line) else "other"


def _engraved(style: Style, count: Counter[str]) -> str:
    """Say why a layer and colour is engraving, or nothing."""
    if count["cut"]:
        return ""
    if style[0].lower().startswith(_ENGRAVED):
        return f'Its layer "{style[0]}" is named for what does not cut'
    if count["opened"] and count["hole"] <= count["opened"] + count["other"]:
        return "It has the layer and colour of lines that do not cut"
    return ""


def _style(line: Drawn) -> Style:
    return line.layer, line.colour
