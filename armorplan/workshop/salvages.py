"""Ways to save leather that something went wrong with, as a maker keeps them on the shelf."""

from dataclasses import dataclass

MEANS = (
    "as-is",
    "trim",
    "darker",
    "oval",
    "plug",
    "hide",
    "paint",
    "other-place",
    "reform",
)
"""What a salvage rests on, as its file names it."""
MISTAKES = ("wrong-hole", "two-alike", "wrong-colour", "row-off", "spoilt")
"""What it may mend, as the command line names it."""
WAYS = ("edge", "in", "along", "face", "shape")
"""Which way a hole or row is out, or where a part is spoilt, as the command line writes it."""
COLOURS = ("", "lighter", "darker")


@dataclass(frozen=True, slots=True, kw_only=True)
class Salvage:
    """One way to go on with what went wrong. Minutes are hands-on, at a practised bench.

    Attributes:
        name: what to do, as a sentence's beginning: ``Make the hole oval``.
        means: one of ``MEANS``.
        mends: which of ``MISTAKES``.
        minutes: once.
        per_hole_min: for each hole it is done to.
        per_part_min: for each part.
        wait_min: that time alone takes.
        risk_pct: how likely it does not hold or does not please, so that the part is cut anew after all.
        least_mm, most_mm: how far out of place a thing may be; ``None``: any.
        least_diameters, most_diameters: the same in diameters of its hole; ``None``: any.
        ways: only where it is out that way, or spoilt there: of ``WAYS``; empty: any.
        heads_cover: only where the fastener's head still covers what shows.
        load: it holds a strap that carries weight.
        holes_open: the fasteners through the holes have to be out.
        part_open: all that holds the part has to be out.
        after: kinds of step of which one has to be done to the part already; empty: none.
        not_after: kinds of step none of which may be done to it.
        part_kinds: kinds of part it is for; empty: all.
        colour: ``lighter`` where the wrong colour has to be lighter than the right one, ``darker``;
            empty: either.
        pair_uncut: only where the same part of the other side is not cut yet.
        hardware: what it uses up, once.
        hole_hardware: what it uses up for each hole.
        leaves: what stays for good, as a sentence.
        cautions: labels and local codes rule.
    """

    id: str
    name: str
    means: str
    mends: tuple[str, ...]
    source: str
    how: str = ""
    minutes: float = 0.0
    per_hole_min: float = 0.0
    per_part_min: float = 0.0
    wait_min: float = 0.0
    risk_pct: float = 0.0
    least_mm: float | None = None
    most_mm: float | None = None
    least_diameters: float | None = None
    most_diameters: float | None = None
    ways: tuple[str, ...] = ()
    heads_cover: bool = False
    load: bool = True
    holes_open: bool = False
    part_open: bool = False
    after: tuple[str, ...] = ()
    not_after: tuple[str, ...] = ()
    part_kinds: tuple[str, ...] = ()
    colour: str = ""
    pair_uncut: bool = False
    hardware: tuple[str, ...] = ()
    hole_hardware: tuple[str, ...] = ()
    leaves: str = ""
    tool: str = ""
    cautions: tuple[str, ...] = ()
