"""From loose lines to shapes: scaled, cleared of doubles, joined, nested, named."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from armorplan.geometry.brought.doubles import undoubled
from armorplan.geometry.brought.joining import joined
from armorplan.geometry.brought.kerf import offset_pairs, told_of
from armorplan.geometry.brought.kinds import judged
from armorplan.geometry.brought.letters import letters_of
from armorplan.geometry.brought.lines import Drawn, rounded, scaled
from armorplan.geometry.brought.model import (
    Lettering,
    LooseDrawing,
    Shape,
    ShapeKind,
    SortedOut,
)
from armorplan.geometry.brought.naming import names_of
from armorplan.geometry.brought.nesting import nested
from armorplan.geometry.brought.overlaps import trimmed
from armorplan.geometry.brought.saying import CUTTING, as_said
from armorplan.geometry.brought.told import joining_findings, nesting_findings
from armorplan.kernel.findings import Finding
from armorplan.kernel.stopping import ShouldStop, never

TOLERANCE_MM = 0.2


def sorted_out(
    drawing: LooseDrawing,
    *,
    mm_each: float,
    tolerance_mm: float = TOLERANCE_MM,
    should_stop: ShouldStop = never,
) -> SortedOut:
    """Return what the lines of a drawing are.

    Args:
        drawing: the loose lines.
        mm_each: what one unit of the drawing is.
        tolerance_mm: how far apart ends may lie that are joined.
        should_stop: asked often.

    Raises:
        StoppedError: the work was no longer wanted.
        UnreadableError: too many lines lie in, on or close to one another.
    """
    lines = rounded(scaled(drawing, mm_each, should_stop), should_stop)
    lines, doubled = undoubled(lines, should_stop)
    lines, cut_back = trimmed(lines, should_stop)
    ends = joined(lines, tolerance_mm, should_stop)
    lines, again = undoubled(rounded(ends.lines, should_stop), should_stop)
    texts = [
        replace(
            text,
            at=(text.at[0] * mm_each, text.at[1] * mm_each),
            height=text.height * mm_each,
        )
        for text in drawing.lettering
    ]
    shapes, findings = _shapes(lines, {}, texts, should_stop)
    return SortedOut(
        shapes=shapes,
        joined=(ends.count, ends.widest_mm),
        doubled=doubled + cut_back + again,
        findings=(*joining_findings(lines, ends, tolerance_mm), *findings),
    )


def with_kinds(
    found: SortedOut, kinds: Mapping[str, ShapeKind], *, should_stop: ShouldStop = never
) -> SortedOut:
    """Return the shapes with some taken for what a person says; what hangs on them follows.

    Args:
        found: what was found so far, with what was said before.
        kinds: what shapes are, by key. An open line that is said to cut is closed by a straight
            line; one of two corners encloses nothing and stays what it is. What is said to be a
            hole and is not round becomes the circle of the same area.
        should_stop: asked often.
    """
    said = {
        n: kinds.get(shape.key, shape.kind)
        for n, shape in enumerate(found.shapes)
        if shape.said or shape.key in kinds
    }
    lines = [
        as_said(_drawn(order, shape), said.get(order)) for order, shape in enumerate(found.shapes)
    ]
    said = {n: kind for n, kind in said.items() if lines[n].closed or kind not in CUTTING}
    shapes, findings = _shapes(lines, said, (), should_stop)
    former = tuple(f for f in found.findings if f.code in _OF_JOINING)
    return replace(found, shapes=shapes, findings=(*former, *findings))


_OF_JOINING = frozenset({"open-outline", "ends-meet"})


def _drawn(order: int, shape: Shape) -> Drawn:
    return Drawn(
        order=order,
        strokes=shape.strokes,
        points=shape.points,
        closed=shape.closed,
        circle=shape.circle,
        layer=shape.layer,
        colour=shape.colour,
        name=shape.name,
    )


def _shapes(
    lines: Sequence[Drawn],
    said: Mapping[int, ShapeKind],
    texts: Sequence[Lettering],
    should_stop: ShouldStop,
) -> tuple[tuple[Shape, ...], tuple[Finding, ...]]:
    nest = nested(lines, should_stop)
    letters = letters_of(lines, nest, should_stop)
    offsets = offset_pairs(lines, nest, letters, should_stop)
    beside = {
        n: told_of(apart, in_part=other in nest.around[n])
        for n, (other, apart) in offsets.items()
        if n not in said
    }
    verdicts = judged(lines, nest, said, beside=beside, letters=letters, should_stop=should_stop)
    parts = [n for n, each in enumerate(verdicts) if each.kind is ShapeKind.PART]
    names = names_of(lines, nest, parts, texts, should_stop)
    shapes = tuple(
        Shape(
            key=line.key,
            kind=verdict.kind,
            strokes=line.strokes,
            points=line.points,
            closed=line.closed,
            circle=line.circle,
            inside="" if verdict.inside is None else lines[verdict.inside].key,
            layer=line.layer,
            colour=line.colour,
            name=names.get(n, ""),
            why=verdict.why,
            said=n in said,
        )
        for n, (line, verdict) in enumerate(zip(lines, verdicts, strict=True))
    )
    return shapes, tuple(nesting_findings(shapes, nest, beside, offsets))
