"""Posts that slide in slots between two lames: the travel a bend needs, and where the post stands."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, radians, sin

from armorplan.geometry.lames.articulation import slide_mm, turn_deg
from armorplan.geometry.lames.chains import Turn
from armorplan.geometry.lames.links import CIRCLE, DRAWN, Link
from armorplan.geometry.lames.seats import Seat
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Joint, Motion
from armorplan.pattern.parts import Hole, Point
from armorplan.pattern.pattern import Pattern

_BESIDE_MM = 2.0
"""A post further than this beside its slot was not drawn for it; flat leather lies only so nearly."""
_LEVEL_MM = 0.05
_ACROSS = 0.7
"""A slot whose direction shows less than this of the way the post goes lies across it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slide:
    """A post in its slot at rest.

    Attributes:
        lever_mm: how far the post lies from the pivots.
        room_mm: how far it can slide the way the bend takes it.
        travel_mm: the whole way the slot leaves it.
        beside_mm: how far beside the slot it stands; 0 in it.
        behind_mm: how far short of the end where it should start; below 0 past that end.
        ahead: the way the bend takes it, on the drawing of the slotted plate.
        rises: it slides up the limb in the slotted plate.
        lies_across: the slot does not run the way the bend takes it.
    """

    joint: str
    slot: Hole
    slotted: Seat
    post: Point
    lever_mm: float
    room_mm: float
    travel_mm: float
    beside_mm: float
    behind_mm: float
    ahead: Point
    rises: bool
    lies_across: bool


def _slide(turn: Turn, link: Link, joint: str, holes: tuple[Hole, Hole]) -> Slide:
    slot, post = holes
    slotted, held = link.seat(slot.part), link.seat(post.part)
    across, up = held.seen(post.centre)
    at = slotted.drawn(across * slotted.span_mm / held.span_mm, up)
    rises = post.part == turn.upper
    ux, uy = slotted.up
    ahead = (ux, uy) if rises else (-ux, -uy)
    angle = radians(slot.travel_deg)
    way = (cos(angle), -sin(angle))
    shown = way[0] * ahead[0] + way[1] * ahead[1]
    if shown < 0:
        way, shown = (-way[0], -way[1]), -shown
    x, y = at[0] - slot.centre[0], at[1] - slot.centre[1]
    along, off = x * way[0] + y * way[1], abs(x * way[1] - y * way[0])
    half = slot.travel_mm / 2
    beyond = max(0.0, abs(along) - half)
    return Slide(
        joint=joint,
        slot=slot,
        slotted=slotted,
        post=at,
        lever_mm=link.wrap.lever_mm(across * link.inner.span_mm / held.span_mm),
        room_mm=max(0.0, half - along),
        travel_mm=slot.travel_mm,
        beside_mm=max(beyond, off - slot.diameter_mm / 2),
        behind_mm=-half - along,
        ahead=ahead,
        rises=rises,
        lies_across=shown < _ACROSS,
    )


def slides(pattern: Pattern, turn: Turn) -> Iterator[Slide]:
    """Yield the posts that slide in slots between two neighbours of a chain."""
    if turn.link is None:
        return
    for joint in pattern.joints:
        holes = _between(pattern, joint, turn.link) if joint.motion is Motion.SLIDING else None
        if holes is not None:
            yield _slide(turn, turn.link, joint.id, holes)


def _between(pattern: Pattern, joint: Joint, link: Link) -> tuple[Hole, Hole] | None:
    """Return the slot and the post's hole of a sliding joint between two plates."""
    here = [h for h in map(pattern.hole, joint.stack) if h.part in link.parts]
    slots = [hole for hole in here if hole.travel_mm > 0]
    posts = [hole for hole in here if hole.travel_mm <= 0]
    if len(slots) != 1 or len(posts) != 1 or slots[0].part == posts[0].part:
        return None
    return slots[0], posts[0]


def _moves(turn: Turn, found: Slide) -> str:
    """Return how a post comes to stand in its slot: the slot moved or made longer at one end."""
    beyond = max(found.behind_mm, -found.behind_mm - found.travel_mm)
    if beyond < found.beside_mm - _LEVEL_MM:  # It stands aside, not past an end.
        return (
            f"Move the slot {found.beside_mm:.1f} mm aside, or the hole of the post, until it stands in it. "
            "In leather already cut, plug the hole of the post and punch it anew in line with the slot."
        )
    need = slide_mm(found.lever_mm, turn.turn_deg or 0.0)
    starts = found.behind_mm > 0
    end = "upper" if found.rises != starts else "lower"
    longer = beyond if starts else beyond + need
    words = f"Lengthen it by {longer:.1f} mm at its {end} end, in leather already cut as well"
    if need <= found.travel_mm:
        way = "up" if end == "upper" else "down"
        return f"{words}; or move the whole slot {longer:.1f} mm {way} the limb, or the hole of its post."
    return f"{words}. Moved there instead, it would be {need - found.travel_mm:.1f} mm too short at its other end."


def _finding(turn: Turn, found: Slide, forgiven_mm: float) -> Finding | None:
    name = found.slotted.part.name
    about = (found.joint, found.slot.id, found.slotted.part.id)
    if found.beside_mm > _BESIDE_MM:
        return Finding(
            code="slot-off-its-post",
            severity=Severity.WARNING,
            text=f"At rest the post '{found.joint}' stands {found.beside_mm:.1f} mm outside the slot "
            f"'{found.slot.id}' of the {name}.",
            remedy=_moves(turn, found),
            about=about,
        )
    if turn.turn_deg is None:
        return None
    need = slide_mm(found.lever_mm, turn.turn_deg)
    if found.lies_across and need > forgiven_mm:
        return Finding(
            code="slot-too-short",
            severity=Severity.WARNING,
            text=f"The slot '{found.slot.id}' of the {name} lies across the way of its post, which "
            f"slides {need:.1f} mm along the limb when the lames turn by {turn.turn_deg:.0f}°.",
            remedy="On the drawing, turn the slot so that it runs along the limb. In leather already cut, punch "
            "a new one along the limb through the post's place.",
            about=about,
        )
    short = need - found.room_mm
    if short <= forgiven_mm:
        return None
    return _too_short(turn, found, need=need, short=short)


def _too_short(turn: Turn, found: Slide, *, need: float, short: float) -> Finding:
    end = "upper" if found.rises else "lower"
    back = found.travel_mm - found.room_mm
    remedy = f"Lengthen it by {short:.1f} mm at its {end} end, in leather already cut as well"
    if back >= short:
        remedy += (
            f"; or move the whole slot {short:.1f} mm {'up' if found.rises else 'down'} the limb"
        )
    return Finding(
        code="slot-too-short",
        severity=Severity.WARNING,
        text=f"The slot '{found.slot.id}' of the {found.slotted.part.name} lets its post slide "
        f"{found.room_mm:.1f} mm; turned by {turn.turn_deg or 0.0:.0f}° it slides {need:.1f} mm. It stops the "
        f"lames after {turn_deg(found.room_mm, found.lever_mm):.0f}°.",
        remedy=f"{remedy}.",
        about=(found.joint, found.slot.id, found.slotted.part.id),
    )


def _figures(turn: Turn, found: Slide) -> Iterator[Figure]:
    lever, room = found.lever_mm, found.room_mm
    if turn.turn_deg is not None:
        need = slide_mm(lever, turn.turn_deg)
        yield Figure(
            name="travel needed",
            value=need,
            unit="mm",
            formula=f"lever × angle = {lever:.1f} × {turn.turn_deg:.1f}° × π / 180 = {need:.1f} mm",
            source=CIRCLE,
        )
    yield Figure(name="travel from rest", value=room, unit="mm", formula=DRAWN, source=DRAWN)
    yield Figure(
        name="travel of the slot", value=found.travel_mm, unit="mm", formula=DRAWN, source=DRAWN
    )
    turns = turn_deg(room, lever)
    yield Figure(
        name="lets the lames turn",
        value=turns,
        unit="°",
        formula=f"travel / lever = {room:.1f} / {lever:.1f} = {turns:.1f}°",
        source=f"{CIRCLE}; half an inch or more to each lame: C. ffoulkes, Armour & Weapons (1909), p. 52",
    )


def _measure(turn: Turn, found: Slide, *, chain_id: str, forgiven_mm: float) -> Measure:
    finding = _finding(turn, found, forgiven_mm)
    turns = turn_deg(found.room_mm, found.lever_mm)
    x, y = found.post
    way = slide_mm(found.lever_mm, turn.turn_deg or 0.0) or found.room_mm
    name = found.slotted.part.name
    return Measure(
        id=f"lames:{chain_id}:slot:{found.joint}",
        topic=Topic.LAMES,
        title=f"slot '{found.slot.id}' of the {name}",
        verdict=_verdict(turns, finding),
        text=_text(found, turns),
        figures=tuple(_figures(turn, found)),
        findings=() if finding is None else (finding,),
        marks=(
            Mark(
                kind=MarkKind.SPAN,
                part=found.slotted.part.id,
                spots=(found.post, (x + way * found.ahead[0], y + way * found.ahead[1])),
                label=f"{way:.1f} mm",
                severity=None if finding is None else finding.severity,
            ),
        ),
        about=(found.joint, found.slot.id, *(turn.link.parts if turn.link else ())),
    )


def _text(found: Slide, turns: float) -> str:
    start = found.travel_mm - found.room_mm
    stands = f"{start:.1f} mm from" if start >= 0 else f"{-start:.1f} mm outside"
    return (
        f"At rest the post stands {stands} one end of the slot and can slide {found.room_mm:.1f} mm the way the "
        f"bend takes it: enough for {turns:.0f}°."
    )


def _verdict(turns: float, finding: Finding | None) -> str:
    if finding is None:
        return f"long enough for {turns:.0f}°"
    return (
        "off its post"
        if finding.code == "slot-off-its-post"
        else f"stops the lames at {turns:.0f}°"
    )


def slot_measures(
    pattern: Pattern, turn: Turn, *, chain_id: str, forgiven_mm: float
) -> Iterator[Measure]:
    """Yield what the slots between two neighbours tell; less than is forgiven is not missed."""
    for found in slides(pattern, turn):
        yield _measure(turn, found, chain_id=chain_id, forgiven_mm=forgiven_mm)
