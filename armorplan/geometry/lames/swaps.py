"""Lames of like size in each other's places: told from how much better they would nest."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

from armorplan.geometry.areas import rectangle_mm
from armorplan.geometry.lames.links import CIRCLE, Link, PairKey
from armorplan.geometry.lames.nests import Nest, flat, nest
from armorplan.geometry.lames.seats import Seat
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Part, PartKind

ALIKE = 0.15
"""Lames whose sides differ by no more than this share are mixed up by eye (common practice)."""
_MUCH_MM = 4.0
"""What a swap has to gain, in mm, all pairs together, before it is spoken of."""
_BETTER = 0.5
_MOST_SWAPS, _MOST_BESIDE = 2_000, 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Swap:
    """Two lames that nest better in each other's places.

    Attributes:
        links: the pairs that either takes part in.
        before_mm, after_mm: what their spans are off, all pairs together.
        outermost: the plate that the lames lie under, all of them.
    """

    small: Part
    large: Part
    links: tuple[PairKey, ...]
    before_mm: float
    after_mm: float
    outermost: Part

    @property
    def parts(self) -> tuple[str, str]:
        """Ids of the two lames."""
        return self.small.id, self.large.id

    @property
    def gain_mm(self) -> float:
        """By how much all spans together would fit better, in mm."""
        return self.before_mm - self.after_mm


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
    one: str, other: str, level: Mapping[PairKey, Link], seats: Mapping[str, dict[bool, Seat]]
) -> tuple[tuple[PairKey, ...], float, float] | None:
    """Return the pairs that two plates take part in, and what is off before and after a swap."""
    places = {one: other, other: one}
    keys = tuple(key for key in level if one in key or other in key)
    before = after = 0.0
    for key in keys:
        link = level[key]
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
    level = flat(links)
    seats = _seats_by_role(level)
    parts = {s.part.id: s.part for roles in seats.values() for s in roles.values()}
    found: list[Swap] = []
    for one, other in _near(level)[:_MOST_SWAPS]:
        if not _alike(parts[one], parts[other]):
            continue
        tried = _swapped(one, other, level, seats)
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
                    outermost=_outermost(parts[one], links),
                )
            )
    told: set[str] = set()
    for swap in sorted(found, key=lambda s: (s.after_mm - s.before_mm, s.small.id)):
        if told.isdisjoint(swap.parts):
            told |= set(swap.parts)
            yield swap


def _near(level: Mapping[PairKey, Link]) -> list[PairKey]:
    """Return the plates that turn on each other, or both on a third one, two by two."""
    beside: dict[str, list[str]] = defaultdict(list)
    for one, other in sorted(level):
        beside[one].append(other)
        beside[other].append(one)
    found = set(level)
    for around in beside.values():
        for one, other in combinations(sorted(around[:_MOST_BESIDE]), 2):
            found.add((one, other))
    return sorted(found)


def _outermost(part: Part, links: Mapping[PairKey, Link]) -> Part:
    """Return the plate at the outer end of the plates that lie over a lame."""
    outside = {link.inner.part.id: link.outer.part for link in links.values()}
    found, passed = part, {part.id}
    while (further := outside.get(found.id)) is not None and further.id not in passed:
        found = further
        passed.add(found.id)
    return found


def _place(swap: Swap) -> str:
    """Return where the larger of two swapped lames belongs, in words."""
    if swap.outermost.id in swap.parts:
        return f"so that the larger, the {swap.large.name}, lies outermost"
    kind = swap.outermost.kind is PartKind.COP
    where = "the cop" if kind else f"the outermost plate, the {swap.outermost.name},"
    return f"so that the larger, the {swap.large.name}, lies nearer {where}"


def _finding(swap: Swap) -> Finding:
    small, large = swap.small.name, swap.large.name
    return Finding(
        code="lames-swapped",
        severity=Severity.WARNING,
        text=f"The {small} and the {large} are much of a size, and in each other's places their spans fit "
        f"{swap.gain_mm:.1f} mm better: {swap.before_mm:.1f} mm are out now, "
        f"{swap.after_mm:.1f} mm would be.",
        remedy=f"Swap them: each lame lies under a longer one, {_place(swap)} and the smaller beneath it "
        "(common practice, no source). Cut leather is swapped as well as the drawing.",
        about=swap.parts,
    )


def swap_measures(swapped: tuple[Swap, ...]) -> Iterator[Measure]:
    """Yield what is told of lames in each other's places."""
    for swap in swapped:
        finding = _finding(swap)
        yield Measure(
            id=f"lames:swap:{swap.small.id}-{swap.large.id}",
            topic=Topic.LAMES,
            title=f"{swap.small.name} and {swap.large.name}",
            verdict=f"swapped: {swap.gain_mm:.1f} mm better the other way round",
            text=finding.text,
            figures=(
                Figure(
                    name="spans fit better by",
                    value=swap.gain_mm,
                    unit="mm",
                    formula=f"{swap.before_mm:.1f} - {swap.after_mm:.1f} = {swap.gain_mm:.1f} mm",
                    source=CIRCLE,
                ),
            ),
            findings=(finding,),
            about=finding.about,
        )
