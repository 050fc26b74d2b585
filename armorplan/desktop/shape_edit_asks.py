"""What the drawing table asks before it does something: a few numbers or a choice, with units."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from armorplan.desktop.shape_edit_over import Ghost
from armorplan.files.typed_numbers import typed_number

Told = Mapping[str, str]
"""By name, what was typed or chosen."""


class TypedError(ValueError):
    """A field holds no number: ``label`` names it."""

    def __init__(self, label: str) -> None:
        super().__init__(label)
        self.label = label


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


def number(text: str, label: str = "", unit: str = "") -> float:
    """Return the number that was typed; its unit behind it is passed over.

    Raises:
        TypedError: it is none; ``label`` names the field.
    """
    found = typed_number(text.strip().removesuffix(unit or "mm").strip())
    if found is None:
        raise TypedError(label)
    return found


def lacking(ask: Ask, told: Told) -> str:
    """Return the label of the first field that holds nothing, or no number; empty: none does."""
    for one in ask.fields:
        text = told[one.name].strip()
        if one.words or (one.may_lack and not text):
            continue
        if not text:
            return one.label
        if one.unit and not _is_number(text, one.unit):
            return one.label
    return ""


def sketched(ask: Ask, told: Told) -> tuple[Ghost, ...]:
    """Return how what is asked would look; nothing while the fields do not hold it."""
    if ask.sketch is None or lacking(ask, told):
        return ()
    return ask.sketch(told)


def _is_number(text: str, unit: str) -> bool:
    try:
        number(text, unit=unit)
    except TypedError:
        return False
    return True
