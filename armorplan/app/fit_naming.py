"""How parts and rows are named within one dry fit: without a side where all of it is of one side."""

from collections.abc import Sequence
from dataclasses import dataclass

from armorplan.assembly.model import Assembly, Side, SidedSeam
from armorplan.steps.model import Step
from armorplan.steps.naming import lowered, with_side


@dataclass(frozen=True, slots=True, kw_only=True)
class FitNames:
    """Names within a fit; ``both``: it has left and right in it, so that the side is said."""

    assembly: Assembly
    both: bool

    def part(self, part_id: str) -> str:
        """Return a sided part's name inside a sentence."""
        sided = self.assembly.part(part_id)
        return self._told(lowered(sided.part.name), sided.side)

    def row(self, row: SidedSeam) -> str:
        """Return a row's name inside a sentence."""
        return self._told(lowered(row.seam.name), row.side)

    def _told(self, name: str, side: Side) -> str:
        return with_side(name, side) if self.both else name


def names_in(assembly: Assembly, fit: Step) -> FitNames:
    """Return how things are named within a dry fit."""
    sides = {assembly.part(part).side for part in fit.parts}
    return FitNames(assembly=assembly, both={Side.LEFT, Side.RIGHT} <= sides)


def listed(names: Sequence[str]) -> str:
    """Return names as a list: one, two and three."""
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def started(words: str) -> str:
    """Return words as a sentence begins."""
    return f"{words[:1].upper()}{words[1:]}"
