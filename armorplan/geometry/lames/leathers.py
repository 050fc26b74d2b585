"""Inner leathers that hold lames together: how slack at rest, and where they stop the bend."""

from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import dist, radians, sqrt
from typing import NamedTuple

from armorplan.geometry.lames.chains import Chain, Turn
from armorplan.geometry.lames.links import CIRCLE, DRAWN
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Motion
from armorplan.pattern.parts import Hole, Part, PartKind
from armorplan.pattern.pattern import Pattern


class _Held(NamedTuple):
    """A rivet of an inner leather: its hole there, and the hole in the plate."""

    joint: str
    leather: Hole
    plate: Hole


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """An inner leather between its rivets in two plates.

    Attributes:
        turns: the pairs of plates that turn between the two.
        length_mm: of leather between the two rivets.
        rest_mm: how far the lower rivet lies below the upper one at rest; below 0 above it.
        aside_mm: how far beside it.
        slide_mm: what the bend adds; without a movement, what a degree in each pair adds.
    """

    leather: Part
    upper: _Held
    lower: _Held
    turns: tuple[Turn, ...]
    length_mm: float
    rest_mm: float
    aside_mm: float
    slide_mm: float

    @property
    def reach_mm(self) -> float:
        """How far apart along the limb the leather lets its rivets come."""
        return sqrt(max(0.0, self.length_mm**2 - self.aside_mm**2))

    @property
    def slack_mm(self) -> float:
        """How much too long it is at rest."""
        return self.length_mm - dist((0.0, 0.0), (self.rest_mm, self.aside_mm))

    @property
    def share(self) -> float:
        """At what share of the bend it is straight; without a movement, at how many degrees."""
        return max(0.0, (self.reach_mm - self.rest_mm) / self.slide_mm) if self.slide_mm else 0.0

    @property
    def turn_deg(self) -> float | None:
        """How far the pairs between the rivets turn, all together."""
        shares = [turn.turn_deg for turn in self.turns if turn.turn_deg is not None]
        return sum(shares) if len(shares) == len(self.turns) else None

    @property
    def stops_deg(self) -> float:
        """How far the pairs between the rivets turn until it is straight."""
        return self.share * (len(self.turns) if self.turn_deg is None else self.turn_deg)

    @property
    def short_mm(self) -> float:
        """How much too short it is for the whole bend; 0 without a movement."""
        if self.turn_deg is None:
            return 0.0
        return dist((0.0, 0.0), (self.rest_mm + self.slide_mm, self.aside_mm)) - self.length_mm


def _rivets(pattern: Pattern) -> dict[str, list[_Held]]:
    """Return the rivets of each inner leather."""
    found: dict[str, list[_Held]] = defaultdict(list)
    for joint in pattern.joints:
        if joint.motion is not Motion.FIXED:
            continue
        holes = [pattern.hole(hole) for hole in joint.stack]
        inner = [h for h in holes if _is_inner(pattern.part(h.part))]
        plates = [h for h in holes if not _is_inner(pattern.part(h.part))]
        if len(inner) == 1 and plates:
            found[inner[0].part].append(_Held(joint.id, inner[0], plates[-1]))
    return found


def _is_inner(part: Part) -> bool:
    return part.kind is PartKind.INTERNAL_LEATHER


def _lever_mm(turn: Turn, across_mm: float) -> float:
    return 0.0 if turn.link is None else turn.link.wrap.lever_mm(across_mm)


def stretches(pattern: Pattern, chain: Chain) -> Iterator[Stretch]:
    """Yield each inner leather from one plate of a chain to the next that it is riveted to."""
    at = chain.at_mm()
    order = {part: place for place, part in enumerate(chain.parts) if part in at}
    for leather, rivets in sorted(_rivets(pattern).items()):
        held: dict[int, list[_Held]] = defaultdict(list)
        for rivet in rivets:
            if rivet.plate.part in order:
                held[order[rivet.plate.part]].append(rivet)
        places = sorted(held)
        for above, below in pairwise(places):
            for upper in held[above]:
                lower = min(
                    held[below],
                    key=lambda rivet, u=upper: dist(rivet.leather.centre, u.leather.centre),  # type: ignore[misc]
                )
                yield _stretch(chain, pattern.part(leather), (upper, lower), (above, below))


def _stretch(
    chain: Chain, leather: Part, rivets: tuple[_Held, _Held], places: tuple[int, int]
) -> Stretch:
    at = chain.at_mm()
    upper, lower = rivets
    spots = []
    for rivet in rivets:
        down, seat = at[rivet.plate.part]
        across, up = seat.seen(rivet.plate.centre)
        spots.append((across, down - up))
    turns = chain.turns[places[0] : places[1]]
    levers = [_lever_mm(turn, spots[0][0]) for turn in turns]
    each = [1.0 if turn.turn_deg is None else turn.turn_deg for turn in turns]
    return Stretch(
        leather=leather,
        upper=upper,
        lower=lower,
        turns=turns,
        length_mm=dist(upper.leather.centre, lower.leather.centre),
        rest_mm=spots[1][1] - spots[0][1],
        aside_mm=spots[1][0] - spots[0][0],
        slide_mm=sum(lever * radians(deg) for lever, deg in zip(levers, each, strict=True)),
    )


def _finding(told: Stretch, forgiven_mm: float) -> Finding | None:
    if told.turn_deg is None or told.short_mm <= forgiven_mm:
        return None
    upper, lower = told.upper.joint, told.lower.joint
    return Finding(
        code="inner-leather-too-short",
        severity=Severity.WARNING,
        text=f"The {told.leather.name} is {told.length_mm:.1f} mm long between '{upper}' and '{lower}'; at the end "
        f"of the bend {told.length_mm + told.short_mm:.1f} mm lie between them. It stops the lames after "
        f"{told.stops_deg:.0f}° of {told.turn_deg:.0f}°.",
        remedy=f"On the drawing, set its holes {told.short_mm:.1f} mm further apart there and draw it as much "
        f"longer. In leather already cut, cut a longer one; or punch one of these two holes anew, "
        f"{told.short_mm:.1f} mm further out, where it reaches so far.",
        about=(told.leather.id, told.upper.leather.id, told.lower.leather.id, upper, lower),
    )


def _figures(told: Stretch) -> Iterator[Figure]:
    between = f"'{told.upper.joint}' to '{told.lower.joint}'"
    for name, value in (("leather", told.length_mm), ("at rest", told.rest_mm)):
        yield Figure(
            name=f"{name}, {between}", value=value, unit="mm", formula=DRAWN, source=DRAWN
        )
    if told.turn_deg is not None:
        bent = told.length_mm + told.short_mm
        yield Figure(
            name=f"bent to the end, {between}",
            value=bent,
            unit="mm",
            formula=f"at rest + lever × angle = {told.rest_mm:.1f} + {told.slide_mm:.1f} = {bent:.1f} mm",
            source=CIRCLE,
        )
    yield Figure(
        name=f"straight after, {between}",
        value=told.stops_deg,
        unit="°",
        formula=f"(leather - at rest) / lever = {told.stops_deg:.1f}°",
        source=CIRCLE,
    )


def _text(told: Stretch) -> str:
    return (
        f"Between '{told.upper.joint}' and '{told.lower.joint}' it is {told.slack_mm:.1f} mm slack at rest and "
        f"straight after {told.stops_deg:.0f}°."
    )


def leather_measures(
    pattern: Pattern, chain: Chain, forgiven_mm: Callable[[Turn], float]
) -> Iterator[Measure]:
    """Yield what each inner leather of a chain tells; less than is forgiven is not missed."""
    found: dict[str, list[Stretch]] = defaultdict(list)
    for stretch in stretches(pattern, chain):
        found[stretch.leather.id].append(stretch)
    for leather, told in sorted(found.items()):
        judged = (_finding(each, max(map(forgiven_mm, each.turns), default=0.0)) for each in told)
        findings = [finding for finding in judged if finding is not None]
        first = min(told, key=lambda each: each.stops_deg)
        yield Measure(
            id=f"lames:{chain.id}:inner:{leather}",
            topic=Topic.LAMES,
            title=f"{told[0].leather.name} in {chain.names[0]} to {chain.names[-1]}",
            verdict=f"stops the lames at {first.stops_deg:.0f}°"
            if findings
            else "long enough for the bend"
            if chain.movement
            else f"straight after {first.stops_deg:.0f}°",
            text=" ".join(map(_text, told)),
            figures=tuple(figure for each in told for figure in _figures(each)),
            findings=tuple(findings),
            about=(
                leather,
                *dict.fromkeys(rivet.joint for each in told for rivet in (each.upper, each.lower)),
            ),
        )
