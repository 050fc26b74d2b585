"""Drawings as they come out of many programs: one truth, drawn in a mess of ways, by a seed.

A truth is a list of plates in mm: outline, round holes, slots. ``drawn`` makes strokes of it,
``as_svg`` and ``as_dxf`` files.
"""

import io
from dataclasses import dataclass, field
from math import cos, hypot, pi, sin
from random import Random

import shapely

from armorplan.geometry.brought.model import LooseDrawing, ShapeKind, Stroke, Sureness, UnitGuess


@dataclass(frozen=True, kw_only=True)
class Plate:
    """One part of the truth, in mm."""

    outline: tuple
    holes: tuple = ()
    slots: tuple = ()
    name: str = ""


@dataclass(kw_only=True)
class Mess:
    """Lines of a drawing in mm: corners, closed, circle, layer."""

    lines: list = field(default_factory=list)

    def add(self, points, *, closed=True, circle=None, layer="cut"):
        self.lines.append((tuple(points), closed, circle, layer))

    def as_drawing(self, mm_each=1.0):
        f = 1 / mm_each
        strokes = tuple(
            Stroke(
                key=f"s{n}",
                points=tuple((x * f, y * f) for x, y in points),
                closed=closed,
                circle=circle and ((circle[0][0] * f, circle[0][1] * f), circle[1] * f),
                layer=layer,
            )
            for n, (points, closed, circle, layer) in enumerate(self.lines)
        )
        unit = UnitGuess(mm_each=mm_each, why="", sureness=Sureness.SAID)
        return LooseDrawing(name="mess.svg", strokes=strokes, unit=unit)


def ring(centre, wide, corners, turn=0.0):
    """Return the corners of a circle."""
    x, y = centre
    return [
        (
            x + wide / 2 * cos(turn + 2 * pi * n / corners),
            y + wide / 2 * sin(turn + 2 * pi * n / corners),
        )
        for n in range(corners)
    ]


def as_circle(mess, centre, wide):
    mess.add(ring(centre, wide, 36), circle=(centre, wide))


def as_polygon(corners):
    return lambda mess, centre, wide: mess.add(ring(centre, wide, corners, turn=0.1))


def as_half_arcs(mess, centre, wide):
    whole = ring(centre, wide, 24)
    mess.add(whole[:13], closed=False)
    mess.add([*whole[12:], whole[0]], closed=False)


def as_short_lines(mess, centre, wide):
    whole = ring(centre, wide, 16)
    for a, b in zip(whole, [*whole[1:], whole[0]], strict=True):
        mess.add([a, b], closed=False)


HOLES = {
    "circle": as_circle,
    "36 corners": as_polygon(36),
    "12 corners": as_polygon(12),
    "8 corners": as_polygon(8),
    "half arcs": as_half_arcs,
    "short lines": as_short_lines,
}


def plain(plates, hole=as_circle):
    """Draw plates as they are."""
    mess = Mess()
    for plate in plates:
        mess.add(plate.outline)
        for slot in plate.slots:
            mess.add(slot)
        for centre, wide in plate.holes:
            hole(mess, centre, wide)
    return mess


def in_pieces(mess, random, *, jitter_mm=0.0):
    """Cut closed lines into open pieces, some turned round, in any order."""
    found = Mess()
    for points, closed, circle, layer in mess.lines:
        if circle or not closed:
            found.lines.append((points, closed, circle, layer))
            continue
        around = [*points, points[0]]
        cuts = sorted(
            random.sample(range(1, len(points)), min(len(points) - 1, random.randint(1, 6)))
        )
        for a, b in zip([0, *cuts], [*cuts, len(points)], strict=True):
            piece = [_moved(p, random, jitter_mm) for p in around[a : b + 1]]
            found.add(piece[:: random.choice((1, -1))], closed=False, layer=layer)
    random.shuffle(found.lines)
    return found


def _moved(point, random, by):
    return (point[0] + random.uniform(-by, by), point[1] + random.uniform(-by, by))


def in_segments(mess):
    """Explode everything to lines of two points."""
    found = Mess()
    for points, closed, _, layer in mess.lines:
        for a, b in zip(points, [*points[1:], points[0]] if closed else points[1:], strict=False):
            found.add([a, b], closed=False, layer=layer)
    return found


def doubled(mess, random):
    """Draw every line twice, the second time from another corner or turned round."""
    found = Mess(lines=list(mess.lines))
    for points, closed, circle, layer in mess.lines:
        at = random.randrange(len(points)) if closed else 0
        again = (*points[at:], *points[:at])
        found.lines.append((again[:: random.choice((1, -1))], closed, circle, layer))
    return found


def kerf(mess, by_mm, plates):
    """Add to every part a line farther out, to every hole and slot one farther in."""
    found = Mess(lines=list(mess.lines))
    outlines = {tuple(p.outline) for p in plates}
    for points, _, circle, layer in mess.lines:
        outer = tuple(points) in outlines
        if circle:
            found.add(
                ring(circle[0], circle[1] - 2 * by_mm, 36),
                circle=(circle[0], circle[1] - 2 * by_mm),
            )
        else:
            area = shapely.Polygon(points).buffer(by_mm if outer else -by_mm)
            found.add(list(area.exterior.coords)[:-1], layer=layer)
    return found


def differences(found, plates, *, apart_mm=0.06, share=0.004):
    """Return, in words, how shapes differ from the truth."""
    told = []
    parts = [s for s in found.shapes if s.kind is ShapeKind.PART]
    if len(parts) != len(plates):
        told.append(f"{len(parts)} parts instead of {len(plates)}")
    for plate in plates:
        true = shapely.Polygon(plate.outline)
        near = [
            s
            for s in parts
            if shapely.Polygon(s.points).buffer(0).symmetric_difference(true).area
            <= share * true.area + 4 * apart_mm * 3
        ]
        if len(near) != 1:
            told.append(f"{plate.name}: {len(near)} outlines like it")
            continue
        inside = [s for s in found.shapes if s.inside == near[0].key]
        holes = [s.circle for s in inside if s.kind is ShapeKind.HOLE]
        told += _unlike(plate, holes, apart_mm)
        slots = [s for s in inside if s.kind is ShapeKind.SLOT]
        if len(slots) != len(plate.slots):
            told.append(f"{plate.name}: {len(slots)} slots instead of {len(plate.slots)}")
    return told


def _unlike(plate, holes, apart_mm):
    if len(holes) != len(plate.holes):
        yield f"{plate.name}: {len(holes)} holes instead of {len(plate.holes)}"
    for (x, y), wide in plate.holes:
        if not any(
            hypot(x - c[0], y - c[1]) <= apart_mm and abs(wide - w) <= 3 * apart_mm
            for c, w in holes
        ):
            yield f"{plate.name}: no hole of {wide} mm at ({x:.1f}, {y:.1f})"


def slot(centre, long, wide, turn=0.0):
    """Return a slot with round ends."""
    x, y = centre
    half = (long - wide) / 2
    line = shapely.LineString(
        [
            (x - half * cos(turn), y - half * sin(turn)),
            (x + half * cos(turn), y + half * sin(turn)),
        ]
    )
    return tuple(line.buffer(wide / 2, quad_segs=6).exterior.coords)[:-1]


def lantern_plates(random, count):
    """Return plates of many forms in a grid, no two alike."""
    plates = []
    columns = max(int(count**0.5), 1)
    for n in range(count):
        x, y = (n % columns) * 230 + 120.0, (n // columns) * 170 + 90.0
        wide, high = random.uniform(90, 190), random.uniform(50, 130)
        corners = random.choice((4, 6, 9, 40))
        turn = random.uniform(0, 1)
        outline = tuple(
            (
                x + wide / 2 * cos(turn + 2 * pi * k / corners) * random.uniform(0.93, 1.0),
                y + high / 2 * sin(turn + 2 * pi * k / corners) * random.uniform(0.93, 1.0),
            )
            for k in range(corners)
        )
        inner = shapely.Polygon(outline).buffer(-9)
        holes = []
        edge = inner.exterior
        step = random.uniform(16, 30)
        for k in range(int(edge.length // step) - 1):
            spot = edge.interpolate(k * step)
            if n % 3 == 0 and spot.distance(shapely.Point(x, y)) < 17:
                continue
            holes.append(((spot.x, spot.y), random.choice((3.2, 4.0, 5.0))))
        slots = (slot((x, y), 24, 4.5, random.uniform(0, 3)),) if n % 3 == 0 else ()
        plates.append(Plate(outline=outline, holes=tuple(holes), slots=slots, name=f"plate {n}"))
    return plates


def as_svg(mess, *, mm_each=1.0, head=None, text=()):
    """Return a mess as an SVG of paths and circles."""
    f = 1 / mm_each
    body = []
    for points, closed, circle, layer in mess.lines:
        if circle:
            (x, y), wide = circle
            body.append(
                f'<circle cx="{x * f:.6g}" cy="{y * f:.6g}" r="{wide / 2 * f:.6g}" class="{layer}"/>'
            )
        else:
            way = " ".join(f"{x * f:.7g},{y * f:.7g}" for x, y in points)
            body.append(f'<path d="M{way}{"z" if closed else ""}" class="{layer}"/>')
    body += [
        f'<text x="{x * f}" y="{y * f}" font-size="{6 * f}">{words}</text>'
        for words, (x, y) in text
    ]
    head = head or f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {1000 * f} {1000 * f}">'
    return f"{head}<style>path,circle{{fill:none;stroke:#000}}</style>{''.join(body)}</svg>"


def as_dxf(mess, *, version="R2010", units=4, mm_each=1.0, binary=False):
    """Return a mess as a DXF file of polylines and circles."""
    import ezdxf

    document = ezdxf.new(version)
    document.header["$INSUNITS"] = units
    space = document.modelspace()
    f = 1 / mm_each
    for points, closed, circle, layer in mess.lines:
        looks = {"layer": layer}
        if circle:
            (x, y), wide = circle
            space.add_circle((x * f, -y * f), wide / 2 * f, dxfattribs=looks)
        elif len(points) == 2:
            (a, b), (c, d) = points
            space.add_line((a * f, -b * f), (c * f, -d * f), dxfattribs=looks)
        else:
            space.add_polyline2d(
                [(x * f, -y * f) for x, y in points], close=closed, dxfattribs=looks
            )
    if binary:
        stream = io.BytesIO()
        document.write(stream, fmt="bin")
        return stream.getvalue()
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode("utf-8")


def seeded(number):
    """Return a source of chance that is the same in every run."""
    return Random(number)  # noqa: S311 - drawings, not secrets
