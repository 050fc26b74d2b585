"""Runs of steps on the sheet: a heading, pictures, cautions, and a line with a box for each step."""

from armorplan.pattern.parts import Point
from armorplan.sheets.bench_sheet_figures import scene_bits
from armorplan.sheets.bench_sheet_flow import MARGIN_MM, Bit, beside, gap, high_of, kept, text_bits
from armorplan.sheets.bench_sheet_ink import Ink
from armorplan.sheets.bench_sheet_letters import (
    BLUE,
    BODY,
    BOLD,
    INK,
    LINE,
    MARGIN,
    PALE,
    QUIET,
    SMALL,
    STRONG,
    WARN,
    WHITE,
    Style,
    fitted,
    wide_mm,
    wrapped,
)
from armorplan.sheets.bench_sheet_model import SheetLine, SheetRun
from armorplan.sheets.bench_sheet_stacks import stack_bits

_BOX_MM, _BOX_GAP_MM = 3.6, 1.4
_NUMBER_MM, _AT_MM = 13.0, 17.0
"""Room for a step's number, and for how long it takes beside when it begins."""
_REASON_MM, _BELOW_MM = 1.8, 18.0
"""What lies between reasons; and how far in they stand below the work."""
HEAD = Style(face=BOLD, size_pt=10.0, lead_mm=4.8)
_STEP = Style(face=BOLD, size_pt=8.5, lead_mm=4.0)
_SPENT = Style(size_pt=7.4, lead_mm=4.0, colour=QUIET)
_WHEN = Style(face=BOLD, size_pt=7.4, lead_mm=3.6, colour=BLUE)
_CAUTION = Style(size_pt=7.6, lead_mm=3.5)
LETTER = Style(size_pt=5.6, lead_mm=2.0, colour=QUIET)
_SCENE_MM, _ONE_MM, _LOW = 50.0, 34.0, 0.55
"""A picture of a run is no higher, and one of a single part; where room is short so much of it."""
_WHOLE_LINES = 3
"""So many lines of a run stay together at its beginning, and at its end."""
_SCENE_SHARE, _MOST_BESIDE = 0.58, 2
"""So much of the column is the parts' where up to so many sections stand beside them."""


def run_bits(run: SheetRun, room_mm: float, *, low: bool = False) -> list[Bit]:
    """Return a run for the column of work; ``low``: with a smaller picture."""
    only = run.lines[0] if not run.title else None
    bits = _heading(run, room_mm) if only is None else _step(only, room_mm, alone=True)
    if run.tools:
        indent = 0.0 if only is None else _indent(only)
        bits += kept(text_bits(f"With: {run.tools}", SMALL, room_mm, indent_mm=indent))
    bits += _pictures(run, room_mm, _LOW if low else 1.0)
    bits += _warned(run, room_mm, keep=only is None)
    if only is None:
        bits += [gap(1.2, keep=True), *_steps(run.lines, room_mm)]
    return [*bits, gap(5.0)]


def run_again_bits(run: SheetRun, room_mm: float) -> list[Bit]:
    """Return what stands above a run that goes on on another page."""
    return kept(text_bits(f"{run.title}, goes on", STRONG, room_mm)) if run.title else []


def _pictures(run: SheetRun, room_mm: float, share: float) -> list[Bit]:
    """Return the parts of a run, and the sections of its fasteners: beside them where these are few."""
    high = share * (_SCENE_MM if run.scene is None or len(run.scene.parts) > 1 else _ONE_MM)
    if run.scene is None:
        return [gap(1.0, keep=True), *stack_bits(run.stacks, room_mm)] if run.stacks else []
    if not 0 < len(run.stacks) <= _MOST_BESIDE:
        scene = scene_bits(run.scene, room_mm, high)
        stacks = [gap(1.0, keep=True), *stack_bits(run.stacks, room_mm)] if run.stacks else []
        return [gap(1.6, keep=True), *scene, *stacks]
    wide = room_mm * _SCENE_SHARE
    scene = scene_bits(run.scene, wide - 4, high)
    return [gap(1.6, keep=True), beside(scene, stack_bits(run.stacks, room_mm - wide), wide)]


def _warned(run: SheetRun, room_mm: float, *, keep: bool) -> list[Bit]:
    """Return the cautions of a run, or where they stand in full."""
    if run.cautions:
        return [gap(0.8, keep=True), _cautions(run.cautions, room_mm, keep=keep)]
    if run.cautions_at:
        words = f"Cautions as at step {run.cautions_at}."
        return [gap(0.4, keep=True), _as_before(words, keep=keep)]
    return []


def _steps(lines: tuple[SheetLine, ...], room_mm: float) -> list[Bit]:
    """Return the lines of a run; the first ones stay together, and the last ones."""
    steps = [_step(line, room_mm, alone=False) for line in lines]
    ends = range(_WHOLE_LINES - 1), range(len(steps) - _WHOLE_LINES, len(steps) - 1)
    for at in {at for end in ends for at in end if 0 <= at < len(steps) - 1}:
        steps[at] = kept(steps[at])
    return [bit for bits in steps for bit in bits]


def with_reasons(run: SheetRun, bits: list[Bit], room_mm: float) -> tuple[list[Bit], list[Bit]]:
    """Return the work of a run, and the reasons for the margin.

    Reasons for which there is no room beside the work stand below it, over its width: no hole is
    left under short work.
    """
    *work, end = bits
    left_mm = high_of(bits)
    margin: list[Bit] = []
    below: list[Bit] = []
    for reason in run.reasons:
        lines = wrapped(reason, MARGIN, MARGIN_MM - 3.0)
        left_mm -= _REASON_MM + MARGIN.lead_mm * len(lines)
        if left_mm >= 0 and not below:
            margin += [_reason(lines), gap(_REASON_MM)]
        else:
            wide = wrapped(reason, MARGIN, room_mm - _BELOW_MM - 3.0)
            below += [gap(_REASON_MM, keep=True), _reason(wide, _BELOW_MM)]
    if below:
        work = [*work[:-1], *kept(work[-1:]), *below]
    return [*work, end], [gap(0.8, keep=True), *margin[:-1], gap(5.0)] if margin else []


def _reason(lines: list[str], indent_mm: float = 0.0) -> Bit:
    high = MARGIN.lead_mm * len(lines)

    def draw(ink: Ink, at: Point) -> None:
        x, y = at[0] + indent_mm, at[1]
        ink.line((x, y + 0.3), (x, y + high - 0.2), thick_pt=0.9, colour=LINE)
        for row, line in enumerate(lines):
            ink.text((x + 2.4, y + MARGIN.lead_mm * (row + 0.75)), line, MARGIN)

    return Bit(high_mm=high, draw=draw)


def _heading(run: SheetRun, room_mm: float) -> list[Bit]:
    spent = wide_mm(run.summary, _SPENT)
    title = fitted(run.title, HEAD, room_mm - spent - 6)

    def draw(ink: Ink, at: Point) -> None:
        x, y = at
        ink.box((x - 2, y), (room_mm + 2, 6.4), fill=PALE, thick_pt=0)
        ink.line((x - 2, y), (x - 2, y + 6.4), thick_pt=2.0, colour=BLUE)
        ink.text((x + 1, y + 4.4), title, HEAD)
        ink.text_right((x + room_mm - 1.5, y + 4.3), run.summary, _SPENT)

    bits = [Bit(high_mm=7.4, draw=draw, keep=True)]
    if run.when:
        bits += kept(text_bits(run.when, _WHEN, room_mm))
    return bits


def _boxes(line: SheetLine) -> float:
    return len(line.boxes) * (_BOX_MM + _BOX_GAP_MM)


def _indent(line: SheetLine) -> float:
    """Return where the words of a step begin."""
    return max(_boxes(line), _BOX_MM + _BOX_GAP_MM) + _NUMBER_MM


def _step(line: SheetLine, room_mm: float, *, alone: bool) -> list[Bit]:
    """Return a step: its boxes, number, title, how long it takes; below it what else is to know."""
    style = _STEP if alone else BODY
    indent = _indent(line)
    begins = _AT_MM + wide_mm(line.begins, _WHEN) if line.begins else 0.0
    spent = max(wide_mm(line.spent, _SPENT), begins)
    titles = wrapped(line.title, style, room_mm - indent - spent - 3)
    high = style.lead_mm * len(titles) + (1.0 if alone else 0.5)
    is_tall = bool(line.when or line.window or line.detail)

    def draw(ink: Ink, at: Point) -> None:
        x, y = at
        if alone:
            ink.line((x - 2, y), (x - 2, y + high), thick_pt=2.0, colour=BLUE)
        _draw_boxes(ink, line, (x, y))
        ink.text_right((x + indent - 2.4, y + 3.2), line.number, _SPENT)
        for row, words in enumerate(titles):
            ink.text((x + indent, y + 3.2 + style.lead_mm * row), words, style)
        ink.text_right((x + room_mm - 1.5, y + 3.2), line.spent, _SPENT)
        ink.text_right((x + room_mm - 1.5 - _AT_MM, y + 3.2), line.begins, _WHEN)

    bits = [Bit(high_mm=high, draw=draw, keep=is_tall)]
    whens = [text for text in (line.when, line.window) if text]
    for text in whens:
        bits += kept(text_bits(text, _WHEN, room_mm, indent_mm=indent))
    if line.detail:
        bits += text_bits(line.detail, SMALL, room_mm - 4, indent_mm=indent)
    last = bits[-1]
    return [*bits[:-1], Bit(high_mm=last.high_mm + 0.7, draw=last.draw, keep=alone)]


def _draw_boxes(ink: Ink, line: SheetLine, at: Point) -> None:
    x, y = at
    for letter in line.boxes:
        ink.box((x, y + 0.25), (_BOX_MM, _BOX_MM), fill=WHITE, thick_pt=0.8)
        ink.text_middle((x + _BOX_MM / 2, y + 2.8), letter, LETTER)
        x += _BOX_MM + _BOX_GAP_MM
    if not line.boxes:
        centre = (x + _BOX_MM / 2, y + 0.25 + _BOX_MM / 2)
        ink.circle(centre, _BOX_MM / 2, fill=WHITE, thick_pt=0.8)
        ink.line(centre, (centre[0], centre[1] - 1.2), thick_pt=0.7)
        ink.line(centre, (centre[0] + 0.9, centre[1]), thick_pt=0.7)


def _cautions(cautions: tuple[str, ...], room_mm: float, *, keep: bool) -> Bit:
    paragraphs = [wrapped(caution, _CAUTION, room_mm - 12) for caution in cautions]
    written = sum(_CAUTION.lead_mm * len(lines) + 0.5 for lines in paragraphs)
    high = max(written, 6.0) + 2.6

    def draw(ink: Ink, at: Point) -> None:
        x, y = at
        ink.box((x, y), (room_mm - 1.5, high - 1.0), thick_pt=0.6, colour=WARN)
        _draw_warning(ink, (x + 4.2, y + 4.4), 1.0)
        y += 1.0 + (high - 2.6 - written) / 2
        for lines in paragraphs:
            for line in lines:
                ink.text((x + 9, y + _CAUTION.lead_mm * 0.75), line, _CAUTION)
                y += _CAUTION.lead_mm
            y += 0.5

    return Bit(high_mm=high, draw=draw, keep=keep)


def _as_before(words: str, *, keep: bool) -> Bit:
    def draw(ink: Ink, at: Point) -> None:
        _draw_warning(ink, (at[0] + 1.6, at[1] + 2.3), 0.5)
        ink.text((at[0] + 5.0, at[1] + 3.0), words, _CAUTION)

    return Bit(high_mm=4.2, draw=draw, keep=keep)


def _draw_warning(ink: Ink, at: Point, size: float) -> None:
    """Draw the triangle of a caution about a point."""
    x, y = at
    corners = ((0.0, -3.0), (2.9, 1.9), (-2.9, 1.9))
    ring = tuple((x + across * size, y + along * size) for across, along in corners)
    ink.ring(ring, thick_pt=0.5 + 0.5 * size, colour=WARN)
    ink.line((x, y - 1.4 * size), (x, y + 0.3 * size), thick_pt=1.1 * size, colour=INK)
    ink.circle((x, y + 1.1 * size), 0.3 * size, fill=INK, thick_pt=0)
