"""Edits of rows: so many holes, evenly along the row's own curve, in all layers at once."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.holes import draw_hole, in_part, next_hole, put_hole, take_out
from armorplan.app.editing.pending import NotTakenError, Pending, an_edit
from armorplan.files.faults import listed
from armorplan.geometry.areas import ring_shape
from armorplan.geometry.rows.bundles import Bundle, bundles
from armorplan.geometry.sizing.naming import Namer
from armorplan.geometry.sizing.spacing import Curve, gaps_mm
from armorplan.pattern.parts import Part, Point, Ring

_LEAST_HOLES, _MOST_HOLES = 2, 200
_ROUNDS = 4
"""After so many the gaps end where the row does, to far less than can be drawn."""


def count_at(gaps: Sequence[float], spacing_mm: float) -> int:
    """Return how many holes a row has at about so many mm from hole to hole, its ends kept."""
    return max(1, round(sum(gaps) / spacing_mm)) + 1


def spacing_of(draft: Draft, seam: str) -> tuple[float, ...]:
    """Return the spacings in mm along the innermost layer of a row; empty where there is none."""
    pattern = draft.pattern
    row = next((b for b in bundles(pattern) if b.id == seam and b.sewn), None) if pattern else None
    layers = _layers(row) if row else []
    return tuple(gaps_mm([hole.centre for hole in row.holes(layers[0])])) if row and layers else ()


@an_edit
def space_row(draft: Draft, seam: str, *, count: int) -> Draft | Refused:
    """Give a row so many joints, evenly spaced along its own curve on every layer.

    The ends stay where they are; layers that were a little longer than the innermost one stay so.
    Joints that pass further layers keep them and go where they stood, as near as can be. Holes and
    joints that are added get ids of their own; those that go, go wherever they are named.

    Args:
        draft: the pattern.
        seam: the row's id.
        count: how many joints it shall have; see ``count_at``.
    """
    pending = Pending(draft)
    pending.entry("seams", seam)
    row = next(each for each in bundles(pending.pattern) if each.id == seam and each.sewn)
    _check_count(count)
    layers = _layers(row)
    if not layers:
        text = f'The joints of the row "{row.name}" do not all pass the same parts.'
        raise NotTakenError(text, "Move its holes one by one, or make rows of alike joints of it.")
    places = _spots([[hole.centre for hole in row.holes(layer)] for layer in layers], count)
    _Spacing(pending, row, layers, places).work()
    return pending.taken()


@an_edit
def space_holes(draft: Draft, holes: Sequence[str], *, count: int) -> Draft | Refused:
    """Space holes of one part that no joint passes evenly, with as many of them as wanted.

    Args:
        draft: the pattern.
        holes: the holes in their order along the row; the first and the last stay.
        count: how many there shall be.
    """
    pending = Pending(draft)
    _check_count(count)
    found = [pending.hole(hole) for hole in holes]
    joined = {hole for joint in pending.pattern.joints for hole in joint.stack} & set(holes)
    parts = {hole.part for hole in found}
    if len(found) < _LEAST_HOLES or len(parts) > 1 or joined:
        why = (
            f"{listed(sorted(joined))} is in a joint" if joined else "These are no row of one part"
        )
        raise NotTakenError(f"{why}.", "Choose two or more holes of one part, or the whole row.")
    spots = _spots([[hole.centre for hole in found]], count)[0]
    kept = [*holes[: min(len(holes), count) - 1], holes[-1]]
    new: dict[str, str] = {}
    part = pending.part(found[0].part)
    order = [*kept[:-1], *[""] * (count - len(kept)), kept[-1]]
    for hole, spot in zip(order, spots, strict=True):
        if hole:
            put_hole(pending, hole, spot)
        else:
            name = next_hole(pending, part.id, new)
            new[name] = part.id
            draw_hole(pending, part, name, (*spot, found[0].diameter_mm))
    take_out(pending, [hole for hole in holes if hole not in kept])
    return in_part(pending, new | dict.fromkeys(kept, part.id))


class Along(NamedTuple):
    """A stretch of a part's edge, by two spots near to it, and how far inside the row lies."""

    start: Point
    end: Point
    inset_mm: float


@an_edit
def add_row(
    draft: Draft, part: str, along: Along, *, spacing_mm: float, diameter_mm: float
) -> Draft | Refused:
    """Draw a row of holes along a part's edge, evenly, the shorter way between two spots.

    Args:
        draft: the pattern.
        part: the part they lie in.
        along: from where to where, and how far inside the edge, in mm.
        spacing_mm: from hole to hole; the nearest that comes out even is taken.
        diameter_mm: of each hole.
    """
    pending = Pending(draft)
    line = _inside(pending.part(part), along)
    count = count_at(gaps_mm(line), spacing_mm)
    _check_count(count)
    new: dict[str, str] = {}
    for spot in _at_shares(line, count):
        name = next_hole(pending, part, new)
        new[name] = part
        draw_hole(pending, pending.part(part), name, (*spot, diameter_mm))
    pending.tell(f"{count} holes, {sum(gaps_mm(line)) / (count - 1):.1f} mm from hole to hole.")
    return in_part(pending, new)


def _check_count(count: int) -> None:
    if not _LEAST_HOLES <= count <= _MOST_HOLES:
        text = f"A row has {_LEAST_HOLES} to {_MOST_HOLES} holes, not {count}."
        raise NotTakenError(text, "Choose another spacing.")


def _layers(row: Bundle) -> list[Any]:
    """Return the layers that every joint of a row passes, the innermost first."""
    full = [layer for layer in row.rows if len(row.holes(layer)) == len(row.joints)]
    return full[::-1] if len(row.joints) >= _LEAST_HOLES else []


def _spots(layers: Sequence[Sequence[Point]], count: int) -> list[list[Point]]:
    """Return where the holes of each layer come to lie; the first layer leads."""
    lead, gaps = layers[0], count - 1
    spots, each = _even(lead, gaps)
    found = [spots]
    for own in layers[1:]:
        more = (sum(gaps_mm(own)) - sum(gaps_mm(lead))) / gaps
        found.append(Curve(own).stepped([each + more] * gaps))
    return found


def _even(spots: Sequence[Point], gaps: int) -> tuple[list[Point], float]:
    """Return spots on a row's curve in even gaps between its ends, and the gap in mm."""
    curve = Curve(spots)
    each, made = curve.length_mm / gaps, list(spots)
    for _ in range(_ROUNDS):
        made = curve.stepped([each] * gaps)
        each *= curve.length_mm / (curve.place_of(made[-1]) - curve.place_of(made[0]))
    return [spots[0], *made[1:-1], spots[-1]], each


class _Spacing:
    """One row under spacing: which of its joints stand where, and which are new or go."""

    def __init__(
        self, pending: Pending, row: Bundle, layers: Sequence[Any], places: list[list[Point]]
    ) -> None:
        self._pending = pending
        self._row = row
        self._layers = layers
        self._places = places
        self._namer = Namer(pending.pattern)

    def work(self) -> None:
        """Put holes and joints into drawing and tables."""
        former = self._former(len(self._places[0]))
        joints = [
            self._moved(at, was) if was is not None else self._made(at)
            for at, was in enumerate(former)
        ]
        gone = set(range(len(self._row.joints))) - set(former)
        holes = [h.id for at in sorted(gone) for h in self._held_at(at).values()]
        self._pending.put(("seams", self._row.id, "joints"), joints)
        take_out(self._pending, holes)
        new = sum(was is None for was in former)
        self._pending.tell(self._words(new=new, gone=len(gone)))

    def _words(self, *, new: int, gone: int) -> str:
        gaps = gaps_mm(self._places[0])
        told = f"{len(gaps) + 1} joints, {sum(gaps) / len(gaps):.1f} mm from hole to hole"
        return f"{told}; {new} new and {gone} gone." if new or gone else f"{told}."

    def _former(self, count: int) -> list[int | None]:
        """Return for each place in the new row which joint of the old one comes to stand there."""
        had = len(self._row.joints)
        found: list[int | None] = [None] * count
        special = [at for at in range(had) if self._is_special(at)]
        if len(special) > count:
            text = f"{len(special)} joints of the row pass further layers."
            raise NotTakenError(text, f"Give the row {len(special)} joints or more.")
        for at in special:
            wanted = round(at * (count - 1) / (had - 1))
            free = [place for place in range(count) if found[place] is None]
            found[min(free, key=lambda place: abs(place - wanted))] = at
        plain = [at for at in range(had) if at not in special]
        open_ = [place for place in range(count) if found[place] is None]
        if len(plain) > len(open_):
            shares = [
                round(n * (len(plain) - 1) / max(1, len(open_) - 1)) for n in range(len(open_))
            ]
            plain = [plain[share] for share in shares]
        for place, at in zip(_spread(open_, len(plain)), plain, strict=True):
            found[place] = at
        return found

    def _is_special(self, at: int) -> bool:
        stack = self._pending.pattern.joint(self._row.joints[at]).stack
        return {hole.id for hole in self._held_at(at).values()} != set(stack)

    def _held_at(self, at: int) -> Mapping[Any, Any]:
        rung = self._row.rungs[at]
        return {layer: rung[layer] for layer in self._layers}

    def _moved(self, at: int, was: int) -> str:
        for layer, spots in zip(self._layers, self._places, strict=True):
            put_hole(self._pending, self._row.rungs[was][layer].id, spots[at])
        return self._row.joints[was]

    def _made(self, at: int) -> str:
        like = next(n for n in range(len(self._row.joints)) if not self._is_special(n))
        joint = self._row.joints[like]
        ids: dict[str, str] = {}
        for layer, spots in zip(self._layers, self._places, strict=True):
            hole = self._row.rungs[like][layer]
            ids[hole.id] = self._namer.next_hole(hole.id)
            part = self._pending.part(hole.part)
            draw_hole(self._pending, part, ids[hole.id], (*spots[at], hole.diameter_mm))
        told = dict(self._pending.entry("joints", joint))
        told["stack"] = [ids[hole] for hole in told["stack"]]
        name = self._namer.next_joint(joint)
        self._pending.add("joints", name, told)
        return name


def _spread(places: Sequence[int], count: int) -> list[int]:
    """Return so many of the places, evenly among them, the first and the last with them."""
    if count <= 1:
        return list(places[:count])
    return [places[round(n * (len(places) - 1) / (count - 1))] for n in range(count)]


def _inside(part: Part, along: Along) -> Ring:
    """Return the shorter line between two spots along a part's edge, so far inside it."""
    import shapely
    from shapely.ops import substring

    inner = ring_shape(part.outline).buffer(-along.inset_mm, join_style="mitre")
    if inner.is_empty or not isinstance(inner, shapely.Polygon):
        text = f"The {part.name} is too narrow for a row {along.inset_mm:g} mm inside its edge."
        raise NotTakenError(text, "Put the row nearer to the edge.")
    ring = inner.exterior
    first, last = (ring.project(shapely.Point(spot)) for spot in (along.start, along.end))
    low, high = sorted((first, last))
    straight = list(substring(ring, low, high).coords)
    round_it = [*substring(ring, high, ring.length).coords, *substring(ring, 0, low).coords[1:]]
    if high - low <= ring.length / 2:
        chosen = straight if first == low else straight[::-1]
    else:
        chosen = round_it if first == high else round_it[::-1]
    return tuple((x, y) for x, y in chosen)


def _at_shares(corners: Ring, count: int) -> Iterator[Point]:
    """Yield so many spots along a line, evenly, its ends with them."""
    from shapely import LineString

    line = LineString(corners)
    for at in range(count):
        spot = line.interpolate(at / (count - 1), normalized=True)
        yield spot.x, spot.y
