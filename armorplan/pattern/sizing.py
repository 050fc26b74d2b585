"""What a pattern was drawn for, how its parts follow a wearer's measures, and whom it was fitted to."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnFor:
    """A measure the pattern was drawn for. ``id`` is that of the measure in the catalogue.

    ``mm`` of a girth is over the padding, as the armour meets it.
    """

    id: str
    mm: float
    notes: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scaling:
    """Parts that follow measures.

    Attributes:
        parts: what follows.
        along: the measure that their height follows, by ``up_deg``; empty: it stays.
        around: the girth that their width follows, and of a strap its length; empty: it stays.
    """

    id: str
    parts: tuple[str, ...]
    along: str = ""
    around: str = ""
    notes: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedTo:
    """What this pattern was fitted from, and to whom.

    Attributes:
        uuid, version: of the pattern it was fitted from.
        wearer: id of the wearer; ``name``: what they are called.
        side: ``left`` or ``right`` where it was fitted to one side's measures.
    """

    uuid: str
    version: int
    wearer: str
    name: str = ""
    side: str = ""
