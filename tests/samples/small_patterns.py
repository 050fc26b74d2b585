"""Small patterns of two layers and one or two rows, for faults that the samples have no place for."""

from __future__ import annotations

from collections.abc import Sequence
from math import asin

from samples.planted import Work
from samples.shapes import Path, Point, Shape, polar, sheet

HOLE_MM = 4.0
_HEAD = """format = 1

[pattern]
uuid = "0d3c1d0e-4f0b-4f5b-8a53-77f1d0a9c211"
name = "Cuff of the lantern watch"
version = 1
drawings = ["cuff.svg"]

[pieces.cuff]
name = "Cuff"
mirrored = false

[materials.plate_leather]
leather = "shell_plate"
thickness_mm = 4.0

[materials.strap_leather]
leather = "strap"
thickness_mm = 3.0
"""


def rect(width_mm: float, height_mm: float) -> Path:
    """Draw a rectangle from its upper left corner."""
    path = Path().move((0.0, 0.0)).line((width_mm, 0.0))
    return path.line((width_mm, height_mm)).line((0.0, height_mm))


def part(name: str, kind: str = "plate", material: str = "plate_leather") -> str:
    """Write the table of a part."""
    return (
        f'\n[parts.{name}]\nname = "{name}"\npiece = "cuff"\nkind = "{kind}"\n'
        f'material = "{material}"\n'
    )


def row(name: str, outer: str, inner: str, count: int) -> str:
    """Write a seam of rivets through the holes ``outer_1`` and ``inner_1`` and on."""
    text = ""
    for n in range(1, count + 1):
        text += (
            f'\n[joints.{name}_{n}]\nkind = "rivet"\nstack = ["{outer}_{n}", "{inner}_{n}"]\n'
            'fastener = "tubular_9"\n'
        )
    joints = ", ".join(f'"{name}_{n}"' for n in range(1, count + 1))
    return f'{text}\n[seams.{name}]\nname = "{name} row"\njoints = [{joints}]\n'


def holes(name: str, spots: Sequence[Point]) -> tuple[tuple[str, Point, float], ...]:
    """Return holes counted from 1."""
    return tuple((f"{name}_{n}", spot, HOLE_MM) for n, spot in enumerate(spots, start=1))


def work(shapes: Sequence[Shape], *tables: str) -> Work:
    """Return a pattern of shapes on a sheet, with its tables."""
    svg = sheet(shapes, title="Cuff", width_mm=700, height_mm=500)
    return Work(_HEAD + "".join(tables), svg, drawing="cuff.svg")


def two_layers(*, radius_mm: float, angle_deg: float, spacing_mm: float = 25.0) -> Work:
    """Return two layers of 4 mm riveted across a bend that is made dry, after the rivets."""
    along = [(20.0 + spacing_mm * n, 30.0) for n in range(5)]
    wide = along[-1][0] + 20.0
    shapes = (
        Shape("outer", rect(wide, 60.0), (20.0, 20.0), holes("outer", along)),
        Shape("inner", rect(wide, 60.0), (20.0, 120.0), holes("inner", along)),
    )
    bends = "".join(
        f'\n[forms.{name}_round]\nkind = "bend"\nparts = ["{name}"]\nroute = "dry"\n'
        f"axis = [[{20 + wide / 2}, {y}], [{20 + wide / 2}, {y + 60}]]\n"
        f"radius_mm = {radius_mm + out_mm}\nangle_deg = {angle_deg}\n"
        for name, y, out_mm in (("outer", 20, 4.0), ("inner", 120, 0.0))
    )
    return work(shapes, part("outer"), part("inner"), row("across", "outer", "inner", 5), bends)


def row_along_the_axis(*, radius_mm: float, angle_deg: float) -> Work:
    """Return two layers riveted along the axis of their bend."""
    down = [(70.0, 20.0 + 25.0 * n) for n in range(5)]
    shapes = (
        Shape("outer", rect(140.0, 140.0), (20.0, 20.0), holes("outer", down)),
        Shape("inner", rect(140.0, 140.0), (200.0, 20.0), holes("inner", down)),
    )
    bends = "".join(
        f'\n[forms.{name}_round]\nkind = "bend"\nparts = ["{name}"]\nroute = "dry"\n'
        f"axis = [[{x}, 20], [{x}, 160]]\nradius_mm = {radius_mm + out_mm}\nangle_deg = {angle_deg}\n"
        for name, x, out_mm in (("outer", 90, 4.0), ("inner", 270, 0.0))
    )
    return work(shapes, part("outer"), part("inner"), row("along", "outer", "inner", 5), bends)


def two_rows(*, shift_mm: float) -> Work:
    """Return two layers held by two rows, the lower one shifted on the inner layer."""
    top = [(30.0 + 25.0 * n, 20.0) for n in range(5)]
    low = [(30.0 + 25.0 * n, 80.0) for n in range(5)]
    shifted = [(x + shift_mm, y) for x, y in low]
    shapes = (
        Shape(
            "outer", rect(180, 100), (20, 20), (*holes("outer_top", top), *holes("outer_low", low))
        ),
        Shape(
            "inner",
            rect(180, 100),
            (20, 150),
            (*holes("inner_top", top), *holes("inner_low", shifted)),
        ),
    )
    return work(
        shapes,
        part("outer"),
        part("inner"),
        row("top", "outer_top", "inner_top", 5),
        row("low", "outer_low", "inner_low", 5),
    )


def _arc(radius_mm: float, chord_mm: float, count: int) -> list[Point]:
    step = 2 * asin(chord_mm / 2 / radius_mm)
    return [polar(radius_mm, (n - (count - 1) / 2) * step) for n in range(count)]


def _ring(inner_mm: float, outer_mm: float, half: float) -> Path:
    path = Path().move(polar(inner_mm, -half))
    path.arc(inner_mm, polar(inner_mm, half), clockwise=False).line(polar(outer_mm, half))
    return path.arc(outer_mm, polar(outer_mm, -half), clockwise=True)


def flared_lame(*, shell_mm: float, lame_mm: float, chord_mm: float) -> Work:
    """Return a shell and a lame whose rows bulge towards each other, with equal chords."""
    shell_row = _arc(shell_mm, chord_mm, 7)
    lame_row = [(x, lame_mm + 60.0 - y) for x, y in _arc(lame_mm, chord_mm, 7)]
    half = 3.6 * chord_mm / lame_mm
    lame = Path(
        [
            (name, tuple((-x, lame_mm + 60.0 - y) for x, y in points))
            for name, points in _ring(lame_mm - 14.0, lame_mm + 50.0, half).commands
        ]
    )
    shapes = (
        Shape(
            "shell",
            _ring(shell_mm - 60.0, shell_mm + 14.0, 3.6 * chord_mm / shell_mm),
            (200.0, 20.0),
            holes("shell", shell_row),
        ),
        Shape("lame", lame, (200.0, 300.0), holes("lame", lame_row)),
    )
    return work(shapes, part("shell"), part("lame", "lame"), row("flare", "lame", "shell", 7))


def frustum_on_strap(*, arc_mm: float, chord_mm: float) -> Work:
    """Return a straight strap riveted along the curved edge of a plate cut as part of a cone."""
    straight = [(14.0 + chord_mm * n, 0.0) for n in range(7)]
    strap = Path(
        [
            (n, tuple((x, y - 10.0) for x, y in p))
            for n, p in rect(straight[-1][0] + 14, 20).commands
        ]
    )
    shapes = (
        Shape(
            "plate",
            _ring(arc_mm - 100.0, arc_mm + 14.0, 3.7 * chord_mm / arc_mm),
            (200.0, -arc_mm + 200.0),
            holes("plate", _arc(arc_mm, chord_mm, 7)),
        ),
        Shape("strap", strap, (60.0, 300.0), holes("strap", straight)),
    )
    return work(
        shapes,
        part("plate"),
        part("strap", "strap", "strap_leather"),
        row("edge", "strap", "plate", 7),
    )
