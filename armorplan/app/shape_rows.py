"""What the shapes tell, as rows for views: measures with the sides of the build put in."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import partial

from armorplan.app.derived import Derived
from armorplan.app.spoken_of import SpokenOf
from armorplan.geometry.measures import Measure
from armorplan.geometry.pictures import Picture
from armorplan.geometry.reach.firm_asked import FIRM, firm_measure
from armorplan.geometry.ways_in import Getting, ReachPicture
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
        picture: what is drawn beside it; its marks over the parts are the diagram's.
        later: what takes a while returns the row with it; it may be called in another thread.
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
    later: "Callable[[], ShapeRow] | None" = field(default=None, repr=False)

    @property
    def sets_order(self) -> bool:
        """Whether a joint it speaks of is got at now, and no more once others are set."""
        if not isinstance(self.picture, ReachPicture):
            return False
        first, *later = (section.getting for section in self.picture.sections)
        return first is not Getting.CANNOT and Getting.CANNOT in later


def shape_rows(derived: Derived, spoken: SpokenOf) -> tuple[ShapeRow, ...]:
    """Return a row for each measure of a build, by topic; what it is about on all sides."""
    rows = tuple(_row(measure, spoken) for measure in derived.shapes)
    later = partial(_firm_row, derived, spoken)
    return tuple(replace(row, later=later) if row.id == FIRM else row for row in rows)


def _firm_row(derived: Derived, spoken: SpokenOf) -> ShapeRow:
    return _row(firm_measure(derived.pattern, derived.shelf), spoken)


def _row(measure: Measure, spoken: SpokenOf) -> ShapeRow:
    lit = spoken.light(measure.about)
    return ShapeRow(
        id=measure.id,
        topic=measure.topic.value,
        title=measure.title,
        verdict=measure.verdict,
        text=measure.text,
        severity=measure.severity.value if measure.severity else "",
        figures=measure.figures,
        findings=measure.findings,
        parts=lit.parts,
        joints=lit.joints,
        steps=lit.steps,
        picture=measure.picture,
    )
