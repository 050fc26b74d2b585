"""What was found of one thing, gathered: twice told, or on both sides of a pair, it counts once.

A pattern is drawn once for both sides, so that what moves a hole moves it left and right.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from armorplan.app.fit_findings import FitFinding, FoundKind

_SIDES = (".left", ".right")
_AXES = {
    FoundKind.GAP: "",
    FoundKind.OVERLAP: "",
    FoundKind.SHORT: "along",
    FoundKind.LONG: "along",
}
"""Two kinds on one axis are each other's contrary; across the row goes without a word."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """All that was found of one thing in one direction.

    Attributes:
        step: the dry-fit step of the finding that counts.
        found: that of the most mm, with all notes.
        axis: ``along`` a row, or what else tells it from other findings there; empty: across.
        sides: how many sides it was found on; 0: what it was found on has none.
        against: it was found both ways, so that no hole can move for it.
    """

    step: str
    found: FitFinding
    axis: str
    sides: int
    against: bool

    @property
    def plain(self) -> str:
        """The plain id of what it was found at."""
        return plain_id(self.found.about)


def plain_id(about: str) -> str:
    """Return an id without its side."""
    for side in _SIDES:
        about = about.removesuffix(side)
    return about


def gathered(found: Iterable[tuple[str, FitFinding]]) -> tuple[Gathered, ...]:
    """Return what was found, each thing once, in the order in which it was first told.

    Args:
        found: by id of the dry-fit step.
    """
    groups: dict[tuple[str, str], list[tuple[str, FitFinding]]] = {}
    for step, one in found:
        axis = _AXES.get(one.kind, one.kind.value.replace("-", "_"))
        groups.setdefault((plain_id(one.about), axis), []).append((step, one))
    return tuple(_gathered(axis, told) for (_, axis), told in groups.items())


def _gathered(axis: str, told: list[tuple[str, FitFinding]]) -> Gathered:
    step, most = max(told, key=lambda each: each[1].mm)
    notes = dict.fromkeys(one.note for _, one in told if one.note)
    sides = {side for _, one in told for side in _SIDES if one.about.endswith(side)}
    return Gathered(
        step=step,
        found=replace(most, note=" ".join(notes)),
        axis=axis,
        sides=len(sides),
        against=len({one.kind for _, one in told}) > 1,
    )
