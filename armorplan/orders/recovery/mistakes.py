"""What a maker says went wrong, and its text in the ledger."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from armorplan.kernel.errors import ArmorplanError


class MistakeKind(StrEnum):
    """What can have gone wrong; the value is how a maker says it."""

    CLOSED = "closed too soon"
    WRONG_HOLE = "a wrong hole"
    TWO_ALIKE = "two of one hand"
    WRONG_COLOUR = "a wrong colour"
    ROW_OFF = "a row out of line on cut leather"
    SPOILT = "a part is spoilt"

    @property
    def slug(self) -> str:
        """The kind as it is written on the command line and in the ledger: ``wrong-hole``."""
        return self.name.lower().replace("_", "-")


EDGE, INWARD, ALONG, FACE, SHAPE = "edge", "in", "along", "face", "shape"
_OUT = {EDGE: "towards the edge", INWARD: "away from the edge", ALONG: "along the edge"}
WHICH_WAY: Mapping[MistakeKind, Mapping[str, str]] = {
    MistakeKind.WRONG_HOLE: _OUT,
    MistakeKind.ROW_OFF: _OUT,
    MistakeKind.SPOILT: {EDGE: "at its edge", FACE: "on its face", SHAPE: "in its shape"},
}
"""Which way a hole or row is out, or where a part is spoilt: as it is written, and as it is said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistake:
    """One thing that went wrong.

    Attributes:
        kind: what.
        about: sided ids it is about, of a kind that fits: steps that stand though nobody ticked
            them (``CLOSED``; joints and seams will do), a hole (``part/hole``) or joint
            (``WRONG_HOLE``), parts (``TWO_ALIKE``, ``WRONG_COLOUR``, ``SPOILT``), a seam
            (``ROW_OFF``).
        mm: how far a hole or a row is out of its place; 0 where it is not known.
        way: one of ``WHICH_WAY`` of its kind; empty: not known.
        darker: whether the wrong colour is darker than the right one; ``None``: not known.
        note: in the maker's words.
    """

    kind: MistakeKind
    about: tuple[str, ...]
    mm: float = 0.0
    way: str = ""
    darker: bool | None = None
    note: str = ""


def kind_of(slug: str) -> MistakeKind | None:
    """Return the kind of a slug or of the maker's words, or ``None``."""
    return next((kind for kind in MistakeKind if slug in (kind.slug, kind.value)), None)


def mistake_text(mistake: Mistake) -> str:
    """Return a mistake as the ledger keeps it: one line of JSON, the same for equal mistakes."""
    told: dict[str, object] = {"kind": mistake.kind.slug, "about": list(mistake.about)}
    if mistake.mm:
        told["mm"] = mistake.mm
    if mistake.way:
        told["way"] = mistake.way
    if mistake.darker is not None:
        told["darker"] = mistake.darker
    if mistake.note:
        told["note"] = mistake.note
    return json.dumps(told, ensure_ascii=False, sort_keys=True)


def mistake_from(text: str) -> Mistake:
    """Return the mistake a text of the ledger tells; keys of a later version are passed over.

    Raises:
        ArmorplanError: the text tells no mistake of a known kind.
    """
    try:
        told = json.loads(text)
        kind = kind_of(str(told["kind"]))
        about = tuple(str(one) for one in told["about"])
        mm = float(told.get("mm", 0.0))
    except (ValueError, KeyError, TypeError) as error:
        raise _unread(text) from error
    if kind is None:
        raise _unread(text)
    darker = told.get("darker")
    return Mistake(
        kind=kind,
        about=about,
        mm=mm,
        way=way if (way := str(told.get("way", ""))) in WHICH_WAY.get(kind, {}) else "",
        darker=None if darker is None else bool(darker),
        note=str(told.get("note", "")),
    )


def _unread(text: str) -> ArmorplanError:
    return ArmorplanError(f"This tells no mistake that is known: {text[:80]}")
