"""What the drawing table asks before it does something: a few numbers or a choice, with units."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from PySide6.QtCore import QCoreApplication

from armorplan.desktop.shape_edit_over import Ghost
from armorplan.desktop.shape_edit_words import mm
from armorplan.files.typed_numbers import typed_number
from armorplan.pattern.parts import Point

Told = Mapping[str, str]
"""By name, what was typed or chosen."""
Line = tuple[Point, Point]


def _tr(text: str) -> str:
    return QCoreApplication.translate("Asks", text)


@dataclass(frozen=True, slots=True, kw_only=True)
class AskField:
    """One thing to be told.

    Attributes:
        words: what it may be, each with what that means; empty where it is typed.
        spot: ``x`` or ``y`` where a click on the drawing fills it in.
        may_lack: it may be left empty.
    """

    name: str
    label: str
    text: str = ""
    unit: str = ""
    words: tuple[tuple[str, str], ...] = ()
    spot: str = ""
    may_lack: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """A title, the fields below it, what is done with what was told, and how it looks before."""

    id: str
    title: str
    fields: tuple[AskField, ...]
    then: Callable[[Told], None] = field(compare=False)
    sketch: Callable[[Told], tuple[Ghost, ...]] | None = field(default=None, compare=False)
    help: str = ""


def number(text: str, unit: str = "mm") -> float:
    """Return the number that was typed; its unit behind it is passed over.

    Raises:
        ValueError: it is none.
    """
    found = _typed(text, unit)
    if found is None:
        raise ValueError(text)
    return found


def _typed(text: str, unit: str) -> float | None:
    return typed_number(text.strip().removesuffix(unit).strip())


def line_fields(ends: Line) -> tuple[AskField, ...]:
    """Return the fields for the two ends of a line; clicks fill them in by turns."""
    (x1, y1), (x2, y2) = ends
    return (
        _spot("x1", _tr("from x"), x1, "x"),
        _spot("y1", "y", y1, "y"),
        _spot("x2", _tr("to x"), x2, "x"),
        _spot("y2", "y", y2, "y"),
    )


def _spot(name: str, label: str, value: float, axis: str) -> AskField:
    return AskField(name=name, label=label, text=mm(value), unit="mm", spot=axis)


def line_told(told: Told) -> Line:
    """Return the two ends of a line that were told."""
    start = number(told["x1"]), number(told["y1"])
    return start, (number(told["x2"]), number(told["y2"]))


def lacking(ask: Ask, told: Told) -> str:
    """Return the label of the first field that holds nothing, or no number; empty: none does."""
    for one in ask.fields:
        text = told[one.name].strip()
        if one.words or (one.may_lack and not text):
            continue
        if not text:
            return one.label
        if one.unit and _typed(text, one.unit) is None:
            return one.label
    return ""


def sketched(ask: Ask, told: Told) -> tuple[Ghost, ...]:
    """Return how what is asked would look; nothing while the fields do not hold it."""
    if ask.sketch is None or lacking(ask, told):
        return ()
    return ask.sketch(told)
