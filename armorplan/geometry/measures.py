"""What the shapes tell of one thing: a row, a cover, a bend, a stack, a chain of lames, reach."""

from dataclasses import dataclass
from enum import StrEnum

from armorplan.geometry.marks import Mark
from armorplan.geometry.pictures import Picture
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity, gravest


class Topic(StrEnum):
    """What a measure is about, in the order in which they are shown."""

    ROWS = "rows that meet"
    COVERS = "covers"
    BENDS = "bends"
    POSTS = "fasteners and posts"
    LAMES = "lames"
    REACH = "reach"


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """One thing reckoned from the shapes, sound or not.

    Attributes:
        id: unique in a pattern, and the same from reading to reading: ``rows:left_row``.
        topic: what it is about.
        title: what was looked at, in a maker's words: 'left row: middle petal on left petal'.
        verdict: a few words: 'meet', 'hole 4 is 2.0 mm out', 'rivet flat, then bend'.
        text: whole sentences with the numbers in them.
        figures: the numbers, each with formula and source.
        findings: what of it has to be known or mended; empty where all is sound.
        marks: what is drawn over the parts.
        about: plain ids of parts, holes, joints, seams and forms it speaks of.
        picture: what is drawn beside it, where there is something to see.
        carries: the gravest of other measures that it sums up; they tell the findings themselves.
    """

    id: str
    topic: Topic
    title: str
    verdict: str
    text: str
    figures: tuple[Figure, ...] = ()
    findings: tuple[Finding, ...] = ()
    marks: tuple[Mark, ...] = ()
    about: tuple[str, ...] = ()
    picture: Picture | None = None
    carries: Severity | None = None

    @property
    def severity(self) -> Severity | None:
        """The gravest of its findings and of what it sums up; ``None`` where all is sound."""
        carried = () if self.carries is None else (self.carries,)
        return gravest((*(finding.severity for finding in self.findings), *carried))
