"""The holes of a part: near an edge, near each other, of the wrong size; drawn where they lie."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import islice

from armorplan.geometry.edge_rule import EDGE_DIAMETERS, EDGE_ENOUGH_MM, EDGE_LEAST_MM, EDGE_STACKS
from armorplan.geometry.holes.edges import (
    PITCH_DIAMETERS,
    Close,
    Near,
    near_edges,
    stacks_mm,
    too_close,
)
from armorplan.geometry.holes.findings import MOST_COUNTED, near_edge_finding, too_close_finding
from armorplan.geometry.holes.sizes import Wrong, wrong_holes, wrong_size
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.rows.order import in_one_place
from armorplan.geometry.sources import MEASURED
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Severity
from armorplan.pattern.parts import Hole, Part
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import PRACTICE
from armorplan.workshop.shelf import Fastener, Shelf

EDGES = (
    "edge at least two diameters: FAA AC 43.13-1B, par. 4-57 and 4-58; one and a half stacks, "
    f"{EDGE_LEAST_MM:g} to {EDGE_ENOUGH_MM:g} mm: {PRACTICE}"
)
PITCH = "pitch at least three diameters: NAVEDTRA 14018 (manual title from memory)"


def hole_measures(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    """Yield parts with holes nearer to an edge, a slot or each other than leather bears, with mm.

    Holes that are wider or tighter than their fastener needs are told with them; those that a row
    has in one place are told with the row.
    """
    stacks, wrong, told = stacks_mm(pattern), wrong_holes(pattern, shelf), in_one_place(pattern)
    fasteners = {fastener.id: fastener for fastener in shelf.fasteners}
    slack_mm = shelf.constants.misfit.value
    for part in pattern.parts:
        near = near_edges(part, stacks, slack_mm=slack_mm)
        apart = (c for c in too_close(part) if (c.one.id, c.other.id) not in told)
        close = tuple(islice(apart, MOST_COUNTED + 1))
        sizes = wrong.get(part.id, {})
        if near or close or sizes:
            yield _measure(part, near, close, _Sizes(sizes, fasteners))


class _Sizes:
    """The holes of a part that are of the wrong size, and what they should be."""

    def __init__(self, wrong: Wrong, fasteners: Mapping[str, Fastener]) -> None:
        self.rows = [
            (fasteners[fastener], need_mm, holes) for (fastener, need_mm), holes in wrong.items()
        ]

    def marks(self, part: Part) -> Iterator[Mark]:
        for _, need_mm, holes in self.rows:
            for hole in islice(holes, MOST_COUNTED):
                label = f"{hole.diameter_mm:g} mm, {need_mm:g} mm wanted"
                yield _across(part, hole, label)

    def figures(self) -> Iterator[Figure]:
        for fastener, need_mm, holes in self.rows:
            more = need_mm - fastener.hole_mm
            yield Figure(
                name=f"hole that {fastener.name} needs",
                value=need_mm,
                unit="mm",
                formula=f"{fastener.hole_mm:g} + {more:g} to move = {need_mm:g} mm"
                if more
                else f"{need_mm:g} mm",
                source=PRACTICE if more else fastener.source,
            )
            yield from (
                Figure(
                    name=f"hole '{hole.id}'",
                    value=hole.diameter_mm,
                    unit="mm",
                    formula=MEASURED,
                    source=MEASURED,
                )
                for hole in islice(holes, MOST_COUNTED)
            )


def _measure(part: Part, near: Sequence[Near], close: Sequence[Close], sizes: _Sizes) -> Measure:
    found = [wrong_size(part, *row) for row in sizes.rows]
    if near:
        found.insert(0, near_edge_finding(part, near))
    if close:
        found.append(too_close_finding(part, close))
    words = [
        f"{len(near)} near an edge" * bool(near),
        f"{len(close)} pair{'s' * (len(close) > 1)} too close" * bool(close),
        "wrong size" * bool(sizes.rows),
    ]
    return Measure(
        id=f"holes:{part.id}",
        topic=Topic.POSTS,
        title=f"holes of {part.name}",
        verdict=", ".join(filter(None, words)),
        text=" ".join(finding.text for finding in found),
        figures=(
            *(figure for each in near[:MOST_COUNTED] for figure in _near_figures(each)),
            *(_close_figure(pair) for pair in close),
            *sizes.figures(),
        ),
        findings=tuple(found),
        marks=(
            *(mark for each in near[:MOST_COUNTED] for mark in _near_marks(part, each)),
            *(_close_mark(part, pair) for pair in close),
            *sizes.marks(part),
        ),
        about=tuple(dict.fromkeys(name for finding in found for name in finding.about)),
    )


def _near_marks(part: Part, near: Near) -> Iterator[Mark]:
    yield Mark(
        kind=MarkKind.SPAN,
        part=part.id,
        spots=(near.edge, near.hole.centre),
        label=f"{near.edge_mm:.1f} mm",
        severity=Severity.WARNING,
    )
    yield Mark(
        kind=MarkKind.MOVE,
        part=part.id,
        spots=(near.hole.centre, near.inward),
        label=f"{near.lacks_mm:.1f} mm",
        severity=Severity.WARNING,
    )


def _near_figures(near: Near) -> Iterator[Figure]:
    yield Figure(
        name=f"hole '{near.hole.id}' to the edge",
        value=near.edge_mm,
        unit="mm",
        formula=MEASURED,
        source=MEASURED,
    )
    yield Figure(
        name="the middle of the strap there" if near.in_middle else "least for its size and stack",
        value=near.least_mm,
        unit="mm",
        formula="half the strap's width"
        if near.in_middle
        else f"the largest of {EDGE_DIAMETERS:g} × {near.hole.diameter_mm:g} mm, "
        f"{EDGE_STACKS:g} × the stack of {near.stack_mm:.1f} mm (no more than {EDGE_ENOUGH_MM:g} mm), "
        f"{EDGE_LEAST_MM:g} mm = {near.least_mm:.1f} mm",
        source=EDGES,
    )


def _close_mark(part: Part, pair: Close) -> Mark:
    return Mark(
        kind=MarkKind.SPAN,
        part=part.id,
        spots=(pair.one.centre, pair.other.centre),
        label=f"{pair.apart_mm:.1f} mm",
        severity=Severity.WARNING,
    )


def _close_figure(pair: Close) -> Figure:
    wide_mm = max(pair.one.diameter_mm, pair.other.diameter_mm)
    return Figure(
        name=f"'{pair.one.id}' to '{pair.other.id}'",
        value=pair.apart_mm,
        unit="mm",
        formula=f"{MEASURED}; least {PITCH_DIAMETERS:g} × {wide_mm:g} = {pair.least_mm:.1f} mm",
        source=PITCH,
    )


def _across(part: Part, hole: Hole, label: str) -> Mark:
    (x, y), half_mm = hole.centre, hole.diameter_mm / 2
    return Mark(
        kind=MarkKind.SPAN,
        part=part.id,
        spots=((x - half_mm, y), (x + half_mm, y)),
        label=label,
        severity=Severity.WARNING,
    )
