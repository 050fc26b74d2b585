"""The same twelve parts twice: as a hand-made folder, and as a file for a cutter with no word in it.

The file draws both sides, twenty parts, in inches that it calls millimetres. Many outlines are cut
into open pieces or drawn twice, and all is shuffled.
"""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator
from dataclasses import dataclass

from samples.unnamed_parts import LEATHERS, PARTS, PIVOTS, ROWS, HandPart, Point, Ring

INCH_MM = 25.4
_GAP_MM = 25.0
_PAGE_MM = 1100.0


@dataclass(frozen=True)
class Copy:
    """One drawn part: which it is, turned over or not, and where it stands on the page."""

    part: HandPart
    at: Point
    over: bool = False

    def place(self, spot: Point) -> Point:
        x, y = spot
        return (self.at[0] + (-x if self.over else x), self.at[1] + y)


def copies() -> tuple[Copy, ...]:
    """Return all twenty where they stand on the page, in mm."""
    found: list[Copy] = []
    x, y, deep = _GAP_MM, _GAP_MM, 0.0
    for part in PARTS:
        for over in (False, True)[: 2 if part.sided else 1]:
            wide = max(px for px, _ in part.outline)
            high = max(py for _, py in part.outline)
            if x + wide > _PAGE_MM:
                x, y, deep = _GAP_MM, y + deep + _GAP_MM, 0.0
            found.append(Copy(part, (x + wide if over else x, y), over))
            x, deep = x + wide + _GAP_MM, max(deep, high)
    return tuple(found)


def holes_on_page() -> dict[Point, str]:
    """Return where on the page each hole and slot stands, mm, and what the hand-made folder calls it."""
    found: dict[Point, str] = {}
    for copy in copies():
        found |= {copy.place(at): key for key, (at, _) in copy.part.holes.items()}
        for key, ring in copy.part.slots.items():
            xs, ys = [x for x, _ in ring], [y for _, y in ring]
            found[copy.place(((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2))] = key
    return found


# --- without a word -----------------------------------------------------------------------------


def unnamed_svg(seed: int = 7) -> str:
    """Return the file for the cutter."""
    draw = random.Random(seed)  # noqa: S311 - a drawing, no secret
    lines = [line for copy in copies() for line in _lines(copy, draw)]
    draw.shuffle(lines)
    wide, high = (f"{mm / INCH_MM:.4f}" for mm in (_PAGE_MM + 50, 1000.0))
    body = "\n".join(lines)
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" '
        f'width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}">\n'
        f'<g fill="none" stroke="#000" stroke-width="0.01">\n{body}\n</g>\n</svg>\n'
    )


def _lines(copy: Copy, draw: random.Random) -> Iterator[str]:
    rings = [copy.part.outline, *copy.part.slots.values()]
    for ring in rings:
        spots = [copy.place(spot) for spot in ring]
        if draw.random() < 0.5:
            yield _path([*spots, spots[0]])
            if draw.random() < 0.6:
                yield _path([*spots, spots[0]][::-1])
        else:
            yield from _in_pieces(spots, draw)
    for at, wide_mm in copy.part.holes.values():
        x, y = (v / INCH_MM for v in copy.place(at))
        radius = wide_mm / 2 / INCH_MM
        yield f'<circle cx="{x:.5f}" cy="{y:.5f}" r="{radius:.5f}"/>'
        if draw.random() < 0.3:
            yield f'<circle cx="{x:.5f}" cy="{y:.5f}" r="{radius:.5f}"/>'


def _in_pieces(spots: list[Point], draw: random.Random) -> Iterator[str]:
    """Cut a closed outline into open pieces, some of them backwards, one of them drawn twice."""
    cuts = sorted(draw.sample(range(1, len(spots)), min(3, len(spots) - 1)))
    round_again = [*spots, spots[0]]
    ends = [0, *cuts, len(spots)]
    pieces = [round_again[a : b + 1] for a, b in itertools.pairwise(ends)]
    pieces.append(pieces[0])
    for piece in pieces:
        yield _path(piece[::-1] if draw.random() < 0.5 else piece)


def _path(spots: list[Point]) -> str:
    said = " L ".join(f"{x / INCH_MM:.5f},{y / INCH_MM:.5f}" for x, y in spots)
    return f'<path d="M {said}"/>'


# --- made by hand -------------------------------------------------------------------------------


def hand_made() -> dict[str, str]:
    """Return the files of the folder that a maker would have typed: the left ones and the yoke."""
    return {"pattern.toml": _toml(), "watch.svg": _svg()}


def _placed() -> Iterator[tuple[HandPart, Copy]]:
    for copy in copies():
        if not copy.over:
            yield copy.part, copy


def _svg() -> str:
    shapes: list[str] = []
    for part, copy in _placed():
        shapes.append(_closed(part.id, part.outline, copy))
        shapes += [_closed(key, ring, copy) for key, ring in part.slots.items()]
        for key, (at, wide_mm) in part.holes.items():
            x, y = copy.place(at)
            shapes.append(f'<circle id="{key}" cx="{x:.3f}" cy="{y:.3f}" r="{wide_mm / 2:g}"/>')
    body = "\n".join(shapes)
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" width="1150mm" height="1000mm" '
        f'viewBox="0 0 1150 1000">\n{body}\n</svg>\n'
    )


def _closed(key: str, ring: Ring, copy: Copy) -> str:
    said = " L ".join("{:.3f},{:.3f}".format(*copy.place(spot)) for spot in ring)
    return f'<path id="{key}" d="M {said} Z"/>'


_HEAD = """format = 1

[pattern]
uuid = "7a0d4f8e-7f40-4f7e-9b0e-7a1d0c5b6f10"
name = "Elbows and yoke of the lantern watch"
version = 1
drawings = ["watch.svg"]

[pieces.elbow]
name = "Elbow"
mirrored = true

[pieces.yoke]
name = "Yoke"
"""
_TAIL = """
[threads.keeper_through]
part = "keeper"
through = ["upper_slot_top", "upper_slot_low"]
closed_by = ["keeper_ends"]

[strap_places.above]
name = "above the elbow"
strap = "strap"
meets = "tab"
girth_mm = [345, 405]
holes = ["strap_set_3", "strap_set_2", "strap_set_1", "strap_set_0"]

[joints.keeper_ends]
kind = "rivet"
stack = ["keeper_1", "keeper_2"]
fastener = "double_cap_7"

[forms.cup]
kind = "closure"
parts = ["cop", "wing"]
route = "by_seam"
seams = ["wing_row"]

[forms.dishing]
kind = "dish"
parts = ["cop", "wing"]
route = "damp"
radius_mm = 73

[treatments.colour]
use = "alcohol_dye"
pieces = ["elbow", "yoke"]
colour = "brown"
coats = 2

[treatments.feed]
use = "light_oil"
pieces = ["elbow", "yoke"]

[treatments.seal]
use = "acrylic_finish"
pieces = ["elbow", "yoke"]
coats = 2

[movements.elbow_bends]
name = "the elbow bends"
parts = ["upper", "cop", "lower"]
angle_deg = 60
"""


def _toml() -> str:
    text = _HEAD
    for kind, (leather, thickness) in LEATHERS.items():
        text += f'\n[materials.{kind}]\nleather = "{leather}"\nthickness_mm = {thickness}\n'
    for part, _ in _placed():
        text += (
            f'\n[parts.{part.id}]\nname = "{part.id}"\npiece = "{part.piece}"\n'
            f'kind = "{part.kind}"\nmaterial = "{part.kind}"\n'
        )
    for outer, inner in PIVOTS:
        text += (
            f'\n[joints.{outer}]\nkind = "screw"\nstack = ["{outer}", "{inner}"]\n'
            'fastener = "screw_post_turning"\nmotion = "turning"\n'
        )
    for name, pairs, fastener, wearer in ROWS:
        for number, (outer, inner) in enumerate(pairs, start=1):
            text += (
                f'\n[joints.{name}_{number}]\nkind = "rivet"\nstack = ["{outer}", "{inner}"]\n'
                f'fastener = "{fastener}"\n' + ("placed_on_wearer = true\n" if wearer else "")
            )
        joints = ", ".join(f'"{name}_{n}"' for n in range(1, len(pairs) + 1))
        text += f'\n[seams.{name}]\nname = "{name}"\njoints = [{joints}]\n'
    return text + _bends() + _TAIL


def _bends() -> str:
    text = ""
    for part, copy in _placed():
        if part.kind == "lame":
            wide = max(x for x, _ in part.outline)
            (x, top), (_, low) = copy.place((wide / 2, 0)), copy.place((wide / 2, 76))
            text += (
                f'\n[forms.{part.id}_bend]\nkind = "bend"\nparts = ["{part.id}"]\nroute = "damp"\n'
                f"axis = [[{x:g}, {top:g}], [{x:g}, {low:g}]]\nradius_mm = {wide / 3.1416:.0f}\n"
                "angle_deg = 180\n"
            )
    return text
