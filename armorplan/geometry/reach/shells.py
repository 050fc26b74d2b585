"""Which plates make a shell, which joints are its rows, and what else sits in it.

Stiff parts that a fixed joint holds together, or one that it passes twice, are one shell; a plate
that is held by straps and pivots only is a shell of its own. Straps, keepers, trims and linings
are no walls, nor are overlays: what holds them sits in the plate that they lie on. Joints that turn or slide hold no shell together: they are seats of each plate's own;
so is what closes the loop of a keeper behind the plate that it goes through.
Fixed joints outside a seam are a row with those that hold the same plates.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, pairwise
from math import dist
from statistics import median
from typing import NamedTuple

from armorplan.geometry.reach.bent import is_doubtful
from armorplan.geometry.reach.beside import rows_of
from armorplan.geometry.reach.dished import balls
from armorplan.geometry.reach.overlays import overlays
from armorplan.geometry.reach.threaded import threaded_spots
from armorplan.geometry.widths import STIFF
from armorplan.pattern.joining import Form, FormKind, Joint, Motion, Route
from armorplan.pattern.parts import Part, Point, Ring
from armorplan.pattern.pattern import Pattern

Leg = tuple[str, int]
"""A plate, and the how-manieth of the holes in it that a joint passes."""
_TWO = 2
_LEAST_RING = 4
"""A row that comes back to its first joint has at least this many."""
_GAP = 2.5
"""A spacing wider than so many usual ones parts joints that no seam names."""
_MOUTH, _MOUTH_MM = 6.0, 180.0
"""So does one in a seam that is wider than so many, so that laps do not reach over it, and wider than
this: with 360 mm round an arm goes through (from memory, no source). It is a mouth of its own."""
_HELD = frozenset({FormKind.BEND, FormKind.DISH, FormKind.FOLD})
_BEFORE = frozenset({Route.DAMP, Route.HARDENED, Route.WET_FOLD})


class Cut(NamedTuple):
    """A plate as it is cut: its outline, and whether it is drawn from the face that lies inward."""

    part: str
    ring: Ring
    turned: bool


class Rung(NamedTuple):
    """A joint of a row, and where it passes each plate."""

    joint: str
    legs: tuple[tuple[Leg, Point], ...]

    def on(self, leg: Leg) -> Point | None:
        """Return where it passes a plate; ``None`` where it does not."""
        return next((spot for here, spot in self.legs if here == leg), None)


class Line(NamedTuple):
    """A row of joints in their order; ``closed`` where its last lies beside its first."""

    id: str
    name: str
    rungs: tuple[Rung, ...]
    closed: bool


class Seat(NamedTuple):
    """A joint that sits in a shell and closes nothing of it, with its holes in the plates."""

    joint: str
    spots: tuple[tuple[str, Point], ...]


class ShellCut(NamedTuple):
    """All that the net of a shell is reckoned from; ``doubtful``: how it lies is not known.

    ``balls`` tells by plate how wide the ball is that it is dished to, in mm.
    """

    parts: tuple[Cut, ...]
    lines: tuple[Line, ...]
    seats: tuple[Seat, ...]
    formed: frozenset[str]
    doubtful: bool
    closures: tuple[frozenset[str], ...] = ()
    balls: tuple[tuple[str, float], ...] = ()


def shell_cuts(pattern: Pattern) -> tuple[ShellCut, ...]:
    """Return the shells of a pattern, in the order of their first parts."""
    stiff = {part.id: part for part in pattern.parts if part.kind in STIFF}
    behind = threaded_spots(pattern)
    walls = {
        each.id: [part for part in pattern.stack_parts(each.id) if part in stiff]
        for each in pattern.joints
    }
    laid = overlays(pattern, walls)
    bare = {joint: _lowest(parts, laid) for joint, parts in walls.items()}
    home = _homes(stiff, (bare[joint.id] for joint in pattern.joints if _holds(joint)))
    names = {joint: seam.id for seam in pattern.seams for joint in seam.joints}
    heaps: dict[str, list[str]] = defaultdict(list)
    for part in stiff:
        heaps[home[part]].append(part)
    held: dict[str, list[Joint]] = defaultdict(list)
    for joint in pattern.joints:
        plates = bare[joint.id] or [part for part, _ in behind.get(joint.id, ())]
        for heap in dict.fromkeys(home[part] for part in plates):
            held[heap].append(joint)
    return tuple(
        _cut(pattern, [stiff[part] for part in parts], held[heap], names)
        for heap, parts in heaps.items()
        if held[heap] or heap not in laid
    )


def _lowest(parts: list[str], laid: dict[str, str]) -> list[str]:
    """Return of the parts that a joint passes those that lie on none of the others."""
    return [part for part in parts if laid.get(part) not in parts]


def _holds(joint: Joint) -> bool:
    return joint.motion is Motion.FIXED


def _homes(parts: Iterable[str], held: Iterable[list[str]]) -> dict[str, str]:
    """Return by part the first part of those that hang together with it."""
    home = {part: part for part in parts}

    def root(part: str) -> str:
        while home[part] != part:
            home[part] = home[home[part]]
            part = home[part]
        return part

    for walls in held:
        for one, other in pairwise(walls):
            home[root(other)] = root(one)
    return {part: root(part) for part in home}


def _cut(
    pattern: Pattern, parts: list[Part], joints: list[Joint], names: dict[str, str]
) -> ShellCut:
    own = {part.id for part in parts}
    rows: dict[str, list[Rung]] = defaultdict(list)
    loose: dict[tuple[str, ...], list[Rung]] = defaultdict(list)
    seats, blind, threaded = [], False, threaded_spots(pattern)
    for joint in joints:
        spots = [(h.part, h.centre) for h in map(pattern.hole, joint.stack) if h.part in own]
        if behind := [spot for spot in threaded.get(joint.id, ()) if spot[0] in own]:
            seats.append(Seat(joint.id, tuple(behind)))
        elif not spots:
            blind = blind or (_holds(joint) and len(joint.layers) > 1)
        elif len(spots) < _TWO or not _holds(joint):
            seats.append(Seat(joint.id, tuple(spots)))
        elif joint.id in names:
            rows[names[joint.id]].append(_rung(joint.id, spots))
        else:
            loose[tuple(sorted(part for part, _ in spots))].append(_rung(joint.id, spots))
    lines = [*_seams(pattern, rows), *_loose(pattern, loose)]
    forms = [form for form in pattern.forms if not own.isdisjoint(form.parts)]
    return ShellCut(
        parts=tuple(Cut(part.id, part.outline, part.drawn_from_inside) for part in parts),
        lines=tuple(sorted(lines, key=lambda line: line.id)),
        seats=tuple(seats),
        formed=frozenset(
            part
            for form in forms
            if form.kind in _HELD and form.route in _BEFORE
            for part in form.parts
            if part in own
        ),
        doubtful=_is_marked_later(joints, chain(rows.values(), loose.values()))
        or _is_blind(pattern, joints, own, blind=blind)
        or is_doubtful(forms, own),
        closures=tuple(_closures(forms, lines)),
        balls=balls(forms, own),
    )


def _is_marked_later(joints: list[Joint], rows: Iterable[list[Rung]]) -> bool:
    """Tell whether holes of a row are marked on the wearer only: where they lie is not known yet."""
    later = {joint.id for joint in joints if joint.placed_on_wearer}
    return any(rung.joint in later for row in rows for rung in row)


def _closures(forms: Iterable[Form], lines: Iterable[Line]) -> Iterator[frozenset[str]]:
    """Yield of each shape that seams draw plates into the rows of these seams, all their runs."""
    for form in forms:
        seams = set(form.seams) if form.kind is FormKind.CLOSURE else ()
        rows = frozenset(line.id for line in lines if line.id.split("#")[0] in seams)
        if rows:
            yield rows


def _is_blind(pattern: Pattern, joints: list[Joint], own: set[str], *, blind: bool) -> bool:
    """Tell whether glue or thread without holes holds two of the plates together."""
    return blind and any(
        sum(part in own for part in joint.layers) > 1
        for joint in joints
        if _holds(joint) and not joint.stack and pattern.stack_parts(joint.id)
    )


def _rung(joint: str, spots: Sequence[tuple[str, Point]]) -> Rung:
    seen: dict[str, int] = defaultdict(int)
    legs = []
    for part, spot in spots:
        legs.append(((part, seen[part]), spot))
        seen[part] += 1
    return Rung(joint, tuple(legs))


def _seams(pattern: Pattern, rows: dict[str, list[Rung]]) -> Iterator[Line]:
    for seam in pattern.seams:
        by_joint = {rung.joint: rung for rung in rows.get(seam.id, ())}
        ordered = [by_joint[joint] for joint in dict.fromkeys(seam.joints) if joint in by_joint]
        runs = list(_parted([*_aligned(ordered)], _MOUTH, _MOUTH_MM))
        for at, run in enumerate(runs):
            name = f"stretch {at + 1} of {seam.name}" if len(runs) > 1 else seam.name
            yield from _runs(f"{seam.id}#{at + 1}" if at else seam.id, name, run)


def _loose(pattern: Pattern, loose: dict[tuple[str, ...], list[Rung]]) -> Iterator[Line]:
    for parts, rungs in loose.items():
        leg = rungs[0].legs[0][0]
        rows = rows_of([rung.on(leg) or rung.legs[0][1] for rung in rungs])
        runs = [run for row in rows for run in _parted([rungs[at] for at in row])]
        names = " and ".join(pattern.part(part).name for part in dict.fromkeys(parts))
        for at, run in enumerate(runs, start=1):
            number = f" {at}" if len(runs) > 1 else ""
            yield from _runs(run[0].joint, f"row{number} of {names}", run)


def _parted(rungs: list[Rung], many: float = _GAP, least_mm: float = 0.0) -> Iterator[list[Rung]]:
    spans = [span_mm(one, other) or 0.0 for one, other in pairwise(rungs)]
    usual_mm = median(spans) if spans else 0.0
    start = 0
    for at, span in enumerate(spans, start=1):
        if len(spans) > 1 and span > max(many * usual_mm, least_mm):
            yield rungs[start:at]
            start = at
    yield rungs[start:]


def _runs(name_id: str, name: str, rungs: list[Rung]) -> Iterator[Line]:
    """Yield a row, parted where a joint passes none of the plates that the one before it does."""
    runs: list[list[Rung]] = []
    for rung in _aligned(rungs):
        if not runs or span_mm(runs[-1][-1], rung) is None:
            runs.append([])
        runs[-1].append(rung)
    for at, run in enumerate(runs, start=1):
        closed = at == len(runs) and _comes_round(run)
        yield Line(name_id if at == 1 else f"{name_id}#{at}", name, tuple(run), closed)


def common(one: Rung, other: Rung) -> list[tuple[Leg, Point, Point]]:
    """Return where two joints pass the same plates."""
    there = dict(other.legs)
    return [(leg, spot, there[leg]) for leg, spot in one.legs if leg in there]


def span_mm(one: Rung, other: Rung) -> float | None:
    """Return how far apart two joints of a row lie, on the plate where that is most."""
    return max((dist(a, b) for _, a, b in common(one, other)), default=None)


def _aligned(rungs: list[Rung]) -> Iterator[Rung]:
    """Yield rungs with both rows of a part that closes on itself in one sense.

    Holes of a row lie nearer to each other straight than crosswise.
    """
    before: Rung | None = None
    for rung in rungs:
        turned = rung
        for (part, nth), spot in rung.legs:
            if nth != 1 or before is None:
                continue
            was = before.on((part, 0)), before.on((part, 1))
            own = rung.on((part, 0))
            if own is None or was[0] is None or was[1] is None:
                continue
            if dist(was[0], own) + dist(was[1], spot) > dist(was[0], spot) + dist(was[1], own):
                swap = {(part, 0): spot, (part, 1): own}
                turned = Rung(rung.joint, tuple((leg, swap.get(leg, s)) for leg, s in turned.legs))
        before = turned
        yield turned


def _comes_round(run: list[Rung]) -> bool:
    if len(run) < _LEAST_RING:
        return False
    spans = [span_mm(one, other) or 0.0 for one, other in pairwise(run)]
    back_mm = span_mm(run[-1], run[0])
    both = len(common(run[-1], run[0])) >= _TWO
    return both and back_mm is not None and back_mm <= 1.5 * max(spans)
