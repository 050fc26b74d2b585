"""Outlines of a pattern's drawings that it makes nothing of yet: no part, no slot in one."""

from dataclasses import dataclass
from functools import lru_cache

from armorplan.app.draft import Draft
from armorplan.files.drawing import Outline, read_drawing
from armorplan.pattern.parts import Ring
from armorplan.pattern.pattern import Pattern

_KEPT = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Spare:
    """A closed outline with its corners in mm on the page."""

    id: str
    ring: Ring


def spare_outlines(draft: Draft) -> tuple[Spare, ...]:
    """Return what is drawn as a closed outline with an id and is neither a part nor lies in one.

    Takes as long as reading the drawings does.
    """
    pattern = draft.pattern
    if pattern is None:
        return ()
    texts = dict(draft.texts)
    names = draft.entry("pattern", "").get("drawings", ())
    known = _named(draft, pattern)
    found = [
        outline
        for name in names
        if name in texts
        for outline in _outlines(name, texts[name])
        if outline.id not in known
    ]
    once = {outline.id: outline for outline in reversed(found)}
    return tuple(Spare(id=one.id, ring=one.ring) for one in reversed(once.values()))


@lru_cache(maxsize=_KEPT)
def _outlines(name: str, text: str) -> tuple[Outline, ...]:
    return read_drawing(name, text).outlines


def _named(draft: Draft, pattern: Pattern) -> set[str]:
    """Return the ids of all shapes that the pattern names."""
    found = {hole.id for part in pattern.parts for hole in part.holes}
    found |= {slot.id for part in pattern.parts for slot in part.slots}
    told = ((part, draft.entry("parts", part.id)) for part in pattern.parts)
    return found | {str(held.get("outline", part.id)) for part, held in told}
