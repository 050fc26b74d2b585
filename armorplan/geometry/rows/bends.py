"""What the rows of two layers may differ by because they are bent: the outer one is longer."""

from collections.abc import Mapping
from math import dist, inf
from statistics import median
from typing import NamedTuple

from armorplan.geometry.bends.arcs import Bend, each_made_for_bent
from armorplan.geometry.bends.lines import across_axis, crosses
from armorplan.geometry.bends.slides import LayerSlide
from armorplan.geometry.rows.bundles import Run
from armorplan.pattern.joining import Form, FormKind
from armorplan.pattern.parts import Part, Point
from armorplan.pattern.pattern import Pattern

Slides = Mapping[tuple[str, str], LayerSlide]
"""The slide of two layers, by the ids of the outer and the inner part."""


class Wider(NamedTuple):
    """How much wider the outer row is because of a bend.

    Attributes:
        by_mm: for each spacing how much longer it is on the first, outer row.
        most_mm: for each spacing the most that the bend asks for; infinity where it is not known.
        longer_mm: by how much the whole row is longer as drawn, across the bend where that tells.
        asked_mm: what the bend asks of the whole row.
        is_made_for: whether the row is made for the bent state, as the bends tell it.
    """

    by_mm: tuple[float, ...]
    most_mm: tuple[float, ...]
    longer_mm: float
    asked_mm: float
    is_made_for: bool

    @property
    def counts(self) -> bool:
        """Whether any of the difference between the rows is there for the bend."""
        return sum(self.by_mm) != 0

    @property
    def is_part(self) -> bool:
        """Whether the outer row is longer by a part of what the bend asks for, and made for neither."""
        return self.counts and self.known and not self.is_made_for

    @property
    def known(self) -> bool:
        """Whether the radius of the bend is known all along the row."""
        return all(each < inf for each in self.most_mm)


def wider(pattern: Pattern, run: Run, slides: Slides, *, sewn: bool, misfit_mm: float) -> Wider:
    """Return how much of the difference between two rows is there because they are bent.

    Two arcs about one centre differ by the distance of the layers' middles times the angle. A row
    made for the bent state is longer by that all along; of another an even share of it is taken off.
    """
    on_first, on_second = run.spans
    longer = tuple(a - b for a, b in zip(on_first, on_second, strict=True))
    most = tuple(_most_mm(pattern, run, at, slides) for at in range(len(longer)))
    whole = _whole(run, slides, longer, most)
    if all(each < inf for each in most):
        shares = [by / each for by, each in zip(longer, most, strict=True) if each > 0]
        share = max(median(shares), 0.0) if shares else 0.0
        by_mm = tuple((share if whole.made else min(share, 1.0)) * each for each in most)
        return Wider(by_mm if sum(by_mm) > misfit_mm else (0.0,) * len(most), most, *whole)
    # The radius is not known: an evenly longer outer row may be right, and is not judged.
    even = median(longer)
    if sewn and (len(longer) == 1 or even < 0):
        even = 0.0
    return Wider((even,) * len(longer), most, *whole)


class _Whole(NamedTuple):
    """How much longer an outer row is, what its bend asks for, and whether it is made for it."""

    longer_mm: float
    asked_mm: float
    made: bool


def _whole(run: Run, slides: Slides, longer: tuple[float, ...], most: tuple[float, ...]) -> _Whole:
    """Return what is told of a whole row: of all joints through two layers it is the bends' own word."""
    slide = slides.get((run.first.part, run.second.part))
    if slide is None or slide.total_mm is None or set(slide.joints) != set(run.joints):
        known = all(each < inf for each in most)
        return _Whole(sum(longer), sum(most), known and each_made_for_bent(longer, most))
    return _Whole(slide.wider_mm, slide.total_mm, slide.wider)


def _most_mm(pattern: Pattern, run: Run, at: int, slides: Slides) -> float:
    """Return what the outer of two layers is longer by across a bend; infinity: it is not known."""
    one, other = run.joints[at], run.joints[at + 1]
    slide = slides.get((run.first.part, run.second.part))
    if slide is not None and one in slide.joints and other in slide.joints:
        between = slide.between_mm(one, other)
        return inf if between is None else between
    return max(
        bend_asks_mm(
            pattern, one, pattern.part(row.part), (holes[at].centre, holes[at + 1].centre)
        )
        for row, holes in ((run.first, run.on_first), (run.second, run.on_second))
    )


def shape(pattern: Pattern, part_id: str) -> tuple[Form | None, bool]:
    """Return the tightest bend of a part that says its radius, and whether it is shaped at all.

    A fold is left out: it lies along one line, and rivets lie beside it.
    """
    shaped = [f for f in pattern.forms if part_id in f.parts and f.kind is not FormKind.FOLD]
    known = [(form.radius_mm, form) for form in shaped if form.radius_mm]
    return (min(known, key=lambda each: each[0])[1] if known else None), bool(shaped)


def bend_asks_mm(pattern: Pattern, joint_id: str, part: Part, spots: tuple[Point, Point]) -> float:
    """Return what an outer layer is longer by between two spots of a bent part, in mm.

    For layers of which the bends tell nothing together. 0 where the part is not shaped, infinity
    where its radius is not known; the whole way counts where the axis does not lie over the part.
    """
    form, shaped = shape(pattern, part.id)
    if form is None:
        return inf if shaped else 0.0
    through = [pattern.part(each).thickness_mm for each in pattern.stack_parts(joint_id)]
    lies_here = form.axis is not None and crosses(form.axis, part)
    across = across_axis(form.axis) if form.axis is not None and lies_here else None
    bend = Bend(
        apart_mm=sum(through) - (through[0] + through[-1]) / 2,
        radius_mm=form.radius_mm,
        angle_deg=form.angle_deg,
        axis_mm=across.axis_mm if across else None,
    )
    ends = sorted(map(across.place_mm, spots)) if across else (0.0, dist(*spots))
    slide_mm = bend.slide_mm(*ends)
    return inf if slide_mm is None else slide_mm
