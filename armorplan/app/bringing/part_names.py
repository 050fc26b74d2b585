"""What parts are called: by their numbers in the drawing, and by what they become once that is known."""

import re
from collections.abc import Iterable, Mapping, Sequence

from armorplan.app.bringing.answering import Fact
from armorplan.app.bringing.facts import said_facts
from armorplan.app.bringing.model import Bringing
from armorplan.files.bare_pattern import in_words
from armorplan.pattern.parts import Part, PartKind

_SIDE = re.compile(r"\b(left|right)\b[\s,:-]*|[\s_-]+[lr]\b", re.IGNORECASE)
"""A side in a name; of what is written once for both it says nothing."""


def numbered_names(
    parts: Iterable[Part], bringing: Bringing, order: Sequence[str]
) -> dict[str, str]:
    """Return what drawn parts are called before it is known what they become.

    Args:
        parts: the parts that are drawn.
        bringing: what was answered.
        order: keys in the order that gives a part its number, whatever is said of other shapes.
    """
    said = said_facts(bringing, Fact.NAME)
    numbers = {key: number for number, key in enumerate(order, start=1)}
    return {
        part.id: said.get(part.id) or part.name or f"part {numbers.get(part.id, 0) or part.id}"
        for part in parts
    }


def written_names(
    parts: Sequence[Part], said: Mapping[str, str], sides: frozenset[str]
) -> dict[str, str]:
    """Return each part's name: as said, as drawn, else its kind with a number where there are more.

    Args:
        parts: the parts that are written, with their kinds.
        said: what a person calls them, by key.
        sides: those of them that are made left and right.
    """
    kinds = [part.kind for part in parts]
    counts: dict[PartKind, int] = {}
    found: dict[str, str] = {}
    for part in parts:
        counts[part.kind] = counts.get(part.kind, 0) + 1
        number = f" {counts[part.kind]}" if kinds.count(part.kind) > 1 else ""
        drawn = in_words(part.name)
        if part.id in sides:
            drawn = _SIDE.sub(" ", drawn).strip() or drawn
        name = said.get(part.id) or drawn or f"{part.kind.value}{number}"
        found[part.id] = unlike(name, found.values())
    return found


def unlike(name: str, taken: Iterable[str]) -> str:
    """Return a name, with a number behind it if it is taken."""
    known = set(taken)
    found, number = name, 2
    while found in known:
        found, number = f"{name} {number}", number + 1
    return found
