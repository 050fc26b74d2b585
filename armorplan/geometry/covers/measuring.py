"""What lies over what: one measure for a part and one beneath it, with all that it hides there."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from armorplan.geometry.covers.areas import COVERED_PCT, Hidden
from armorplan.geometry.covers.covering import Covering, Head, coverings
from armorplan.geometry.covers.overlaps import overlap_measures
from armorplan.geometry.covers.places import WELL_MM, told_inside
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.sources import COMPUTED, KABSCH
from armorplan.geometry.told import begun, listed, quoted
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import PRACTICE
from armorplan.workshop.shelf import Shelf

_LEAST_HIDDEN = f"{COVERED_PCT:g} %"


def cover_measures(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    """Yield each part over each part that it lies on, then parts of which nothing tells the outer.

    Of parts further down only those are told of which something is hidden that no part in between
    hides. Parts that hide nothing are told in one line for each piece.
    """
    found = tuple(coverings(pattern, shelf))
    nearest = _Nearest(pattern, found)
    idle: list[Covering] = []
    for laid in found:
        if laid.holes or nearest.heads(laid):
            yield _measure(pattern, laid, nearest.heads(laid))
        elif laid.joints:
            idle.append(laid)
    yield from _hiding_nothing(pattern, idle)
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
                text=f"{begun(part.name)} hides {heads} of "
                f"{listed(quoted(hides))} because the pattern says so (hides); the shapes do not "
                "show it.",
                about=(part.id, *hides),
            )


def _hidden(laid: Covering) -> list[Head]:
    return [head for head in laid.heads if head.outside]


class _Nearest:
    """Which heads a cover hides that no part between it and them hides as much of."""

    def __init__(self, pattern: Pattern, found: Sequence[Covering]) -> None:
        self._inside = told_inside(pattern)
        self._pct: dict[str, dict[str, float]] = defaultdict(dict)
        for laid in found:
            for head in _hidden(laid):
                self._pct[head.over.joint][laid.cover] = head.over.covered_pct

    def heads(self, laid: Covering) -> list[Head]:
        """Return what a cover hides first."""
        return [head for head in _hidden(laid) if not self._is_hidden_already(head)]

    def _is_hidden_already(self, head: Head) -> bool:
        cover, joint, covered_pct, _ = head.over
        inside = self._inside(cover)
        return any(
            other in inside and pct >= covered_pct and cover not in self._inside(other)
            for other, pct in self._pct[joint].items()
        )


def _hiding_nothing(pattern: Pattern, idle: Sequence[Covering]) -> Iterator[Measure]:
    """Yield a line for the parts of each piece that lie over others and hide nothing."""
    by_piece: dict[str, list[Covering]] = defaultdict(list)
    for laid in idle:
        by_piece[pattern.part(laid.cover).piece].append(laid)
    for piece, laid_ in by_piece.items():
        covers = dict.fromkeys(laid.cover for laid in laid_)
        words = [
            f"{pattern.part(laid.cover).name} over {pattern.part(laid.beneath).name}"
            for laid in laid_
        ]
        they = "they lie, they hide" if len(laid_) > 1 else "it lies, it hides"
        yield Measure(
            id=f"covers:nothing:{piece}",
            topic=Topic.COVERS,
            title=f"{_piece_name(pattern, piece)}: parts that hide nothing",
            verdict="hide nothing" if len(covers) > 1 else "hides nothing",
            text=f"Where {they} no head and no open hole that is still to be reached: "
            f"{'; '.join(words)}.",
            about=tuple(covers),
        )


def _piece_name(pattern: Pattern, piece: str) -> str:
    return next((each.name for each in pattern.pieces if each.id == piece), piece)


def _measure(pattern: Pattern, laid: Covering, heads: Sequence[Head]) -> Measure:
    cover, beneath = pattern.part(laid.cover), pattern.part(laid.beneath)
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
    lies = f"{begun(cover)} lies over {beneath}, {held}. "
    if laid.off_mm > WELL_MM:
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
    if laid.off_mm > WELL_MM:
        yield Figure(
            name="so far the holes of the two miss each other, laid flat",
            value=laid.off_mm,
            unit="mm",
            formula="both parts laid on each other so that their holes miss as little as can be; only "
            "what lies further in from the edge than that counts as hidden",
            source=KABSCH,
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
        text=f"{begun(cover)} hides {what} {listed(words)} in {beneath}: once it "
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
