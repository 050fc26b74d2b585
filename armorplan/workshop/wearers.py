"""Who wears the armour: measures in mm, bare and over the padding, on both sides or one."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from math import pi

from armorplan.workshop.measures import BodyMeasure, MeasureKind, Sex

Measured = Mapping[str, float]
"""Values in mm by the ids of their measures."""
SIDES = ("left", "right")


@dataclass(frozen=True, slots=True, kw_only=True)
class Girth:
    """A measure as the armour meets it, and how that was come by.

    Attributes:
        over_mm: over the padding; of a length the length itself.
        bare_mm: on the body; ``None`` where it was only taken over the padding.
        why: the reckoning in words; empty where nothing was added.
        guessed: the padding was not known, and what is usual was taken.
    """

    over_mm: float
    bare_mm: float | None
    why: str = ""
    guessed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Wearer:
    """One person to fit a pattern to.

    Attributes:
        sex: for percentiles only; ``None``: not said.
        measures: bare.
        padded: taken over the padding that is worn; they go before ``measures``.
        padding_mm: thickness of the padding where it was not measured over; ``None``: not known.
        left, right: bare measures of that side where the two differ.
    """

    id: str
    name: str
    sex: Sex | None = None
    measures: Measured = field(default_factory=dict)
    padded: Measured = field(default_factory=dict)
    padding_mm: float | None = None
    left: Measured = field(default_factory=dict)
    right: Measured = field(default_factory=dict)
    notes: str = ""

    def of_side(self, side: str) -> "Wearer":
        """Return the wearer with the measures of one side: ``left`` or ``right``."""
        own = self.left if side == SIDES[0] else self.right
        padded = {key: mm for key, mm in self.padded.items() if key not in own}
        return replace(self, measures={**self.measures, **own}, padded=padded, left={}, right={})

    @property
    def differing(self) -> tuple[str, ...]:
        """The measures that are not the same left and right."""
        return tuple(
            key
            for key in sorted({*self.left, *self.right})
            if self.of_side("left").measures.get(key) != self.of_side("right").measures.get(key)
        )

    def over_padding(self, measure: BodyMeasure) -> Girth | None:
        """Return a measure as the armour meets it; ``None`` where it was not taken.

        A girth grows by 2π times the thickness of what lies under it (circle); where no thickness is
        said, by the middle of what is usual (common practice, no source).
        """
        bare = self.measures.get(measure.id)
        if measure.id in self.padded:
            return Girth(over_mm=self.padded[measure.id], bare_mm=bare)
        if bare is None:
            return None
        if measure.kind is MeasureKind.LENGTH:
            return Girth(over_mm=bare, bare_mm=bare)
        if self.padding_mm is not None:
            over = bare + 2 * pi * self.padding_mm
            why = f"{bare:g} mm bare + 2π × {self.padding_mm:g} mm of padding"
            return Girth(over_mm=over, bare_mm=bare, why=why)
        if measure.over_bare_mm is None:
            return Girth(over_mm=bare, bare_mm=bare, why="no padding reckoned", guessed=True)
        usual = measure.usual_over_mm
        why = f"{bare:g} mm bare + {usual:g} mm, which is usual over padding"
        return Girth(over_mm=bare + usual, bare_mm=bare, why=why, guessed=True)
