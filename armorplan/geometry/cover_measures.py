"""What lies over what: one measure for a part and one beneath it, with all that it hides there."""

from collections.abc import Iterator, Sequence

from armorplan.geometry.cover_areas import COVERED_PCT, Hidden
from armorplan.geometry.covering import Covering, Head, coverings
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.overlaps import overlap_measures
from armorplan.geometry.told import listed, quoted
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import PRACTICE
from armorplan.workshop.shelf import Shelf

COMPUTED = "computed from the outlines"
_EXACT_MM = 0.5
"""Up to here punch and leather make up a difference."""
_LEAST_HIDDEN = f"{COVERED_PCT:g} %"


def cover_measures(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    """Yield each part over each part that it lies on, then parts of which nothing tells the outer.

    Of parts further down only those are told of which something is hidden.
    """
    found = tuple(coverings(pattern, shelf))
    for laid in found:
        if laid.joints or laid.holes or _hidden(laid):
            yield _measure(pattern, laid)
    yield from _declared(pattern, found)
    yield from overlap_measures(pattern, found)


def _declared(pattern: Pattern, found: Sequence[Covering]) -> Iterator[Measure]:
    """Yield what parts hide by the maker's word alone."""
    shown = {(head.over.cover, head.over.joint) for laid in found for head in _hidden(laid)}
    for part in pattern.parts:
        hides = [joint for joint in dict.fromkeys(part.hides) if (part.id, joint) not in shown]
        if hides:
            heads = "the head" if len(hides) == 1 else "the heads"
            yield Measure(
                id=f"covers:{part.id}",
                topic=Topic.COVERS,
                title=f"{part.name}, as the pattern declares",
                verdict=f"hides {_count(len(hides), 'head')}",
                text=f"{part.name[:1].upper()}{part.name[1:]} hides {heads} of "
                f"{listed(quoted(hides))} because the pattern says so (hides); the shapes do not "
                "show it.",
                about=(part.id, *hides),
            )


def _hidden(laid: Covering) -> list[Head]:
    return [head for head in laid.heads if head.outside]


def _measure(pattern: Pattern, laid: Covering) -> Measure:
    heads, cover, beneath = _hidden(laid), pattern.part(laid.cover), pattern.part(laid.beneath)
    names = [*(head.over.joint for head in heads), *(hole.name for hole in laid.holes)]
    return Measure(
        id=f"covers:{cover.id}:{beneath.id}",
        topic=Topic.COVERS,
        title=f"{cover.name} over {beneath.name}",
        verdict=_verdict(heads, laid.holes),
        text=_text(pattern, laid, heads),
        figures=tuple(_figures(laid, heads)),
        findings=tuple(_hole_findings(pattern, laid)),
        marks=tuple(_marks(laid, heads, cover.name)),
        about=(cover.id, beneath.id, *dict.fromkeys(names)),
    )


def _verdict(heads: Sequence[Head], holes: Sequence[Hidden]) -> str:
    told = [_count(len(heads), "head"), _count(len(holes), "open hole")]
    words = " and ".join(filter(None, told))
    return f"hides {words}" if words else "hides nothing"


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'s' * (number > 1)}" if number else ""


def _text(pattern: Pattern, laid: Covering, heads: Sequence[Head]) -> str:
    cover, beneath = pattern.part(laid.cover).name, pattern.part(laid.beneath).name
    held = f"held by {_count(len(laid.joints), 'joint')}" if laid.joints else "with a part between"
    lies = f"{cover[:1].upper()}{cover[1:]} lies over {beneath}, {held}. "
    if laid.off_mm > _EXACT_MM:
        lies += (
            f"Laid flat, the holes miss by up to {laid.off_mm:.1f} mm, so that only what lies "
            "further in than that is counted as hidden. "
        )
    if not heads:
        return f"{lies}It hides no fastener's head."
    words = [f"'{each.over.joint}' {each.over.covered_pct:.0f} %" for each in heads]
    if len(heads) == 1:
        return f"{lies}It hides the head of {listed(words)}, which is set before it is fixed."
    return f"{lies}It hides the heads of {listed(words)}, which are set before it is fixed."


def _figures(laid: Covering, heads: Sequence[Head]) -> Iterator[Figure]:
    yield Figure(
        name="what the holes that place it miss at most",
        value=laid.off_mm,
        unit="mm",
        formula="least squares over the holes of both parts; the outline is drawn in by as much",
        source="Kabsch 1976, in the plane",
    )
    for what, name, pct in (
        *(("head", head.over.joint, head.over.covered_pct) for head in heads),
        *(("hole", hole.name, hole.covered_pct) for hole in laid.holes),
    ):
        yield Figure(
            name=f"{what} of '{name}' covered" if what == "head" else f"hole '{name}' covered",
            value=pct,
            unit="%",
            formula=f"area under the outline / area of the {what} = {pct:.1f} %; told above "
            f"{_LEAST_HIDDEN}",
            source=f"{COMPUTED}; {_LEAST_HIDDEN}: {PRACTICE}",
        )


def _hole_findings(pattern: Pattern, laid: Covering) -> Iterator[Finding]:
    """Yield a note for the holes that nothing fills yet, or a lace, and that a cover hides."""
    if not laid.holes:
        return
    cover, beneath = pattern.part(laid.cover).name, pattern.part(laid.beneath).name
    one = len(laid.holes) == 1
    words = [f"'{hole.name}' {hole.covered_pct:.0f} %" for hole in laid.holes]
    what, them = ("the open hole", "it") if one else ("open holes", "them")
    yield Finding(
        code="hole-covered",
        severity=Severity.NOTE,
        text=f"{cover[:1].upper()}{cover[1:]} hides {what} {listed(words)} in {beneath}: once it "
        f"is fixed, nobody reaches {them}.",
        remedy=f"Move {them} out from under {cover}, draw {'one' if one else 'them'} through "
        f"{cover} there too, or leave {them} out if nothing goes through.",
        about=(laid.cover, laid.beneath, *(hole.name for hole in laid.holes)),
    )


def _marks(laid: Covering, heads: Sequence[Head], name: str) -> Iterator[Mark]:
    """Yield the outline of the cover with its name, and what it hides."""
    for ring in laid.ghost:
        yield Mark(kind=MarkKind.GHOST, part=laid.beneath, spots=ring, label=name)
    for head in heads:
        for ring in head.areas:
            label = f"{head.over.covered_pct:.0f} %"
            yield Mark(kind=MarkKind.ZONE, part=laid.beneath, spots=ring, label=label)
    for hole in laid.holes:
        for ring in hole.areas:
            label, told = f"{hole.covered_pct:.0f} %", Severity.NOTE
            yield Mark(
                kind=MarkKind.ZONE, part=laid.beneath, spots=ring, label=label, severity=told
            )
