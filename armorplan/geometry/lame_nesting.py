"""Whether lames nest: the outer one longer by what it lies further out, times the angle it wraps."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations
from math import radians

from armorplan.geometry.areas import rectangle_mm
from armorplan.geometry.articulation import bowed_mm, chord_mm
from armorplan.geometry.lame_links import CIRCLE, Link, PairKey
from armorplan.geometry.lame_seats import Seat
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Part
from armorplan.workshop.constants import Constants

ALIKE = 0.15
"""Lames whose sides differ by no more than this share are mixed up by eye (common practice)."""
_MUCH_MM = 4.0
"""What a swap has to gain, in mm, all pairs together, before it is spoken of."""
_BETTER = 0.5
_SEEN = 0.5
"""From this share of the play that soft leather has on, a bow is seen."""
_MOST_SWAPS, _MOST_BESIDE = 2_000, 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Nest:
    """The spans of two plates on each other.

    Attributes:
        off_mm: by how much the outer span is longer than it has to be; below 0 shorter.
    """

    link: Link
    outer_mm: float
    inner_mm: float

    @property
    def more_mm(self) -> float:
        """By how much the outer span has to be longer."""
        return self.link.apart_mm * radians(self.link.wrap.wrap_deg)

    @property
    def off_mm(self) -> float:
        """By how much the outer span is longer than it has to be; below 0 shorter."""
        return self.outer_mm - self.inner_mm - self.more_mm

    @property
    def bow_mm(self) -> float:
        """How far the plate that is too long stands off between pivots that hold its ends."""
        wrap = self.link.wrap
        fits = self.inner_mm if self.off_mm < 0 else self.outer_mm - self.off_mm
        share = fits / self.link.inner.girth_mm
        held = chord_mm(wrap.radius_mm * share, wrap.wrap_deg)
        if self.off_mm < 0:  # The outer one pulls the ends of the inner one together.
            return bowed_mm(fits, held * (1 + self.off_mm / fits)) - bowed_mm(fits, held)
        return bowed_mm(self.outer_mm, held) - bowed_mm(fits, held)


def nest(link: Link) -> Nest:
    """Return two plates as they are drawn."""
    return Nest(link=link, outer_mm=link.outer.girth_mm, inner_mm=link.inner.girth_mm)


def _flat(links: Mapping[PairKey, Link]) -> dict[PairKey, Link]:
    """Return the links whose spans on the flat leather tell their girth."""
    return {key: link for key, link in links.items() if not link.drawn_in}


@dataclass(frozen=True, slots=True, kw_only=True)
class Swap:
    """Two lames that nest better in each other's places.

    Attributes:
        links: the pairs that either takes part in.
        before_mm, after_mm: what their spans are off, all pairs together.
    """

    small: Part
    large: Part
    links: tuple[PairKey, ...]
    before_mm: float
    after_mm: float


def _seats_by_role(links: Mapping[PairKey, Link]) -> dict[str, dict[bool, Seat]]:
    """Return for each plate its pivots with a plate outside it (True) and inside it (False)."""
    found: dict[str, dict[bool, Seat]] = {}
    for link in links.values():
        found.setdefault(link.inner.part.id, {}).setdefault(True, link.inner)
        found.setdefault(link.outer.part.id, {}).setdefault(False, link.outer)
    return found


def _alike(one: Part, other: Part) -> bool:
    """Tell whether two plates may be mixed up, by size alone."""
    mine, theirs = rectangle_mm(one.outline), rectangle_mm(other.outline)
    pairs = zip(mine, theirs, strict=True)
    return all(abs(a - b) <= ALIKE * max(a, b) for a, b in pairs)


def _span_mm(part: str, outside: bool, seats: Mapping[str, dict[bool, Seat]]) -> float | None:  # noqa: FBT001
    """Return a plate's span with what lies outside or inside it; of one pair that one for both."""
    roles = seats.get(part, {})
    seat = roles.get(outside) or roles.get(not outside)
    return None if seat is None else seat.girth_mm


def _swapped(
    one: str, other: str, flat: Mapping[PairKey, Link], seats: Mapping[str, dict[bool, Seat]]
) -> tuple[tuple[PairKey, ...], float, float] | None:
    """Return the pairs that two plates take part in, and what is off before and after a swap."""
    places = {one: other, other: one}
    keys = tuple(key for key in flat if one in key or other in key)
    before = after = 0.0
    for key in keys:
        link = flat[key]
        outer, inner = (places.get(part, part) for part in link.parts)
        outer_mm, inner_mm = _span_mm(outer, False, seats), _span_mm(inner, True, seats)  # noqa: FBT003
        if outer_mm is None or inner_mm is None:
            return None
        before += abs(nest(link).off_mm)
        after += abs(Nest(link=link, outer_mm=outer_mm, inner_mm=inner_mm).off_mm)
    return keys, before, after


def swaps(links: Mapping[PairKey, Link]) -> Iterator[Swap]:
    """Yield the plates of like size that nest much better in each other's places, the best first.

    A plate is told once.
    """
    flat = _flat(links)
    seats = _seats_by_role(flat)
    parts = {s.part.id: s.part for roles in seats.values() for s in roles.values()}
    found: list[Swap] = []
    for one, other in _near(flat)[:_MOST_SWAPS]:
        if not _alike(parts[one], parts[other]):
            continue
        tried = _swapped(one, other, flat, seats)
        if tried and tried[1] - tried[2] >= _MUCH_MM and tried[2] <= tried[1] * _BETTER:
            spans = {part: _span_mm(part, True, seats) or 0.0 for part in (one, other)}  # noqa: FBT003
            small, large = sorted((one, other), key=lambda part: (spans[part], part))
            keys, before, after = tried
            found.append(
                Swap(
                    small=parts[small],
                    large=parts[large],
                    links=keys,
                    before_mm=before,
                    after_mm=after,
                )
            )
    told: set[str] = set()
    for swap in sorted(found, key=lambda s: (s.after_mm - s.before_mm, s.small.id)):
        if told.isdisjoint((swap.small.id, swap.large.id)):
            told |= {swap.small.id, swap.large.id}
            yield swap


def _near(flat: Mapping[PairKey, Link]) -> list[PairKey]:
    """Return the plates that turn on each other, or both on a third one, two by two."""
    beside: dict[str, list[str]] = defaultdict(list)
    for one, other in sorted(flat):
        beside[one].append(other)
        beside[other].append(one)
    found = set(flat)
    for around in beside.values():
        for one, other in combinations(sorted(around[:_MOST_BESIDE]), 2):
            found.add((one, other))
    return sorted(found)


def _finding(told: Nest, constants: Constants) -> Finding | None:
    bow, play = told.bow_mm, constants.soft_play.value
    if bow <= play * _SEEN:
        return None
    outer, inner = told.link.outer.part.name, told.link.inner.part.name
    short = told.off_mm < 0
    longer, shorter = (inner, outer) if short else (outer, inner)
    return Finding(
        code="lames-do-not-nest",
        severity=Severity.WARNING if bow > play else Severity.NOTE,
        text=f"From pivot to pivot the {outer} is {told.outer_mm - told.inner_mm:.1f} mm longer than the "
        f"{inner} under it; {told.more_mm:.1f} mm are right. The {longer} is {abs(told.off_mm):.1f} mm too long "
        f"for the {shorter} and bows by {bow:.1f} mm.",
        remedy=f"Set the pivots of the {outer} {abs(told.off_mm) / 2:.1f} mm "
        f"{'further out' if short else 'further in'} on either side, or those of the {inner} as far the "
        "other way.",
        about=(*told.link.parts, *told.link.joints),
    )


def _swap_finding(swap: Swap) -> Finding:
    small, large = swap.small.name, swap.large.name
    return Finding(
        code="lames-swapped",
        severity=Severity.WARNING,
        text=f"The {small} and the {large} are much of a size, and in each other's places their spans fit "
        f"{swap.before_mm - swap.after_mm:.1f} mm better: {swap.before_mm:.1f} mm are out now, "
        f"{swap.after_mm:.1f} mm would be.",
        remedy=f"Swap them: each lame lies under a longer one, so that the larger, the {large}, lies nearer "
        "the cop and the smaller beneath it (common practice, no source).",
        about=(swap.small.id, swap.large.id),
    )


def _figures(told: Nest) -> Iterator[Figure]:
    link = told.link
    yield Figure(
        name="outer span has to be longer by",
        value=told.more_mm,
        unit="mm",
        formula=f"d × angle = {link.apart_mm:.2f} × {link.wrap.wrap_deg:.0f}° × π / 180 = {told.more_mm:.1f} mm",
        source=CIRCLE,
    )
    yield Figure(
        name="it is longer by",
        value=told.outer_mm - told.inner_mm,
        unit="mm",
        formula=f"{told.outer_mm:.1f} - {told.inner_mm:.1f} = {told.outer_mm - told.inner_mm:.1f} mm",
        source="measured on the drawing",
    )
    yield Figure(
        name="bow",
        value=told.bow_mm,
        unit="mm",
        formula=f"{abs(told.off_mm):.1f} mm too much in an arc over {link.wrap.wrap_deg:.0f}°: sin h / h = "
        f"chord / arc; bow = (1 - cos h) × arc / 2h, less the same as it should be = {told.bow_mm:.1f} mm",
        source=CIRCLE,
    )


def nesting_measures(
    links: Mapping[PairKey, Link], swapped: tuple[Swap, ...], constants: Constants
) -> Iterator[Measure]:
    """Yield for each two plates that are not dished whether they nest, and lames that are swapped."""
    explained = {key for swap in swapped for key in swap.links}
    for key, link in sorted(_flat(links).items()):
        told = nest(link)
        found = None if key in explained else _finding(told, constants)
        outer, inner = link.outer.part.name, link.inner.part.name
        way = "long" if told.off_mm > 0 else "short"
        yield Measure(
            id=f"lames:nest:{link.outer.part.id}-{link.inner.part.id}",
            topic=Topic.LAMES,
            title=f"{outer} round {inner}",
            verdict="nest"
            if told.bow_mm <= constants.soft_play.value * _SEEN
            else f"bow by {told.bow_mm:.1f} mm",
            text=f"Bent together, the {outer} has to be {told.more_mm:.1f} mm longer from pivot to pivot than the "
            f"{inner}. It is {abs(told.off_mm):.1f} mm too {way}, which bows one of them by {told.bow_mm:.1f} mm.",
            figures=tuple(_figures(told)),
            findings=() if found is None else (found,),
            about=(*link.parts, *link.joints),
        )
    for swap in swapped:
        finding = _swap_finding(swap)
        yield Measure(
            id=f"lames:swap:{swap.small.id}-{swap.large.id}",
            topic=Topic.LAMES,
            title=f"{swap.small.name} and {swap.large.name}",
            verdict=f"swapped: {swap.before_mm - swap.after_mm:.1f} mm better the other way round",
            text=finding.text,
            figures=(
                Figure(
                    name="spans fit better by",
                    value=swap.before_mm - swap.after_mm,
                    unit="mm",
                    formula=f"{swap.before_mm:.1f} - {swap.after_mm:.1f} = {swap.before_mm - swap.after_mm:.1f} mm",
                    source=CIRCLE,
                ),
            ),
            findings=(finding,),
            about=finding.about,
        )
