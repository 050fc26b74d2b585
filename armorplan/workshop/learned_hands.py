"""What a shop has learned of its own hands, on the shelf that minutes are reckoned from."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from armorplan.workshop.shelf import Duration, Shelf, TreatmentEntry, TreatmentKind

_KIND_OF = MappingProxyType(
    {
        TreatmentKind.CASING: "case",
        TreatmentKind.DYE: "dye",
        TreatmentKind.OIL: "oil",
        TreatmentKind.FINISH: "finish",
    }
)
"""Steps whose hands-on minutes stand with the treatment, by the treatment's kind."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HandPace:
    """How long a kind of step takes in this shop, as a multiple of what the catalogue says.

    Attributes:
        kind: of step, by its name in the durations.
        factor: the median multiple.
        spread: standard deviation of the logarithm of one piece of work's multiple.
        observations: how many pieces of work taught it.
    """

    kind: str
    factor: float
    spread: float
    observations: int


def with_hands(shelf: Shelf, hands: Sequence[HandPace]) -> Shelf:
    """Return a shelf with the minutes that hands take in this shop, of durations and treatments."""
    factors = {pace.kind: pace.factor for pace in hands}
    if not factors:
        return shelf
    return replace(
        shelf,
        durations=tuple(_duration(entry, factors) for entry in shelf.durations),
        treatments=tuple(_treatment(entry, factors) for entry in shelf.treatments),
    )


def hand_factor(hands: Sequence[HandPace], kind: str) -> float:
    """Return the multiple that the minutes of a kind of step were reckoned with."""
    return next((pace.factor for pace in hands if pace.kind == kind), 1.0)


def hands_kind(entry: TreatmentEntry) -> str:
    """Return the kind of step whose minutes stand with a treatment; empty where it is none's."""
    return _KIND_OF.get(entry.kind, "")


def _duration(entry: Duration, factors: Mapping[str, float]) -> Duration:
    factor = factors.get(entry.kind, 1.0)
    return replace(
        entry,
        fixed_min=factor * entry.fixed_min,
        per_part_min=factor * entry.per_part_min,
        per_hole_min=factor * entry.per_hole_min,
        per_cm_min=factor * entry.per_cm_min,
    )


def _treatment(entry: TreatmentEntry, factors: Mapping[str, float]) -> TreatmentEntry:
    factor = factors.get(hands_kind(entry), 1.0)
    dip_min = entry.dip_per_part_min
    return replace(
        entry,
        set_up_min=factor * entry.set_up_min,
        per_part_min=factor * entry.per_part_min,
        dip_per_part_min=None if dip_min is None else factor * dip_min,
    )
