"""What style sheets and style attributes say of lines, written to each element as plain attributes.

Programs for cutters hide, colour and move by class names; rules with a single name, class or id
are read, those that ask for a place in the tree are not.
"""

import re
from collections.abc import Iterator

from armorplan.files.svg_tree import Element

_KEPT = frozenset(
    {"display", "visibility", "stroke", "fill", "color", "font-size", "text-anchor", "transform"}
)
_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_RULE = re.compile(r"([^{}]{1,2000})\{([^{}]*)\}")
_SIMPLE = re.compile(r"([a-zA-Z]*)((?:[.#][\w-]+)*)")
_PICK = re.compile(r"[.#][\w-]+")
_UNITS_OF_MOVES = re.compile(r"(?<=[\d.])(?:px|deg)")
_Said = dict[str, str]


def dress(root: Element) -> None:
    """Write to every element what its classes and its style say, the strongest last."""
    rules = list(_rules(root))
    for element in everything(root):
        said: _Said = {}
        if rules:
            marks = _marks(element)
            for tag, picks, told in rules:
                if tag in {"", element.tag} and picks <= marks:
                    said |= told
        said |= _declared(element.attrs.pop("style", ""))
        if "transform" in said:
            said["transform"] = _UNITS_OF_MOVES.sub("", said["transform"])
        element.attrs |= said


def everything(root: Element) -> Iterator[Element]:
    """Yield an element and all below it, in the order they stand in the file."""
    waiting = [root]
    while waiting:
        element = waiting.pop()
        yield element
        waiting.extend(reversed(element.children))


def _marks(element: Element) -> set[str]:
    marks = {f".{name}" for name in element.attrs.get("class", "").split()}
    return marks | ({f"#{element.id}"} if element.id else set())


def _rules(root: Element) -> Iterator[tuple[str, frozenset[str], _Said]]:
    """Yield tag, classes and ids, and what is said, the weaker rules first."""
    found: list[tuple[tuple[int, int], str, frozenset[str], _Said]] = []
    for sheet in (each for each in everything(root) if each.tag == "style"):
        for choice, body in _RULE.findall(_COMMENT.sub("", sheet.words)):
            told = _declared(body)
            for each in choice.split(",") if told else ():
                simple = _SIMPLE.fullmatch(each.strip())
                if simple is not None and each.strip():
                    picks = frozenset(_PICK.findall(simple[2]))
                    weight = sum(p.startswith("#") for p in picks), len(picks)
                    found.append((weight, simple[1], picks, told))
    for _, tag, picks, told in sorted(found, key=lambda rule: rule[0]):
        yield tag, picks, told


def _declared(text: str) -> _Said:
    pairs = (part.partition(":") for part in text.split(";") if ":" in part)
    said = {
        key.strip().lower(): value.replace("!important", "").strip() for key, _, value in pairs
    }
    return {key: value for key, value in said.items() if key in _KEPT and value}
