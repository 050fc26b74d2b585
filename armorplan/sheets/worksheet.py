"""The worksheet as a PDF: exercises to be done with a pencil, and the answers on pages behind."""

from armorplan.pattern.parts import Point
from armorplan.sheets.bench_sheet_figures import scene_bits
from armorplan.sheets.bench_sheet_flow import (
    FOOT_MM,
    LEFT_MM,
    RIGHT_MM,
    Bit,
    Flow,
    beside,
    gap,
    kept,
    text_bits,
)
from armorplan.sheets.bench_sheet_front import CHAPTER, COSTUME
from armorplan.sheets.bench_sheet_ink import Ink, Paper
from armorplan.sheets.bench_sheet_letters import (
    BLUE,
    BODY,
    BOLD,
    LINE,
    QUIET,
    SMALL,
    STRONG,
    WARN,
    Style,
    fitted,
    register_faces,
    wide_mm,
)
from armorplan.sheets.pdf_file import pdf_of
from armorplan.sheets.worksheet_day import day_bits
from armorplan.sheets.worksheet_model import Box, SheetChoice, SheetExercise, Worksheet

_QUESTION = Style(face=BOLD, size_pt=11.0, lead_mm=5.2)
_CHOICE = Style(size_pt=9.5, lead_mm=4.6)
_LETTER = Style(face=BOLD, size_pt=10.0, lead_mm=4.6, colour=BLUE)
_FOOT = Style(size_pt=6.8, lead_mm=3.2, colour=QUIET)
_CAUTION = Style(size_pt=7.4, lead_mm=3.4, colour=WARN)
_PICTURE_MM, _LESS_MM = 86.0, 54.0
"""A picture is no higher; the less where marks on it are not asked for."""
_SHARE = 0.42
"""So much of the width a picture takes beside its choices."""
ANSWERS = "Answers"
CAUTIONS = "Cautions for the work on this sheet"


def worksheet_pdf(sheet: Worksheet, paper: Paper) -> bytes:
    """Return the sheet as a PDF on such paper."""
    register_faces()
    flow = Flow(paper)
    for number, exercise in enumerate(sheet.exercises, start=1):
        _put_exercise(flow, number, exercise)
    _put_cautions(flow, sheet)
    before = len(flow.pages)
    _put_answers(flow, sheet)
    title, subject = f"{sheet.title}, worksheet", f"{sheet.version}. {COSTUME}"
    return pdf_of(
        paper, title, subject, lambda canvas: _draw(Ink(canvas, paper), sheet, flow, before)
    )


def _put_exercise(flow: Flow, number: int, exercise: SheetExercise) -> None:
    wide = flow.whole_mm
    head = kept(
        (
            *text_bits(f"{number}  {exercise.kind}", CHAPTER, wide),
            *text_bits(exercise.about, SMALL, wide),
            gap(1.5),
            *text_bits(exercise.question, _QUESTION, wide),
            gap(1.0),
        )
    )
    given = [bit for line in exercise.given for bit in _bullet(line, wide)]
    how = text_bits(exercise.how, SMALL, wide)
    day = day_bits(exercise.day, wide) if exercise.day else []
    bits = [
        *head,
        *kept(given),
        *kept(how),
        gap(2.0, keep=True),
        *_body(exercise, wide),
        *day,
        *(_why_bits(wide) if exercise.asks_why else ()),
    ]
    # An exercise is never parted where a page has room for it; the next one fills what is left.
    if not flow.takes(bits):
        flow.new_page()
    flow.put((*bits, gap(9.0)))


def _why_bits(wide: float) -> list[Bit]:
    """Return two lines to write a reason on."""

    def draw(ink: Ink, at: Point) -> None:
        ink.text((at[0], at[1] + 5.0), "Why:", STRONG)
        for row, left in enumerate((10.0, 0.0)):
            y = at[1] + 5.6 + 7.5 * row
            ink.line((at[0] + left, y), (at[0] + wide, y), thick_pt=0.4, colour=LINE)

    return [Bit(high_mm=14.0, draw=draw)]


def _put_cautions(flow: Flow, sheet: Worksheet) -> None:
    """Lay the cautions of all exercises below the last: below each they would drown what is asked."""
    wide = flow.whole_mm
    told = dict.fromkeys(line for one in sheet.exercises for line in one.cautions)
    lines = [bit for line in told for bit in _bullet(line, wide, _CAUTION)]
    if lines:
        flow.put([*kept((*text_bits(CAUTIONS, STRONG, wide), gap(1.0))), *lines])


def _body(exercise: SheetExercise, wide: float) -> list[Bit]:
    """Return the choices, the picture beside them where there is one."""
    if exercise.scene is None:
        return _choice_bits(exercise, wide)
    marked = any(hole.mark for part in exercise.scene.parts for hole in part.holes)
    left = wide * (1 - _SHARE) - 5.0
    picture = scene_bits(exercise.scene, wide * _SHARE, _PICTURE_MM if marked else _LESS_MM)
    return [beside(_choice_bits(exercise, left), picture, left + 5.0), gap(1.5)]


def _bullet(line: str, wide: float, style: Style = BODY) -> list[Bit]:
    return [beside(text_bits("–", style, 5.0), text_bits(line, style, wide - 5.0), 4.0)]


def _choice_bits(exercise: SheetExercise, wide: float) -> list[Bit]:
    return [
        bit
        for choice in exercise.choices
        for bit in (_choice_bit(choice, exercise.box, wide), gap(1.6))
    ]


def _choice_bit(choice: SheetChoice, box: Box, wide: float) -> Bit:
    shown = f"{choice.place}.  {choice.title}" if choice.place else choice.title
    room = 23.0 if box is Box.TIME else 12.0
    words = [
        *text_bits(shown, _CHOICE, wide - room - 7.0),
        *(text_bits(choice.detail, SMALL, wide - room - 7.0) if choice.detail else ()),
    ]

    def draw(ink: Ink, at: Point) -> None:
        _draw_box(ink, (at[0], at[1]), box)
        ink.text((at[0] + room, at[1] + _LETTER.lead_mm * 0.75), choice.letter, _LETTER)

    high = max(sum(bit.high_mm for bit in words), 6.0)
    boxes = [Bit(high_mm=high, draw=draw, keep=True)]
    return beside(boxes, words, room + 7.0)


def _draw_box(ink: Ink, at: Point, box: Box) -> None:
    x, y = at
    if box is Box.RING:
        ink.circle((x + 2.6, y + 2.6), 2.2, thick_pt=0.7)
    elif box is Box.TIME:
        for left in (0.0, 10.5):
            ink.line((x + left, y + 5.2), (x + left + 8.0, y + 5.2), thick_pt=0.6)
        ink.text((x + 8.9, y + 4.4), ":", STRONG)
    else:
        wide = 8.0 if box is Box.PLACE else 4.8
        ink.box((x, y), (wide, 5.2 if box is Box.PLACE else 4.8), thick_pt=0.7)


def _put_answers(flow: Flow, sheet: Worksheet) -> None:
    wide = flow.whole_mm
    flow.new_page()
    flow.put(kept((*text_bits(ANSWERS, CHAPTER, wide), gap(3.0))))
    for number, exercise in enumerate(sheet.exercises, start=1):
        flow.put(_answer_bits(number, exercise, wide))


def _answer_bits(number: int, exercise: SheetExercise, wide: float) -> list[Bit]:
    head = kept(text_bits(f"{number}  {exercise.kind}: {exercise.name}", STRONG, wide))
    lines = [bit for line in exercise.answer for bit in text_bits(line, BODY, wide, indent_mm=5.0)]
    others = text_bits(exercise.others, SMALL, wide, indent_mm=5.0) if exercise.others else []
    why: list[Bit] = []
    for one in exercise.because:
        why += [gap(0.8), *kept(text_bits(one.text, BODY, wide, indent_mm=9.0))]
        why += text_bits(one.foot, SMALL, wide, indent_mm=9.0)
    return [*head, *kept(lines[:1]), *lines[1:], *others, *why, gap(5.0)]


def _draw(ink: Ink, sheet: Worksheet, flow: Flow, before: int) -> None:
    for number, page in enumerate(flow.pages, start=1):
        ink.begin_page()
        if number in (1, before + 1):
            ink.mark(f"page-{number}", ANSWERS if number > before else sheet.title)
        _draw_head(ink, sheet, is_answers=number > before)
        for bit, at in page.placed:
            bit.draw(ink, at)
        _draw_foot(ink, number, len(flow.pages))
        ink.end_page()


def _draw_head(ink: Ink, sheet: Worksheet, *, is_answers: bool) -> None:
    right = ink.paper.wide_mm - RIGHT_MM
    room = right - LEFT_MM
    title = f"{sheet.title}, {sheet.version}: {'answers' if is_answers else 'worksheet'}"
    ink.text((LEFT_MM, 13.0), fitted(title, _FOOT, room * 0.55), _FOOT)
    if is_answers:
        ink.text_right((right, 13.0), sheet.person, _FOOT)
    else:
        _draw_name(ink, sheet.person, right, room)
    ink.line((LEFT_MM, 15.0), (right, 15.0), thick_pt=0.4, colour=LINE)


def _draw_name(ink: Ink, person: str, right: float, room: float) -> None:
    words = f"Name: {person}   Date:" if person else "Name:"
    ink.text((right - room * 0.42, 13.0), words, _FOOT)
    begun = right - room * 0.42 + wide_mm(words, _FOOT) + 1.5
    ink.line((begun, 13.4), (right, 13.4), thick_pt=0.4, colour=QUIET)


def _draw_foot(ink: Ink, number: int, pages: int) -> None:
    right = ink.paper.wide_mm - RIGHT_MM
    y = ink.paper.high_mm - FOOT_MM + 8.0
    ink.text((LEFT_MM, y), fitted(COSTUME, _FOOT, right - LEFT_MM - 22), _FOOT)
    ink.text_right((right, y), f"Page {number} of {pages}", _FOOT)
