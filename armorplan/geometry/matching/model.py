"""A suggestion that two rows of holes belong together, with what speaks for and against it."""

from dataclasses import dataclass
from enum import StrEnum, unique

from armorplan.geometry.placing import Fit


@unique
class Meeting(StrEnum):
    """How two rows meet."""

    FLAT = "flat"
    DRAWN = "drawn into shape"
    HOLE = "one hole on another"


@dataclass(frozen=True, slots=True, kw_only=True)
class RowMatch:
    """Two rows of holes that fit each other.

    Attributes:
        first: id of the part that comes first in the order given; which lies outside is not told.
        second: id of the other part; the same id where a part closes on itself.
        pairs: hole of the first, hole of the second, in their order along the row.
        meeting: flat where one rigid motion lays all on each other; drawn where only the spacings
            along the rows agree.
        residual_mm: the largest miss of a hole, or of a spacing, after the best fit.
        mirrored: they fit flat only with the second part turned over.
        turned: another match joins the same holes the other way round, and this is the less likely.
        likely: from 0 to 1, how much speaks for it against all else that its holes could fit.
        rivals: how many other matches with one of its holes fit as well, its reverse aside; 0 where
            it is the only one.
        fit: the motion of the second part onto the first in mm, for drawing it as a ghost; where it
            is turned over, its x is reversed before. ``None`` where there is none.
        why: for and against, as sentences with numbers.
    """

    first: str
    second: str
    pairs: tuple[tuple[str, str], ...]
    meeting: Meeting
    residual_mm: float
    mirrored: bool = False
    turned: bool = False
    likely: float = 0.0
    rivals: int = 0
    fit: Fit | None = None
    why: str = ""

    @property
    def key(self) -> str:
        """Name the match for ever: by its parts and its holes."""
        return "+".join(f"{one}={other}" for one, other in self.pairs)
