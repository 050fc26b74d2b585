"""A pair of elbows and a yoke, drawn by hand: the folder a maker would have typed, part by part."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import asin, cos, pi, sin

Point = tuple[float, float]
Ring = tuple[Point, ...]


@dataclass(frozen=True)
class HandPart:
    """A part as the hand-made folder has it; ``sided`` ones are drawn left and right for a cutter."""

    id: str
    kind: str
    piece: str
    outline: Ring
    holes: dict[str, tuple[Point, float]] = field(default_factory=dict)
    slots: dict[str, Ring] = field(default_factory=dict)

    @property
    def sided(self) -> bool:
        return self.piece == "elbow"


def _lame(name: str, wide: float, extra: dict[str, tuple[Point, float]]) -> HandPart:
    top = [(wide * n / 24, 8 - 8 * sin(pi * n / 24)) for n in range(25)]
    low = [(wide - 5 - (wide - 10) * n / 24, 70 + 6 * sin(pi * n / 24)) for n in range(25)]
    pivots = {f"{name}_near": ((12.0, 58.0), 5.5), f"{name}_far": ((wide - 12, 58.0), 5.5)}
    return HandPart(name, "lame", "elbow", (*top, *low), pivots | extra)


def _box(wide: float, high: float, *, nose: float = 0.0) -> Ring:
    tip = ((wide + nose, high / 2),) if nose else ()
    return ((0.0, 0.0), (wide, 0.0), *tip, (wide, high), (0.0, high))


def _slot(x: float, y: float, long: float, wide: float = 3.5) -> Ring:
    return ((x, y), (x + long, y), (x + long, y + wide), (x, y + wide))


SPACINGS = (20.0, 21.0, 23.0, 20.0, 22.0)
"""Unlike from either end, so that the row has one order."""


def _along(spacings: tuple[float, ...], radius: float, *, bulge: int) -> list[Point]:
    """Return spots on an arc with these chords, from above to below, bulging right or left."""
    turns = [2 * asin(each / 2 / radius) for each in spacings]
    angle = -sum(turns) / 2
    spots = [(bulge * radius * cos(angle), radius * sin(angle))]
    for turn in turns:
        angle += turn
        spots.append((bulge * radius * cos(angle), radius * sin(angle)))
    return spots


def _cop() -> HandPart:
    row = _along(SPACINGS, 150.0, bulge=1)
    holes = {f"cop_row_{n}": ((x + 64.0, y + 75.0), 4.0) for n, (x, y) in enumerate(row, 1)}
    holes |= {
        "cop_upper_near": ((14.0, 14.0), 5.5),
        "cop_upper_far": ((210.0, 14.0), 5.5),
        "cop_lower_near": ((15.5, 136.0), 5.5),
        "cop_lower_far": ((208.5, 136.0), 5.5),
        "cop_boss_1": ((85.0, 75.0), 3.5),
        "cop_boss_2": ((119.0, 75.0), 3.5),
    }
    right = [
        (64 + 163 * cos(t / 12 * 0.45), 75 + 163 * sin(t / 12 * 0.45)) for t in range(-12, 13)
    ]
    return HandPart("cop", "cop", "elbow", ((0.0, 4.0), *right, (0.0, 146.0)), holes)


def _wing() -> HandPart:
    row = _along(SPACINGS, 150.0, bulge=-1)
    holes = {f"wing_row_{n}": ((x + 163.0, y + 66.0), 4.0) for n, (x, y) in enumerate(row, 1)}
    left = [
        (163 - 163 * cos(t / 12 * 0.38), 66 - 163 * sin(t / 12 * 0.38)) for t in range(-12, 13)
    ]
    return HandPart("wing", "cop", "elbow", (*left, (95.0, 20.0), (88.0, 120.0)), holes)


def _boss() -> HandPart:
    ring = tuple(
        (35 + 35 * cos(2 * pi * n / 48), 30 + 30 * sin(2 * pi * n / 48)) for n in range(48)
    )
    holes = {"boss_1": ((18.0, 30.0), 3.5), "boss_2": ((52.0, 30.0), 3.5)}
    return HandPart("boss", "trim", "elbow", ring, holes)


def _straps() -> tuple[HandPart, ...]:
    sets = {f"strap_set_{n}": ((150.0 + 20 * n, 10.0), 3.0) for n in range(4)}
    strap = {"strap_1": ((10.0, 10.0), 4.0), "strap_2": ((34.0, 10.0), 4.0)}
    tab = {"tab_1": ((10.0, 10.0), 4.0), "tab_2": ((40.0, 10.0), 4.0)}
    keeper = {"keeper_1": ((6.0, 8.0), 3.0), "keeper_2": ((58.0, 8.0), 3.0)}
    return (
        HandPart("strap", "strap", "elbow", _box(230, 20, nose=12), strap | sets),
        HandPart("tab", "strap", "elbow", _box(95, 20), tab),
        HandPart("keeper", "keeper", "elbow", _box(64, 16), keeper),
    )


def _yoke() -> tuple[HandPart, ...]:
    ys = (20.0, 45.0, 73.0, 104.0, 130.0)
    back = {f"back_{n}": ((150.0, y), 4.0) for n, y in enumerate(ys, 1)}
    front = {f"front_{n}": ((10.0, y), 4.0) for n, y in enumerate(ys, 1)}
    back |= {"back_strap_1": ((40.0, 30.0), 4.0), "back_strap_2": ((40.0, 48.0), 4.0)}
    front |= {"front_loop_1": ((120.0, 60.0), 4.0), "front_loop_2": ((120.0, 87.0), 4.0)}
    long = {"yoke_strap_1": ((12.0, 12.5), 4.0), "yoke_strap_2": ((30.0, 12.5), 4.0)}
    loop = {"yoke_loop_1": ((12.0, 12.5), 4.0), "yoke_loop_2": ((39.0, 12.5), 4.0)}
    return (
        HandPart("back", "plate", "yoke", ((0, 0), (160, 0), (160, 150), (30, 150)), back),
        HandPart("front", "plate", "yoke", ((0, 0), (140, 20), (140, 150), (0, 150)), front),
        HandPart("yoke_strap", "strap", "yoke", _box(180, 25, nose=10), long),
        HandPart("yoke_loop", "strap", "yoke", _box(140, 25), loop),
    )


def _upper() -> HandPart:
    extra = {
        "upper_strap_1": ((170.0, 30.0), 4.0),
        "upper_strap_2": ((194.0, 30.0), 4.0),
        "upper_tab_1": ((20.0, 30.0), 4.0),
        "upper_tab_2": ((50.0, 30.0), 4.0),
    }
    lame = _lame("upper", 220.0, extra)
    slots = {"upper_slot_top": _slot(85, 20, 17), "upper_slot_low": _slot(85, 44, 17)}
    return HandPart(lame.id, lame.kind, lame.piece, lame.outline, lame.holes, slots)


PARTS: tuple[HandPart, ...] = (
    _upper(),
    _lame("lower", 217.0, {}),
    _cop(),
    _wing(),
    *_straps(),
    _boss(),
    *_yoke(),
)
"""Twelve: eight that are drawn left and right, four that are drawn once."""

Row = tuple[str, tuple[tuple[str, str], ...], str, bool]
"""Its name, holes that meet, the outer one first, the fastener, whether it is set on the wearer."""


def _row(
    name: str, outer: str, inner: str, count: int, fastener: str, *, wearer: bool = False
) -> Row:
    pairs = tuple((f"{outer}_{n}", f"{inner}_{n}") for n in range(1, count + 1))
    return (name, pairs, fastener, wearer)


ROWS: tuple[Row, ...] = (
    _row("wing_row", "cop_row", "wing_row", 6, "tubular_9"),
    _row("boss_row", "boss", "cop_boss", 2, "double_cap_9"),
    _row("tab_row", "tab", "upper_tab", 2, "tubular_9"),
    _row("strap_row", "strap", "upper_strap", 2, "tubular_9", wearer=True),
    _row("yoke_row", "back", "front", 5, "tubular_9"),
    _row("yoke_strap_row", "yoke_strap", "back_strap", 2, "tubular_9", wearer=True),
    _row("yoke_loop_row", "yoke_loop", "front_loop", 2, "tubular_9", wearer=True),
)
PIVOTS: tuple[tuple[str, str], ...] = (
    ("cop_upper_near", "upper_near"),
    ("cop_upper_far", "upper_far"),
    ("cop_lower_near", "lower_near"),
    ("cop_lower_far", "lower_far"),
)
LEATHERS = {
    "plate": ("shell_plate", 4.0),
    "lame": ("cop_and_lame", 3.6),
    "cop": ("cop_and_lame", 3.6),
    "strap": ("strap", 2.8),
    "keeper": ("keeper", 2.0),
    "trim": ("trim", 2.8),
}
