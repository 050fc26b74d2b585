"""How the armour is worn: hardware, strap places, checks at the fit, what carries the weight."""

from dataclasses import dataclass
from enum import StrEnum

from armorplan.pattern.parts import MadeOn


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareUse:
    """A buckle, ring or loop of the catalogue that a strap is put through.

    Attributes:
        use: id in the hardware catalogue.
        part: the part that holds it, mostly a strap folded round it.
        held_by: joints that shut the fold over it; it is put on before the last of them is set.
        count: how many of them.
    """

    id: str
    use: str
    part: str
    held_by: tuple[str, ...] = ()
    count: int = 1
    notes: str = ""
    only_with: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class StrapPlace:
    """A place where a strap closes round the wearer.

    Attributes:
        strap: the part with the tongue.
        meets: the part that carries the buckle or the stud it closes on.
        girth_mm: least and most girth of the wearer, over the padding, that it closes round.
        holes: ids of the strap's holes the buckle can take, tip first; may be empty.
    """

    id: str
    name: str
    strap: str
    meets: str
    girth_mm: tuple[float, float]
    holes: tuple[str, ...] = ()
    notes: str = ""
    only_with: tuple[str, ...] = ()


class CheckTime(StrEnum):
    """At which trial something is checked."""

    MOCK_UP = "mock-up"
    DRY_FIT = "dry-fit"
    FIT = "fit"


@dataclass(frozen=True, slots=True, kw_only=True)
class FitCheck:
    """Something to look for at a trial of one piece, such as 'the knee bends fully'."""

    id: str
    name: str
    piece: str
    when: CheckTime
    parts: tuple[str, ...] = ()
    notes: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspension:
    """What carries a piece's weight.

    Attributes:
        piece: what hangs.
        part: the strap or tab that carries it.
        hangs_from: what it is tied or buckled to, in words: 'the belt', 'the arming coat'.
    """

    id: str
    piece: str
    part: str
    hangs_from: str
    made_on: MadeOn = MadeOn.BOTH
    notes: str = ""
