"""Giving answers: each makes a new value, so that the former one is the way back."""

from collections.abc import Collection, Mapping
from dataclasses import replace
from enum import StrEnum, unique
from math import dist

from armorplan.app.bringing.model import Bringing, Given
from armorplan.geometry.brought.model import LooseDrawing, ShapeKind
from armorplan.pattern.parts import Point

SHAPE = "shape:"
"""What a person says of one shape is kept under this and its key."""
PART = "part:"
"""What a person says of one part is kept under this, its key, a colon and the fact."""
UNIT = "unit"
_HAIR = 1e-9


@unique
class Fact(StrEnum):
    """What can be said of one part by itself."""

    NAME = "name"
    KIND = "kind"
    PIECE = "piece"
    MATERIAL = "material"


def begun(drawing: LooseDrawing, *, name: str = "") -> Bringing:
    """Return a drawing of which nothing is answered yet."""
    return Bringing(drawing=drawing, name=name)


def answered(bringing: Bringing, about: str, choice: str) -> Bringing:
    """Return it with one more answer: the key of a choice, or what was typed in its place.

    An answer to a question that was answered before takes its place, at the end.
    """
    kept = tuple(each for each in bringing.given if each.about != about)
    return replace(bringing, given=(*kept, Given(about=about, choice=choice.strip())))


def answered_all(bringing: Bringing, answers: Mapping[str, str]) -> Bringing:
    """Return it with answers by question, in their order."""
    for about, choice in answers.items():
        bringing = answered(bringing, about, choice)
    return bringing


def unanswered(bringing: Bringing, about: str) -> Bringing:
    """Return it without the answer to one question."""
    return replace(bringing, given=tuple(g for g in bringing.given if g.about != about))


def with_shapes(bringing: Bringing, keys: Collection[str], kind: ShapeKind) -> Bringing:
    """Return it with what a person takes some shapes for, whatever a question bundled them as."""
    return answered_all(bringing, {f"{SHAPE}{key}": kind.value for key in sorted(keys)})


def with_fact(bringing: Bringing, part: str, fact: Fact, said: str) -> Bringing:
    """Return it with what a person says of one part, named by the key of its outline."""
    return answered(bringing, f"{PART}{part}:{fact.value}", said)


def with_known_length(
    bringing: Bringing, one: Point, other: Point, true_mm: float
) -> Bringing | None:
    """Return it with the unit by which two points of the file lie so far apart.

    Args:
        bringing: the drawing.
        one: a point in units of the file.
        other: another one.
        true_mm: how far apart they are in truth, in mm.

    Returns:
        ``None`` where the points are one, or the length is none.
    """
    apart = dist(one, other)
    if apart <= _HAIR or not 0 < true_mm < float("inf"):
        return None
    return answered(bringing, UNIT, f"{true_mm / apart:.6g}")
