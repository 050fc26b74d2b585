"""A pattern fitted to a wearer: its files, and what changed, as rows for a person. Lengths in mm."""

from dataclasses import dataclass

from armorplan.kernel.findings import Finding
from armorplan.pattern.parts import Hole, Point, Ring


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureRow:
    """One measure: what the pattern was drawn for, and the wearer's.

    Attributes:
        taken: where it is taken, as a sentence.
        is_girth: it goes round; what stands beside it is then over the padding.
        parts: names of what follows it.
        drawn_mm: what the pattern was drawn for.
        bare_mm: on the wearer's body; ``None``: not taken bare.
        over_mm: as the armour meets it; ``None``: not taken at all.
        why: how that was reckoned; empty where it was taken so.
        percentile: of the bare value among adults of the wearer's sex; ``None``: not known.
        question: what to ask where the value is rare; empty where it is not.
    """

    id: str
    name: str
    taken: str
    is_girth: bool
    parts: tuple[str, ...]
    drawn_mm: float
    bare_mm: float | None
    over_mm: float | None
    why: str = ""
    percentile: float | None = None
    question: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SizedPart:
    """A part before and after.

    Attributes:
        before_mm, after_mm: height along up, and width across.
        before, after: its outlines about one middle.
        holes_before, holes_after: its holes, in the same place.
    """

    id: str
    name: str
    before_mm: Point
    after_mm: Point
    before: Ring
    after: Ring
    holes_before: tuple[Hole, ...] = ()
    holes_after: tuple[Hole, ...] = ()

    @property
    def gone(self) -> tuple[Hole, ...]:
        """Holes that it has no more."""
        return _without(self.holes_before, self.holes_after)

    @property
    def new(self) -> tuple[Hole, ...]:
        """Holes that it had not."""
        return _without(self.holes_after, self.holes_before)


def _without(holes: tuple[Hole, ...], others: tuple[Hole, ...]) -> tuple[Hole, ...]:
    ids = {hole.id for hole in others}
    return tuple(hole for hole in holes if hole.id not in ids)


@dataclass(frozen=True, slots=True, kw_only=True)
class SizedRow:
    """A row of joints before and after; spacings are the least and the most."""

    id: str
    name: str
    holes_before: int
    holes_after: int
    before_mm: Point
    after_mm: Point
    residual_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SizedPlace:
    """The girths that a strap closes round, before and after."""

    id: str
    name: str
    before_mm: Point
    after_mm: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """A pattern fitted to a wearer.

    Attributes:
        slug: a name for its folder.
        name: what it is called.
        texts: its files by name.
        findings: what to ask, to know and to look at, the gravest first.
    """

    slug: str
    name: str
    wearer: str
    side: str
    texts: tuple[tuple[str, str], ...]
    measures: tuple[MeasureRow, ...]
    parts: tuple[SizedPart, ...]
    rows: tuple[SizedRow, ...]
    places: tuple[SizedPlace, ...]
    findings: tuple[Finding, ...]
