"""What the drawing table asks before it does something: a few numbers or a choice, with units."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

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
    """A title, the fields below it, and what is done with what was told."""

    id: str
    title: str
    fields: tuple[AskField, ...]
    then: Callable[[Told], None] = field(compare=False)
    help: str = ""


def number(told: Told, one: AskField) -> float:
    """Return the number in a field; units behind it are passed over.

    Raises:
        TypedError: it holds none.
    """
    text = told[one.name].strip().removesuffix(one.unit).strip()
    found = typed_number(text)
    if found is None:
        raise TypedError(one.label)
    return found


def lacking(ask: Ask, told: Told) -> str:
    """Return the label of the first field that holds no number though it should; empty: none."""
    for one in ask.fields:
        if one.words or (one.may_lack and not told[one.name].strip()):
            continue
        if not one.unit and told[one.name].strip():
            continue
        try:
            number(told, one)
        except TypedError:
            return one.label
    return ""
