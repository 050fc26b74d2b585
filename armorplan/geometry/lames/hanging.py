"""Plates that cannot hang as their stacks say: turned over at one pivot, or left on right.

What else a pair tells follows from it, so that only this is told of it.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from armorplan.geometry.lames.links import Link, PairKey
from armorplan.geometry.lames.seats import Seat, up_of
from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.told import listed
from armorplan.geometry.upward import says_up
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import PartKind
from armorplan.pattern.pattern import Pattern

_CLEAR = 0.5
"""Up further than 60° (of which this is the cosine) off square to the pivots tells no direction."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossed:
    """A plate that hangs upside down on others by what ``up_deg`` says, and the pivots it does so on."""

    part: str
    links: tuple[Link, ...]


def misled(
    pattern: Pattern, links: Mapping[PairKey, Link]
) -> tuple[dict[PairKey, Link], tuple[Measure, ...]]:
    """Return the pairs that hang as no plates can, and what is told of them.

    Where up is a word of the pattern, the check of sides tells what hangs upside down.
    """
    split = {key: link for key, link in links.items() if link.stacks_disagree}
    level = {key: link for key, link in links.items() if key not in split}
    told = [_stacks_measure(link) for _, link in sorted(split.items())]
    if says_up(pattern):
        return split | {key: link for key, link in level.items() if upside_down(link)}, tuple(told)
    for each in crossed(level):
        split |= {link.key: link for link in each.links}
        told.append(_crossed_measure(each))
    return split, tuple(told)


def _stacks_measure(link: Link) -> Measure:
    """Return what is told of two plates whose pivots list them in opposite order."""
    one, other = sorted(
        (link.outer.part, link.inner.part), key=lambda part: (part.kind is PartKind.COP, part.id)
    )
    over, under = link.joints if link.outside[0] == one.id else reversed(link.joints)
    finding = Finding(
        code="pivot-stacks-disagree",
        severity=Severity.ERROR,
        text=f"The {one.name} lies over the {other.name} at '{over}' and under it at '{under}': no plate lies "
        "outside at one pivot and inside at the other.",
        remedy=f"Turn one stack round: list the {other.name} first in '{over}', or the {one.name} first in "
        f"'{under}'. In leather already cut, unscrew that pivot and lay the two as at the other.",
        about=(one.id, other.id, *link.joints),
    )
    return Measure(
        id=f"lames:stacks:{one.id}-{other.id}",
        topic=Topic.LAMES,
        title=f"{one.name} and {other.name}",
        verdict="over it at one pivot, under it at the other",
        text=finding.text,
        findings=(finding,),
        about=finding.about,
    )


def _declared(seat: Seat) -> float:
    """Return how far up as the part says runs along up as it hangs: 1 alike, -1 upside down."""
    (x, y), (ux, uy) = seat.up, up_of(seat.part)
    return x * ux + y * uy


def upside_down(link: Link) -> bool | None:
    """Tell whether two plates hang upside down on each other; ``None`` where up tells no direction."""
    outer, inner = _declared(link.outer), _declared(link.inner)
    if min(abs(outer), abs(inner)) < _CLEAR:
        return None
    return (outer > 0) != (inner > 0)


def crossed(links: Mapping[PairKey, Link]) -> Iterator[Crossed]:
    """Yield the plates that hang upside down on most of the plates that they hang together with.

    Of as many that hang one way as the other, nothing tells which of them is wrong.
    """
    beside: dict[str, list[tuple[str, bool]]] = defaultdict(list)
    for one, other in sorted(links):
        against = upside_down(links[one, other])
        if against is not None:
            beside[one].append((other, against))
            beside[other].append((one, against))
    done: set[str] = set()
    for start in sorted(beside):
        if start in done:
            continue
        ways = _ways(start, beside)
        done.update(ways)
        turned = {part for part, way in ways.items() if way}
        if len(turned) * 2 > len(ways):
            turned = set(ways) - turned
        if len(turned) * 2 < len(ways):
            yield from _of(turned, beside, links)


def _ways(start: str, beside: Mapping[str, list[tuple[str, bool]]]) -> dict[str, bool]:
    """Return of all plates that hang together whether they hang the other way than the first."""
    ways, ahead = {start: False}, [start]
    while ahead:
        part = ahead.pop()
        for other, against in beside[part]:
            if other not in ways:
                ways[other] = ways[part] != against
                ahead.append(other)
    return ways


def _of(
    turned: set[str],
    beside: Mapping[str, list[tuple[str, bool]]],
    links: Mapping[PairKey, Link],
) -> Iterator[Crossed]:
    for part in sorted(turned):
        others = [other for other, against in beside[part] if against and other not in turned]
        found = tuple(links[min(part, o), max(part, o)] for o in others)
        if found:
            yield Crossed(part=part, links=found)


def _crossed_measure(told: Crossed) -> Measure:
    """Return what is told of a plate that hangs upside down."""
    seats = [link.seat(told.part) for link in told.links]
    part = seats[0].part
    others = [
        (link.inner if link.outer.part.id == told.part else link.outer).part for link in told.links
    ]
    joints = [joint for link in told.links for joint in link.joints]
    holes = ", ".join(f"exchange '{seat.first.id}' and '{seat.second.id}'" for seat in seats)
    on = listed([other.name for other in others])
    named = listed([f"'{joint}'" for joint in joints])
    stacks = (
        "The two holes are crossed in the stacks"
        if len(seats) == 1
        else "Look first at the stacks"
    )
    finding = Finding(
        code="pivots-crossed",
        severity=Severity.WARNING,
        text=f"As the stacks of {named} join them, the {part.name} hangs upside "
        f"down on the {on}, or flesh side out, against what up_deg and its drawn side say.",
        remedy=f"{stacks}: {holes}. Or, if the {part.name} is drawn turned over, mirror it in the drawing; "
        f"if it is drawn upside down, write up_deg = {(part.up_deg + 180) % 360:g} for it.",
        about=(part.id, *(other.id for other in others), *joints),
    )
    return Measure(
        id=f"lames:crossed:{part.id}",
        topic=Topic.LAMES,
        title=f"{part.name} on {on}",
        verdict="hangs upside down or flesh side out",
        text=finding.text,
        findings=(finding,),
        about=finding.about,
    )
