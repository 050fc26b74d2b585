"""Parts that overlap on a third one while nothing tells which of them lies outside."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from armorplan.geometry.covers.covering import Covering, Head
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.sources import COMPUTED
from armorplan.geometry.told import begun, listed, quoted
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern

_Two = tuple[str, str]


class _Open(NamedTuple):
    """A head that one of two parts would hide, where that one lies on what both are fixed to."""

    laid: Covering
    head: Head


def overlap_measures(pattern: Pattern, found: Iterable[Covering]) -> Iterator[Measure]:
    """Yield each two parts of which one would hide heads of the other, if it lay outside.

    A part that hides a joint of the other by declaration (``Part.hides``) has told it.
    """
    place = {part.id: at for at, part in enumerate(pattern.parts)}
    by_two: dict[_Two, list[_Open]] = defaultdict(list)
    for laid in found:
        for head in laid.heads:
            if head.outside is None:
                one, other = sorted((laid.cover, head.over.lies_on), key=place.__getitem__)
                by_two[one, other].append(_Open(laid, head))
    for two, heads in by_two.items():
        if not _declared(pattern, two):
            yield _measure(pattern, two, heads)


def _declared(pattern: Pattern, two: _Two) -> bool:
    one, other = two
    return any(
        over in pattern.stack_parts(joint)
        for part, over in ((one, other), (other, one))
        for joint in pattern.part(part).hides
    )


def _measure(pattern: Pattern, two: _Two, heads: Sequence[_Open]) -> Measure:
    one, other = (pattern.part(part).name for part in two)
    beneath = dict.fromkeys(each.laid.beneath for each in heads)
    on = listed([pattern.part(part).name for part in beneath])
    finding = _open(pattern, two, heads)
    return Measure(
        id=f"covers:{two[0]}+{two[1]}",
        topic=Topic.COVERS,
        title=f"{one} and {other} on {on}",
        verdict="which lies outside?",
        text=finding.text,
        figures=tuple(
            Figure(
                name=f"head of '{head.over.joint}' under {pattern.part(laid.cover).name}",
                value=head.over.covered_pct,
                unit="%",
                formula=f"area under the outline / area of the head = {head.over.covered_pct:.1f} %",
                source=COMPUTED,
            )
            for laid, head in heads
        ),
        findings=(finding,),
        marks=tuple(_marks(pattern, heads)),
        about=(*finding.about, *beneath),
    )


def _marks(pattern: Pattern, heads: Sequence[_Open]) -> Iterator[Mark]:
    for laid in dict.fromkeys(each.laid for each in heads):
        for ring in laid.ghost:
            yield Mark(
                kind=MarkKind.GHOST,
                part=laid.beneath,
                spots=ring,
                label=pattern.part(laid.cover).name,
                severity=Severity.NOTE,
            )
    for laid, head in heads:
        for ring in head.areas:
            yield Mark(
                kind=MarkKind.ZONE,
                part=laid.beneath,
                spots=ring,
                label=f"{head.over.covered_pct:.0f} %",
                severity=Severity.NOTE,
            )


def _open(pattern: Pattern, two: _Two, heads: Sequence[_Open]) -> Finding:
    one, other = (pattern.part(part).name for part in two)
    joints = dict.fromkeys(each.head.over.joint for each in heads)
    return Finding(
        code="which-lies-outside",
        severity=Severity.NOTE,
        text=(
            f"{begun(one)} and {other} overlap at the "
            f"{'head' if len(joints) == 1 else 'heads'} of {listed(quoted(joints))}, and no stack "
            "tells which of them lies outside."
        ),
        remedy=f'Say lies_over = ["{two[1]}"] under [parts.{two[0]}] if {one} lies outside, or '
        f'lies_over = ["{two[0]}"] under [parts.{two[1]}] if {other} does: what it hides is then '
        "set before it.",
        about=(*two, *joints),
    )
