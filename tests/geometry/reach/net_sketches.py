"""Shells whose lengths are known in closed form: tubes, cones and frusta from flat sheets."""

from dataclasses import replace
from math import cos, pi, sin

from geometry.leather_sketches import part, pattern, rivet

from armorplan.pattern.joining import Seam


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
