"""What each line is taken for: by size, by what it lies in, by its layer and colour.

The sizes are common practice, no source: a punched hole is at most 16 mm wide, a plate at least
12 mm long.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from armorplan.geometry.brought.frames import frames_of
from armorplan.geometry.brought.lines import HOLE_MM, Drawn, is_hole
from armorplan.geometry.brought.model import ShapeKind
from armorplan.geometry.brought.nesting import Nest, long_side_mm
from armorplan.geometry.brought.styles import Styles, styles_of
from armorplan.kernel.stopping import ShouldStop, go_on

LEAST_PART_MM = 12.0
"""A closed line in no other that is shorter is no part."""
_NESTED_MM = 30.0
"""A closed line in a cut-out is a part again from this length on, or where it holds holes."""
_RING_MM = 30.0
_THIN_MM = 0.05
_ALONE = (ShapeKind.PART, ShapeKind.FRAME, ShapeKind.LEFT_OUT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What a line is taken for, in which part it lies, and why."""

    kind: ShapeKind
    inside: int | None
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Judging:
    """All that a verdict looks at."""

    lines: Sequence[Drawn]
    nest: Nest
    said: Mapping[int, ShapeKind]
    beside: Mapping[int, str]
    frames: Mapping[int, str]
    styles: Styles


def judged(
    lines: Sequence[Drawn],
    nest: Nest,
    said: Mapping[int, ShapeKind],
    *,
    beside: Mapping[int, str],
    letters: frozenset[int],
    should_stop: ShouldStop,
) -> list[Verdict]:
    """Return a verdict on every line.

    Args:
        lines: all lines.
        nest: what lies in what.
        said: what a person took a line for, by its place.
        beside: lines that are left out beside another, and why.
        letters: lines that look like letters of a text.
        should_stop: asked often.
    """
    go_on(should_stop)
    frames = frames_of(lines, nest, said)
    judging = Judging(
        lines=lines,
        nest=nest,
        said=said,
        beside=beside,
        frames=frames,
        styles=styles_of(lines, nest, frames, letters),
    )
    found: dict[int, Verdict] = {}
    # What lies around a line is judged before it.
    for n in sorted(range(len(lines)), key=lambda n: (len(nest.around[n]), n)):
        go_on(should_stop)
        found[n] = _verdict(n, judging, found)
    return [found[n] for n in range(len(lines))]


def _verdict(n: int, judging: Judging, found: Mapping[int, Verdict]) -> Verdict:
    holders = [m for m in judging.nest.around[n] if m in found]
    part = next((m for m in holders if found[m].kind is ShapeKind.PART), None)
    if n in judging.said:
        kind = judging.said[n]
        inside = None if kind in {ShapeKind.PART, ShapeKind.FRAME} else part
        return Verdict(kind=kind, inside=inside, why="You said so.")
    kind, why = _own(n, judging, part, found)
    if kind in _ALONE:
        part = None
    return Verdict(kind=kind, inside=part, why=why)


def _own(
    n: int, judging: Judging, part: int | None, found: Mapping[int, Verdict]
) -> tuple[ShapeKind, str]:
    line = judging.lines[n]
    left_out = judging.beside.get(n) or judging.styles.aside(line)
    if left_out:
        return ShapeKind.LEFT_OUT, left_out
    if n in judging.frames:
        return ShapeKind.FRAME, judging.frames[n]
    if not line.closed:
        return _open(part)
    if judging.nest.areas[n].area <= _THIN_MM * long_side_mm(line):
        return ShapeKind.LEFT_OUT, "It encloses no area."
    if part is None:
        return _outside(n, judging)
    return _inside(n, judging, part, found)


def _open(part: int | None) -> tuple[ShapeKind, str]:
    if part is None:
        return ShapeKind.LEFT_OUT, "It is open and lies in no part."
    return ShapeKind.ENGRAVING, "It is open, so it cuts nothing out of its part."


def _outside(n: int, judging: Judging) -> tuple[ShapeKind, str]:
    """Judge a closed line that lies in no part."""
    line = judging.lines[n]
    if line.circle is not None and line.circle[1] <= HOLE_MM:
        return ShapeKind.LEFT_OUT, f"It is round, {line.circle[1]:.1f} mm wide, and in no part."
    long_mm = long_side_mm(line)
    if n in judging.styles.letters:
        return ShapeKind.LEFT_OUT, "It stands among shapes like letters, in no part."
    if judging.styles.is_engraved(line):
        return ShapeKind.LEFT_OUT, f"{judging.styles.told(line)}, and it lies in no part."
    if long_mm < LEAST_PART_MM:
        return ShapeKind.LEFT_OUT, f"It is only {long_mm:.1f} mm long and lies in no part."
    return ShapeKind.PART, "It is closed and lies in no other part."


def _inside(
    n: int, judging: Judging, part: int, found: Mapping[int, Verdict]
) -> tuple[ShapeKind, str]:
    """Judge a closed line that lies in a part."""
    line, styles = judging.lines[n], judging.styles
    if n in styles.letters:
        return ShapeKind.ENGRAVING, "It stands among shapes like letters."
    if styles.is_engraved(line):
        return ShapeKind.ENGRAVING, f"{styles.told(line)}."
    opened = next((m for m in judging.nest.around[n] if _opens(found[m].kind)), None)
    if opened is not None and part in judging.nest.around[opened]:
        return _in_opening(n, judging)
    if _is_ring(n, judging):
        return (
            ShapeKind.ENGRAVING,
            "It goes round a hole of the same middle, as the mark of a cap does.",
        )
    inner = (m for m in judging.nest.directly_in(n) if m not in judging.beside)
    if any(is_hole(judging.lines[m]) for m in inner):
        return ShapeKind.ENGRAVING, "It has holes in it, so it is not cut out of its part."
    return _cut(line)


def _opens(kind: ShapeKind) -> bool:
    return kind is ShapeKind.SLOT or kind is ShapeKind.HOLE


def _cut(line: Drawn) -> tuple[ShapeKind, str]:
    if line.circle is None:
        return ShapeKind.SLOT, "It is closed, not round, and lies in a part."
    by = f"; {line.round_by}" if line.round_by else ""
    wide = line.circle[1]
    if wide <= HOLE_MM:
        return ShapeKind.HOLE, f"It is round, {wide:.1f} mm wide, and lies in a part{by}."
    return ShapeKind.SLOT, f"It is round, but wider than a hole: {wide:.1f} mm{by}."


def _in_opening(n: int, judging: Judging) -> tuple[ShapeKind, str]:
    """Judge what lies in a cut-out: a part that was nested to save leather, or a mark."""
    line = judging.lines[n]
    holds = any(is_hole(judging.lines[m]) for m in judging.nest.within[n])
    if line.circle is None or line.circle[1] > HOLE_MM:
        long_mm = long_side_mm(line)
        if holds or long_mm >= _NESTED_MM:
            return ShapeKind.PART, "It lies in the cut-out of another part."
    return ShapeKind.ENGRAVING, "It lies in a hole or cut-out and is too small for a part."


def _is_ring(n: int, judging: Judging) -> bool:
    """Tell whether a circle has a hole of the same middle in it and nothing else."""
    line = judging.lines[n]
    inner = judging.nest.within[n]
    if line.circle is None or line.circle[1] > _RING_MM or not inner:
        return False
    (x, y), wide = line.circle
    for m in inner:
        other = judging.lines[m].circle
        if m in judging.beside or other is None or other[1] > HOLE_MM:
            return False
        if abs(other[0][0] - x) > wide / 20 or abs(other[0][1] - y) > wide / 20:
            return False
    return True
