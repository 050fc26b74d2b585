"""What style sheets and style attributes say of lines, written to each element as plain attributes.

Programs for cutters hide, colour and move by class names; rules with a single name, class or id
are read, those that ask for a place in the tree are not.
"""

import re
from collections.abc import Iterable, Iterator
from itertools import chain

from armorplan.files.svg_tree import Element
from armorplan.kernel.stopping import ShouldStop, go_on

_KEPT = frozenset(
    {
        "display",
        "visibility",
        "stroke",
        "fill",
        "color",
        "font-size",
        "text-anchor",
        "transform",
        "transform-origin",
    }
)
_SIMPLE = re.compile(r"([a-zA-Z]*)((?:[.#][\w-]+)*)")
_PICK = re.compile(r"[.#][\w-]+")
_UNITS_OF_MOVES = re.compile(r"(?<=[\d.])(?:px|deg)")
_ORIGIN = re.compile(r"(-?\d+(?:\.\d*)?)(?:px)?[\s,]+(-?\d+(?:\.\d*)?)(?:px)?")
_Said = dict[str, str]
_Rule = tuple[tuple[int, int, int], str, frozenset[str], _Said]
"""How strong it is (ids, classes, place), the tag, the classes and ids, and what is said."""


def dress(root: Element, should_stop: ShouldStop) -> None:
    """Write to every element what its classes and its style say, the strongest last."""
    rules = _by_pick(_rules(root, should_stop))
    known: dict[tuple[str, frozenset[str]], _Said] = {}
    for element in everything(root):
        go_on(should_stop)
        looks = element.tag, frozenset(_marks(element) & rules.keys())
        if looks not in known:
            known[looks] = _told(*looks, rules)
        said = known[looks] | _declared(element.attrs.pop("style", ""))
        if "transform" in said:
            said["transform"] = _UNITS_OF_MOVES.sub("", said["transform"])
        element.attrs |= said
        _move_to_origin(element)


def _move_to_origin(element: Element) -> None:
    """Write the origin of a transform, where it is given by numbers, into the transform itself."""
    origin = _ORIGIN.fullmatch(element.attrs.pop("transform-origin", "").strip())
    own = element.attrs.get("transform", "")
    if origin and own:
        x, y = float(origin[1]), float(origin[2])
        element.attrs["transform"] = f"translate({x} {y}) {own} translate({-x} {-y})"


def _told(tag: str, marks: frozenset[str], rules: dict[str, list[_Rule]]) -> _Said:
    """Return what all rules that fit say, the strongest last."""
    said: _Said = {}
    asked = chain.from_iterable(rules.get(key, ()) for key in (*sorted(marks), tag))
    for _, wanted, picks, told in sorted(asked, key=lambda rule: rule[0]):
        if wanted in {"", tag} and picks <= marks:
            said |= told
    return said


def _by_pick(rules: Iterable[_Rule]) -> dict[str, list[_Rule]]:
    """Return rules by a class or id they ask for, else by the tag, so that each is asked of few."""
    found: dict[str, list[_Rule]] = {}
    for rule in rules:
        _, tag, picks, _ = rule
        for key in picks or {tag}:
            found.setdefault(key, [])
        found[max(picks, default=tag)].append(rule)
    return found


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


def _rules(root: Element, should_stop: ShouldStop) -> Iterator[_Rule]:
    """Yield the rules of all sheets; the later of two is the stronger where all else is like."""
    count = 0
    for sheet in (each for each in everything(root) if each.tag == "style"):
        for block in "".join(_outside_comments(sheet.words)).split("}"):
            go_on(should_stop)
            # What stands before an inner brace belongs to a rule about rules.
            _, _, choices = block.rpartition("{")[0].rpartition("{")
            told = _declared(block.rpartition("{")[2])
            for each in choices.split(",") if told else ():
                simple = _SIMPLE.fullmatch(each.strip())
                if simple is not None and each.strip():
                    picks = frozenset(_PICK.findall(simple[2]))
                    count += 1
                    ids = sum(pick.startswith("#") for pick in picks)
                    yield (ids, len(picks), count), simple[1], picks, told


def _outside_comments(text: str) -> Iterator[str]:
    at = 0
    while True:
        begin = text.find("/*", at)
        if begin < 0:
            yield text[at:]
            return
        yield text[at:begin]
        end = text.find("*/", begin + 2)
        if end < 0:
            return
        at = end + 2


def _declared(text: str) -> _Said:
    pairs = (part.partition(":") for part in text.split(";") if ":" in part)
    said = {
        key.strip().lower(): value.replace("!important", "").strip() for key, _, value in pairs
    }
    return {key: value for key, value in said.items() if key in _KEPT and value}
