"""Shells whose lengths are known in closed form: tubes, cones and frusta from flat sheets."""

from dataclasses import replace
from math import cos, pi, sin

from geometry.leather_sketches import part, pattern, rivet

from armorplan.pattern.joining import Seam
from armorplan.pattern.parts import PartKind


def evenly(start, end, count):
    return [start + (end - start) * at / (count - 1) for at in range(count)]


def box_at(left, top, right, bottom):
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def closed(sheet_id, outline, one, other, extra=None):
    """A sheet joined to itself by two rows of holes, with further holes by joint id."""
    holes = {f"one_{at}": spot for at, spot in enumerate(one)}
    holes |= {f"other_{at}": spot for at, spot in enumerate(other)}
    joints = [rivet(f"row_{at}", f"one_{at}", f"other_{at}") for at in range(len(one))]
    seam = Seam(id="row", name="side row", joints=tuple(joint.id for joint in joints))
    for joint, spot in (extra or {}).items():
        holes[f"{joint}_hole"] = spot
        joints.append(rivet(joint, f"{joint}_hole"))
    return pattern(part(sheet_id, outline, holes), joints=tuple(joints), seams=(seam,))


def tube(width_mm=240.0, height_mm=200.0, lap_mm=0.0, count=11, extra=None):
    """A W x H sheet joined to itself; W between the rows, ``lap_mm`` beyond each of them."""
    ys = evenly(0.0 if not lap_mm else 10.0, height_mm - (10.0 if lap_mm else 0.0), count)
    outline = box_at(-lap_mm, 0.0, width_mm + lap_mm, height_mm)
    return closed("sheet", outline, [(0.0, y) for y in ys], [(width_mm, y) for y in ys], extra)


def sector(inner_mm, outer_mm, angle, count=9, steps=160, extra=None):
    """A sector of a ring, or of a disc where ``inner_mm`` is 0, joined along its straight sides."""

    def at(radius, turn):
        return radius * cos(turn), radius * sin(turn)

    turns = evenly(0.0, angle, steps)
    outline = [at(outer_mm, turn) for turn in turns]
    outline += [at(inner_mm, turn) for turn in reversed(turns)] if inner_mm else [(0.0, 0.0)]
    radii = evenly(inner_mm or outer_mm / count, outer_mm, count)
    return closed(
        "sheet", tuple(outline), [at(r, 0.0) for r in radii], [at(r, angle) for r in radii], extra
    )


def two_part_tube(width_mm=120.0, height_mm=200.0, count=11):
    """A tube of two sheets joined by two rows."""
    ys = evenly(0.0, height_mm, count)
    outline = box_at(0.0, 0.0, width_mm, height_mm)
    parts, joints, seams = [], [], []
    for name in ("front", "back"):
        holes = {f"{name}_left_{at}": (0.0, y) for at, y in enumerate(ys)}
        holes |= {f"{name}_right_{at}": (width_mm, y) for at, y in enumerate(ys)}
        parts.append(part(name, outline, holes))
    for row, one, other in (("far", "left", "right"), ("near", "right", "left")):
        made = [
            rivet(f"{row}_{at}", f"front_{one}_{at}", f"back_{other}_{at}") for at in range(count)
        ]
        joints += made
        seams.append(Seam(id=row, name=f"{row} row", joints=tuple(joint.id for joint in made)))
    return pattern(*parts, joints=tuple(joints), seams=tuple(seams))


def without_outline(sketch):
    return replace(sketch, parts=tuple(replace(part, outline=()) for part in sketch.parts))


def opening_mm(perimeter_mm):
    return perimeter_mm / pi


def rows_between(plates, rows):
    """Plates with rows by name: (plate, spots, other plate, spots)."""
    holes = {plate: {} for plate in plates}
    joints, seams = [], []
    for name, (one, here, other, there) in rows.items():
        made = []
        for at, (a, b) in enumerate(zip(here, there, strict=True)):
            holes[one][f"{name}{at}_a"] = a
            holes[other][f"{name}{at}_b"] = b
            made.append(rivet(f"{name}{at}", f"{name}{at}_a", f"{name}{at}_b"))
        joints += made
        seams.append(Seam(id=name, name=name, joints=tuple(joint.id for joint in made)))
    parts = [part(plate, outline, holes[plate]) for plate, outline in plates.items()]
    return pattern(*parts, joints=tuple(joints), seams=tuple(seams))


def overlay(width, height, dx, dy, *, over_turned=False, off_mm=0.0):
    """A plate on a larger one, held along both its long sides."""
    ends = [(10.0, 10.0 + at * (height - 20.0) / 4) for at in range(5)]
    far = [(width - 10.0, y) for _, y in ends]
    over = [[((width - x) if over_turned else x, y) for x, y in side] for side in (ends, far)]
    under = [[(x + dx + off, y + dy) for x, y in side] for side, off in ((ends, 0), (far, off_mm))]
    sketch = rows_between(
        {
            "under": box_at(0.0, 0.0, width + 2 * dx, height + 2 * dy),
            "over": box_at(0.0, 0.0, width, height),
        },
        {"l": ("under", under[0], "over", over[0]), "r": ("under", under[1], "over", over[1])},
    )
    parts = tuple(
        replace(each, drawn_from_inside=over_turned and each.id == "over") for each in sketch.parts
    )
    return replace(sketch, parts=parts)


def pouch(width, height, step_mm, *, sides, turned=False):
    """Two like plates on each other, held along two or three of their sides, or all round."""
    down = evenly(8.0, height - 8.0, max(3, int(height / step_mm)))
    along = evenly(8.0, width - 8.0, max(4, int(width / step_mm)))[1:-1]
    spots = {
        "l": [(8.0, y) for y in down],
        "r": [(width - 8.0, y) for y in down],
        "bottom": [(x, height - 8.0) for x in along],
        "top": [(x, 8.0) for x in along],
    }
    plate = box_at(0.0, 0.0, width, height)
    rows = {
        name: ("a", spots[name], "b", [((width - x) if turned else x, y) for x, y in spots[name]])
        for name in list(spots)[:sides]
    }
    sketch = rows_between({"a": plate, "b": plate}, rows)
    parts = tuple(replace(p, drawn_from_inside=turned and p.id == "b") for p in sketch.parts)
    return replace(sketch, parts=parts)


def lapped_cuff(strip, height_mm=200.0, count=4):
    """A plate closed on itself with a strip in its row ("inside", "between" or "outside"), or none.

    A strap's joint ``on`` sits in the middle of the plate, opposite the row.
    """
    ys = evenly(20.0, height_mm - 20.0, count)
    sheet = {f"one_{at}": (10.0, y) for at, y in enumerate(ys)}
    sheet |= {f"other_{at}": (290.0, y) for at, y in enumerate(ys)}
    sheet["on_hole"] = (150.0, height_mm / 2)
    parts = [part("sheet", box_at(0.0, 0.0, 300.0, height_mm), sheet)]
    if strip:
        holes = {f"strip_{at}": (15.0, y) for at, y in enumerate(ys)}
        parts.append(part("strip", box_at(0.0, 0.0, 30.0, height_mm), holes))
    strap = part("strap", box_at(0.0, 0.0, 16.0, 80.0), {"end": (8.0, 10.0)}, kind=PartKind.STRAP)
    stacks = {
        "": ("one", "other"),
        "inside": ("one", "other", "strip"),
        "between": ("one", "strip", "other"),
        "outside": ("strip", "one", "other"),
    }
    made = [
        rivet(f"row_{at}", *(f"{end}_{at}" for end in stacks[strip]), fastener="tubular_9")
        for at in range(count)
    ]
    seam = Seam(id="row", name="side row", joints=tuple(joint.id for joint in made))
    on = rivet("on", "end", "on_hole", fastener="tubular_9")
    return pattern(*parts, strap, joints=(*made, on), seams=(seam,))
