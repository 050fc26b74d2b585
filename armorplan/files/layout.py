"""Which part each hole and slot lies in: the innermost outline around it, or as declared."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from math import atan2, degrees, dist
from typing import TYPE_CHECKING

from armorplan.files.drawing import Circle, Drawing, Outline
from armorplan.files.drawn_index import DrawnIndex
from armorplan.files.faults import Faults
from armorplan.files.layout_faults import (
    note_nameless,
    tell_clash,
    tell_edge,
    tell_elsewhere,
    tell_outside,
    tell_stray,
)
from armorplan.geometry.areas import ring_shape
from armorplan.kernel.findings import Place
from armorplan.pattern.parts import Hole, Point, Slot

if TYPE_CHECKING:
    import shapely


@dataclass(frozen=True, slots=True, kw_only=True)
class Declared:
    """A hole that has a table ``[holes.ID]``, which may give it to a part."""

    part: str | None
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What the pattern names, so that its lack is an error and not only a note.

    ``outlines`` are outline ids by part id; ``holes`` and ``slots`` the ids that joints and threads
    name; ``slides`` the outlines that sliding joints name as holes; ``declared`` the holes that have
    a table.
    """

    outlines: dict[str, str]
    holes: Collection[str]
    slots: Collection[str]
    slides: Collection[str]
    declared: dict[str, Declared]


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Outlines, holes and slots by part id, in the order they are drawn."""

    outlines: dict[str, Outline] = field(default_factory=dict)
    holes: dict[str, list[Hole]] = field(default_factory=dict)
    slots: dict[str, list[Slot]] = field(default_factory=dict)

    def owner_of(self) -> dict[str, str]:
        """Return the part of every hole."""
        return {hole.id: part for part, holes in self.holes.items() for hole in holes}


def lay_out(
    drawings: Sequence[Drawing], index: DrawnIndex, wanted: Wanted, faults: Faults
) -> Layout:
    """Give every hole and slot its part; what cannot be given is told."""
    layout = Layout(
        outlines={
            part: index.outlines[outline]
            for part, outline in wanted.outlines.items()
            if outline in index.outlines
        }
    )
    for sheet, drawing in enumerate(drawings):
        parts = {
            part: outline
            for part, outline in layout.outlines.items()
            if index.sheet_of[outline.id] == sheet
        }
        _Sheet(parts, wanted=wanted, layout=layout, faults=faults).give(drawing, index)
    return layout


class _Sheet:
    """One drawing with the outlines of the parts on it."""

    def __init__(
        self, parts: dict[str, Outline], *, wanted: Wanted, layout: Layout, faults: Faults
    ) -> None:
        areas = {part: ring_shape(outline.ring) for part, outline in parts.items()}
        # The largest first: a smaller outline inside it then takes its holes over.
        self._areas = dict(sorted(areas.items(), key=lambda item: -item[1].area))
        self._names = tuple(self._areas)
        self._outline_ids = {outline.id for outline in parts.values()}
        self._wanted = wanted
        self._layout = layout
        self._faults = faults

    def give(self, drawing: Drawing, index: DrawnIndex) -> None:
        circles = [c for c in drawing.circles if c.id is None or index.circles.get(c.id) is c]
        owners = self._owners([c.centre for c in circles])
        nameless: dict[str, list[Circle]] = {}
        for circle, owner in zip(circles, owners, strict=True):
            if circle.id is not None:
                self._give_hole(circle.id, circle, owner)
            elif owner is not None:
                nameless.setdefault(owner[0], []).append(circle)
        for part, forgotten in nameless.items():
            note_nameless(self._faults, part, forgotten)
        self._check_edges({c.id: c for c in circles if c.id})
        self._give_slots(
            [
                o
                for o in drawing.outlines
                if o.id not in self._outline_ids and index.outlines.get(o.id) is o
            ]
        )

    def _owners(self, points: list[Point]) -> "list[tuple[str, str | None] | None]":
        """Return for each point the innermost part around it, and one it clashes with.

        Two parts clash over a point where neither lies inside the other.
        """
        import numpy as np
        import shapely

        owner = np.full(len(points), -1)
        clash = np.full(len(points), -1)
        xs, ys = np.array([p[0] for p in points]), np.array([p[1] for p in points])
        for number, area in enumerate(self._areas.values()):
            if not points:
                break
            shapely.prepare(area)
            inside = shapely.contains_xy(area, xs, ys)
            for before in set(owner[inside].tolist()) - {-1}:
                if not self._areas[self._names[before]].covers(area):
                    clash[inside & (owner == before)] = before
            owner[inside] = number
        return [self._named(o, c) for o, c in zip(owner.tolist(), clash.tolist(), strict=True)]

    def _named(self, owner: int, clash: int) -> tuple[str, str | None] | None:
        if owner < 0:
            return None
        return self._names[owner], None if clash < 0 else self._names[clash]

    def _give_hole(self, hole: str, circle: Circle, owner: tuple[str, str | None] | None) -> None:
        declared = self._wanted.declared.get(hole)
        if declared is not None and declared.part is not None:
            part = self._declared_part(circle, declared.part, place=declared.place)
        else:
            part = self._found_part(circle, owner)
        if part is None:
            return
        self._layout.holes.setdefault(part, []).append(
            Hole(id=hole, part=part, centre=circle.centre, diameter_mm=circle.diameter_mm)
        )

    def _declared_part(self, circle: Circle, part: str, *, place: Place) -> str | None:
        import shapely

        area = self._areas.get(part)
        if area is None:
            if part in self._layout.outlines:
                tell_elsewhere(self._faults, circle, part, place=place, where="in another drawing")
            return None
        if area.covers(shapely.Point(circle.centre)):
            return part
        tell_elsewhere(self._faults, circle, part, place=place, where="outside its outline")
        return None

    def _found_part(self, circle: Circle, owner: tuple[str, str | None] | None) -> str | None:
        is_wanted = circle.id in self._wanted.holes or circle.id in self._wanted.declared
        if owner is None:
            # Where an outline is missing, which is told, the hole may lie in that part.
            if not is_wanted or self._wanted.outlines.keys() == self._layout.outlines.keys():
                tell_outside(self._faults, circle, is_wanted=is_wanted)
            return None
        part, rival = owner
        if rival is not None:
            tell_clash(self._faults, circle, (part, rival), is_wanted=is_wanted)
            return None
        return part

    def _check_edges(self, circles: dict[str, Circle]) -> None:
        import numpy as np
        import shapely

        for part, area in self._areas.items():
            holes = self._layout.holes.get(part, ())
            if not holes:
                continue
            spots = shapely.points(np.array([hole.centre for hole in holes]))
            radii = np.array([hole.diameter_mm / 2 for hole in holes])
            edge = area.exterior
            shapely.prepare(edge)
            near = (shapely.distance(edge, spots) <= radii).tolist()
            for hole in (hole for hole, is_near in zip(holes, near, strict=True) if is_near):
                tell_edge(self._faults, circles[hole.id], part)

    def _give_slots(self, outlines: list[Outline]) -> None:
        areas = [ring_shape(outline.ring) for outline in outlines]
        spots = [area.representative_point() for area in areas]
        owners = self._owners([(spot.x, spot.y) for spot in spots])
        for outline, area, owner in zip(outlines, areas, owners, strict=True):
            part = None if owner is None or owner[1] is not None else owner[0]
            if part is not None and self._areas[part].covers(area):
                self._give_slot(outline, area, part)
            else:
                wanted = self._wanted
                is_wanted = outline.id in wanted.slots or outline.id in wanted.slides
                tell_stray(self._faults, outline, owner[0] if owner else None, is_wanted=is_wanted)

    def _give_slot(self, outline: Outline, area: "shapely.Polygon", part: str) -> None:
        """Give a part a slot; one that a joint slides in is a hole with travel."""
        if outline.id in self._wanted.slides:
            self._layout.holes.setdefault(part, []).append(_sliding_hole(outline.id, area, part))
        else:
            self._layout.slots.setdefault(part, []).append(_slot(outline, area, part))


def _sliding_hole(slot_id: str, area: "shapely.Polygon", part: str) -> Hole:
    import shapely

    corners = shapely.get_coordinates(area.minimum_rotated_rectangle).tolist()
    first, second = (corners[1], corners[0]), (corners[2], corners[1])
    width_mm, length_mm = sorted((dist(*first), dist(*second)))
    to, start = max(first, second, key=lambda side: dist(*side))
    middle = shapely.MultiPoint(corners[:4]).centroid
    # The page's y runs down, directions count from the right upward; a slot has no front.
    direction_deg = degrees(atan2(start[1] - to[1], to[0] - start[0])) % 180
    return Hole(
        id=slot_id,
        part=part,
        centre=(middle.x, middle.y),
        diameter_mm=width_mm,
        travel_mm=length_mm - width_mm,
        travel_deg=direction_deg,
    )


def _slot(outline: Outline, area: "shapely.Polygon", part: str) -> Slot:
    width_mm, length_mm = sorted(_sides(area))
    return Slot(
        id=outline.id, part=part, outline=outline.ring, length_mm=length_mm, width_mm=width_mm
    )


def _sides(area: "shapely.Polygon") -> tuple[float, float]:
    """Return the sides in mm of the smallest rectangle around an outline."""
    import shapely

    corners = shapely.get_coordinates(area.minimum_rotated_rectangle).tolist()
    return dist(corners[0], corners[1]), dist(corners[1], corners[2])
