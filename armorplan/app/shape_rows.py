"""What the shapes tell, as rows for views: measures with the sides of the build put in."""

from dataclasses import dataclass

from armorplan.geometry.marks import Mark
from armorplan.geometry.pictures import Picture
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeRow:
    """One thing that was looked at: a row, a cover, a bend, a stack, a chain of lames.

    Attributes:
        id: the measure's, the same from reading to reading: ``rows:left_row``.
        topic: what it is about, a heading: ``rows that meet``.
        title: what was looked at, in a maker's words.
        verdict: a few words; ``text`` says it in whole sentences.
        severity: ``note``, ``warning`` or ``error``; empty where all is sound.
        figures: the numbers of ``text``, each with its formula and source.
        findings: what of it has to be known or mended.
        parts, joints: what lights in the diagram, by sided ids.
        steps: the steps that set these joints, make these forms or work these seams.
        picture: what is drawn beside it.
        marks: what is drawn over the diagram: sided parts, spots laid where the diagram shows
            them.
    """

    id: str
    topic: str
    title: str
    verdict: str
    text: str
    severity: str = ""
    figures: tuple[Figure, ...] = ()
    findings: tuple[Finding, ...] = ()
    parts: tuple[str, ...] = ()
    joints: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()
    picture: Picture | None = None
    marks: tuple[Mark, ...] = ()
