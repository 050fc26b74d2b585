"""A skirt of scales for the timings: small plates that overlap like roof tiles, on a base or straps.

The base is a flared skirt of equal panels riveted to each other all round; each scale hangs on its
panel by two rivets. On straps, each row of scales hangs on a strap of its own, as on a belt.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from random import Random

from geometry.reach.stake_cuts import staves

from armorplan.pattern.joining import Joint, JointKind
from armorplan.pattern.parts import Hole, Part, PartKind, Point
from armorplan.pattern.pattern import Pattern

ROWS, WIDE_MM, LONG_MM, STEP_MM = 12, 30.0, 62.0, 42.0
PANELS = 5


def on_base(scales: int = 240) -> Pattern:
    """Return a skirt of five panels with their scales, in twelve rows."""
    across = scales // ROWS // PANELS
    top_mm, slant_mm = across * PANELS * WIDE_MM / 6.283 + 14.0, ROWS * STEP_MM + 40.0
    skirt = staves(
        Random(1),  # noqa: S311 - the same skirt every time
        mouth_mm=top_mm * 1.3,
        end_mm=top_mm,
        slant_mm=slant_mm,
        count=PANELS,
    ).pattern()
    parts, joints = {part.id: part for part in skirt.parts}, []
    for panel in range(PANELS):
        base = parts[f"p{panel}"]
        middle = sum(x for x, _ in base.outline) / len(base.outline)
        holes = []
        for row, column, at in _places(across, middle):
            name = f"scale{panel}_{row}_{column}"
            scale, spots = _scale(name, (panel * ROWS * across + row * across + column, 900.0))
            for n, dx in enumerate((-9.0, 9.0)):
                holes.append(_hole(f"{name}_base_{n}", base.id, (at[0] + dx, at[1])))
                joints.append(_rivet(f"{name}_j{n}", spots[n], holes[-1].id))
            parts[name] = scale
        parts[base.id] = replace(base, holes=(*base.holes, *holes))
    return replace(skirt, parts=tuple(parts.values()), joints=(*skirt.joints, *joints))


def on_straps(scales: int = 240) -> Pattern:
    """Return twelve straps with a row of scales each; neighbours in a row share no rivet."""
    across = scales // ROWS
    parts, joints = [], []
    for row in range(ROWS):
        strap, holes = f"strap{row}", []
        long_mm = across * WIDE_MM + 20.0
        for column in range(across):
            name = f"scale{row}_{column}"
            scale, spots = _scale(name, (row * across + column, 900.0))
            for n, dx in enumerate((-9.0, 9.0)):
                at = (25.0 + column * WIDE_MM + dx, row * 60.0 + 10.0)
                holes.append(_hole(f"{name}_strap_{n}", strap, at))
                joints.append(_rivet(f"{name}_j{n}", spots[n], holes[-1].id))
            parts.append(scale)
        y = row * 60.0
        outline = ((0.0, y), (long_mm, y), (long_mm, y + 20.0), (0.0, y + 20.0))
        parts.append(_part(strap, outline, tuple(holes), kind=PartKind.STRAP))
    whole = on_base(ROWS * PANELS)
    return replace(whole, parts=tuple(parts), joints=tuple(joints), seams=(), forms=())


def _places(across: int, middle: float) -> Iterator[tuple[int, int, Point]]:
    """Yield row, column and place of each scale on its panel, each second row half a scale aside."""
    for row in range(ROWS):
        for column in range(across):
            aside = (row % 2 - 0.5) * WIDE_MM / 4
            x = middle + (column - (across - 1) / 2) * WIDE_MM * 0.92 + aside
            yield row, column, (x, 40.0 + row * STEP_MM)


def _scale(name: str, laid: tuple[int, float]) -> tuple[Part, tuple[str, str]]:
    number, down = laid
    x, y = 50.0 * (number % 60), down + 90.0 * (number // 60)
    half = WIDE_MM / 2 + 4.0
    outline = (
        (x - half, y),
        (x + half, y),
        (x + half, y + LONG_MM * 0.6),
        (x, y + LONG_MM),
        (x - half, y + LONG_MM * 0.6),
    )
    spots = (f"{name}_0", f"{name}_1")
    holes = tuple(_hole(spots[n], name, (x + dx, y + 10.0)) for n, dx in enumerate((-9.0, 9.0)))
    return _part(name, outline, holes), spots


def _part(
    name: str, outline: tuple[Point, ...], holes: tuple[Hole, ...], kind: PartKind = PartKind.PLATE
) -> Part:
    return Part(
        id=name,
        name=name,
        piece="piece",
        kind=kind,
        outline=outline,
        material="hide",
        thickness_mm=3.2,
        holes=holes,
    )


def _hole(name: str, part: str, at: Point) -> Hole:
    return Hole(id=name, part=part, centre=at, diameter_mm=3.5)


def _rivet(name: str, *stack: str) -> Joint:
    return Joint(id=name, kind=JointKind.RIVET, stack=stack, fastener="tubular_9")
