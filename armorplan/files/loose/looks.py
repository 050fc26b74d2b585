"""How a shape of an SVG looks and what it is called: colour, layer, label, whether it is seen."""

import re
from collections.abc import Iterable

from armorplan.files.faults import brief
from armorplan.files.svg_tree import Element

_NUMBERED = re.compile(
    r"(?:path|rect|circle|ellipse|line|polyline|polygon|poly|text|tspan|g|group|use|svg|image|shape"
    r"|object|clone|layer|compound|curve|arc|spline|entity|outline|contour|vector|element|id)?"
    r"[-_ .]*[\d_.-]*(?:[-_](?:path|g|group)?\d+)*",
    re.IGNORECASE,
)
"""A name that a program gave by counting tells nothing."""
_SHORT = re.compile(r"#([0-9a-f])([0-9a-f])([0-9a-f])")
_RGB = re.compile(r"rgb\(\s*(\d{1,3})\s*,\s*(\d{1,3})\s*,\s*(\d{1,3})\s*\)")
_WORDS = {
    "black": "#000000",
    "white": "#ffffff",
    "red": "#ff0000",
    "lime": "#00ff00",
    "green": "#008000",
    "blue": "#0000ff",
    "cyan": "#00ffff",
    "magenta": "#ff00ff",
    "yellow": "#ffff00",
}
"""The colours that programs for cutters write as words (CSS Color 3, section 4.1)."""
_NONE = frozenset({"none", "transparent"})
Chain = tuple[Element, ...]
"""An element and all it lies in, the innermost first."""


def chain_of(element: Element, above: Iterable[Element]) -> Chain:
    """Return an element and what it lies in, the innermost first."""
    return (element, *reversed(tuple(above)))


def inherited(chain: Chain, key: str, otherwise: str = "") -> str:
    """Return what the nearest of a chain says of something that is handed down."""
    said = (each.attrs[key].strip() for each in chain if each.attrs.get(key, "").strip())
    return next((words for words in said if words != "inherit"), otherwise)


def is_seen(chain: Chain) -> bool:
    """Tell whether it has a line or a fill and is not hidden by its visibility."""
    if inherited(chain, "visibility", "visible").lower() != "visible":
        return False
    line, fill = inherited(chain, "stroke", "none"), inherited(chain, "fill", "black")
    return not (line.lower() in _NONE and fill.lower() in _NONE)


def colour_of(chain: Chain) -> str:
    """Return the colour of the line, or that of the fill where there is no line."""
    for key in ("stroke", "fill"):
        said = inherited(chain, key).lower()
        if said and said not in _NONE:
            return plain_colour(
                inherited(chain, "color").lower() if "currentcolor" in said else said
            )
    return ""


def plain_colour(said: str) -> str:
    """Return one writing for one colour: ``#rrggbb`` where that is known."""
    short, rgb = _SHORT.fullmatch(said), _RGB.fullmatch(said)
    if short:
        return "#" + "".join(2 * digit for digit in short.groups())
    if rgb:
        return "#" + "".join(f"{min(int(part), 255):02x}" for part in rgb.groups())
    return _WORDS.get(said, brief(said))


def name_of(element: Element, otherwise: str | None = None) -> str:
    """Return what a person called an element: its label, its title, or an id that is a word."""
    title = next((c.words.strip() for c in element.children if c.tag == "title"), "")
    own = otherwise if otherwise is not None else element.id or ""
    said = (word for word in (element.label, title, own) if word)
    return next((brief(word) for word in said if not is_numbered(word)), "")


def is_numbered(word: str) -> bool:
    """Tell whether a program made a name by counting.

    >>> [is_numbered(w) for w in ("path1234", "g12-3", "left wing", "rect_7", "lame 3", "Layer 1")]
    [True, True, False, True, False, True]
    """
    return _NUMBERED.fullmatch(word.strip()) is not None


def layer_of(above: Iterable[Element], wrapping: frozenset[int]) -> str:
    """Return the name of the layer: what says it is one, else the outermost group with a name.

    ``wrapping`` are groups, by their identity, that hold all of the drawing.
    """
    groups = [each for each in above if each.tag == "g"]
    layers = [each for each in groups if each.is_layer]
    free = [each for each in groups if id(each) not in wrapping and (each.label or each.id)]
    found = layers[-1:] or free[:1]
    return brief(found[0].label or found[0].id or "") if found else ""


def group_of(above: Iterable[Element], layer: str) -> str:
    """Return what a person called the innermost group, unless that is the layer."""
    named = (name_of(each) for each in reversed(tuple(above)) if each.tag in {"g", "use"})
    return next((name for name in named if name and name != layer), "")


def wrapping_groups(root: Element) -> frozenset[int]:
    """Return the groups, by identity, that hold all of the drawing."""
    found: list[int] = []
    drawing = _drawing(root)
    while len(drawing) == 1 and drawing[0].tag == "g":
        found.append(id(drawing[0]))
        drawing = _drawing(drawing[0])
    return frozenset(found)


def _drawing(element: Element) -> list[Element]:
    beside = {"", "defs", "title", "desc", "metadata", "style", "symbol", "script"}
    return [child for child in element.children if child.tag not in beside]
