"""Exercises on paper, for a bench without a screen: which ones, and how they are laid out."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from armorplan.app.drills.naming import KIND_WORDS, NO_ORDER, ON_PAPER, name_of
from armorplan.app.drills.registry import KINDS
from armorplan.app.drills.setting import answer_words, drill_for, letter_of, solved
from armorplan.app.drills.source import DrillSource
from armorplan.app.practice_asked import MOST_EXERCISES, SheetAsked
from armorplan.app.sheet_files import ENDING
from armorplan.app.sheet_scenes import SheetScenes
from armorplan.app.week_files import check_place, write_whole
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import (
    NUMBERED,
    AnswerForm,
    Asked,
    Because,
    Choice,
    DayAsked,
    Drill,
    DrillKind,
    Solved,
)
from armorplan.practice.progress import Progress
from armorplan.sheets.bench_sheet_ink import A4, Paper
from armorplan.sheets.bench_sheet_model import Scene
from armorplan.sheets.progress_sheet import progress_pdf
from armorplan.sheets.worksheet import worksheet_pdf
from armorplan.sheets.worksheet_model import (
    Box,
    DayStrip,
    SheetChoice,
    SheetExercise,
    SheetReason,
    Worksheet,
)

WHAT, PROGRESS = "worksheet", "page of progress"
_BOXES = {
    AnswerForm.ORDER: Box.PLACE,
    AnswerForm.SOME: Box.TICK,
    AnswerForm.ONE: Box.RING,
    AnswerForm.TIMES: Box.TIME,
}
_MOST_PARTS = 8
"""More parts than this are not drawn at an exercise: none would be legible beside its choices."""


def worksheet(source: DrillSource, asked: SheetAsked) -> Worksheet:
    """Return a worksheet; no exercise stands on it twice.

    Raises:
        ArmorplanError: the build holds no exercise of these kinds.
    """
    if not source.derived.order:
        raise ArmorplanError(NO_ORDER.format(source.derived.pattern.name))
    drills = tuple(_drills(source, asked))
    if not drills:
        named = ", ".join(kind.value for kind in asked.kinds or KINDS)
        raise ArmorplanError(
            f"{source.derived.pattern.name} holds no exercise of these: {named}. Ask for another "
            "kind, a smaller level, or the whole build instead of a part."
        )
    return sheet_of(source, drills, person=asked.person)


def _drills(source: DrillSource, asked: SheetAsked) -> Iterator[Drill]:
    kinds = list(asked.kinds or KINDS)
    seen: set[tuple[object, ...]] = set()
    seed, found = asked.seed, 0
    while kinds and found < min(asked.count, MOST_EXERCISES):
        kind = kinds.pop(0)
        drill = _fresh(source, asked, kind, seed, seen)
        seed += 1
        if drill is not None:
            kinds.append(kind)
            found += 1
            yield drill


def _fresh(
    source: DrillSource,
    asked: SheetAsked,
    kind: DrillKind,
    seed: int,
    seen: set[tuple[object, ...]],
) -> Drill | None:
    """Return an exercise of a kind that is not on the sheet yet; ``None`` where none was found."""
    for each in range(seed, seed + 3 * MOST_EXERCISES, MOST_EXERCISES):
        drill = drill_for(
            source,
            Asked(
                kind=kind,
                seed=each % NUMBERED,
                level=asked.level,
                piece=asked.piece,
                part=asked.part,
            ),
        )
        if drill is None:
            return None
        what = (kind, drill.question, drill.given, frozenset(one.id for one in drill.choices))
        if what not in seen:
            seen.add(what)
            return drill
    return None


def sheet_of(source: DrillSource, drills: Iterable[Drill], *, person: str = "") -> Worksheet:
    """Return these exercises as a worksheet."""
    pattern, scenes = source.derived.pattern, SheetScenes(source.derived)
    return Worksheet(
        title=pattern.name,
        version=f"Version {pattern.version}",
        person=person,
        exercises=tuple(_exercise(source, scenes, drill) for drill in drills),
    )


def check_worksheet_file(path: Path) -> None:
    """Look at a file's name before the work for it is done.

    Raises:
        ArmorplanError: it cannot be written there, or does not end in .pdf.
    """
    _check_pdf(path, WHAT)


def check_progress_file(path: Path) -> None:
    """Look at a file's name before the work for it is done.

    Raises:
        ArmorplanError: it cannot be written there, or does not end in .pdf.
    """
    _check_pdf(path, PROGRESS)


def _check_pdf(path: Path, what: str) -> None:
    if path.suffix.lower() != ENDING:
        message = f"{path}: a {what} is a PDF. Let the name of the file end in {ENDING}."
        raise ArmorplanError(message)
    check_place(path, what)


def save_worksheet(path: Path, sheet: Worksheet, paper: Paper = A4) -> None:
    """Write a worksheet; what is there before is replaced whole or left as it is.

    Raises:
        ArmorplanError: it cannot be written.
    """
    check_worksheet_file(path)
    write_whole(path, worksheet_pdf(sheet, paper), WHAT)


def _exercise(source: DrillSource, scenes: SheetScenes, drill: Drill) -> SheetExercise:
    answer = solved(source, drill)
    return SheetExercise(
        kind=KIND_WORDS[drill.asked.kind],
        about=f"{drill.title} · {name_of(drill.asked)}",
        question=drill.question,
        how=ON_PAPER[drill.form],
        name=name_of(drill.asked),
        given=drill.given,
        choices=_choices(drill),
        box=_BOXES[drill.form],
        cautions=drill.cautions,
        scene=_scene(scenes, drill),
        day=_day(drill),
        asks_why=drill.form is AnswerForm.ONE,
        answer=tuple(_answer_lines(drill, answer)),
        others=answer.others,
        because=tuple(map(_reason, answer.because)),
    )


def _choices(drill: Drill) -> tuple[SheetChoice, ...]:
    """Return the choices; those of an order that is shown, in that order with their places."""
    places = {step: str(at) for at, step in enumerate(drill.shown, start=1)}
    rows = [
        SheetChoice(
            letter=letter_of(drill, one.id),
            title=one.title,
            detail=one.detail,
            place=places.get(one.id, ""),
        )
        for one in drill.choices
    ]
    return tuple(sorted(rows, key=lambda row: int(row.place or 0)) if drill.shown else rows)


def _scene(scenes: SheetScenes, drill: Drill) -> Scene | None:
    """Return the parts of an exercise, its joints with the letters of their choices."""
    marks = {joint: letter_of(drill, one.id) for one in drill.choices for joint in one.joints[:1]}
    is_asked = drill.asked.kind is DrillKind.FIRST
    shown = (*drill.parts, *(part for one in drill.choices for part in one.parts))
    # Where a step works at all parts, those the exercise is about are enough.
    sets = (tuple(dict.fromkeys(shown)), tuple(dict.fromkeys(drill.parts)))
    parts = next((some for some in sets if 0 < len(some) <= _MOST_PARTS), ())
    if not parts:
        return None
    return scenes.of_marks(parts, marks if is_asked else {})


def _day(drill: Drill) -> DayStrip | None:
    day = drill.day
    if day is None:
        return None
    return DayStrip(
        from_min=_minute(day, day.from_at),
        to_min=_minute(day, day.to_at),
        ends_by_min=_minute(day, day.ends_by_at),
        closed=tuple((_minute(day, begin), _minute(day, end)) for begin, end in day.closed),
        rows=tuple(
            f"{letter_of(drill, row.choice)}  {row.title}" for row in day.rows if row.choice
        ),
    )


def _minute(day: DayAsked, at: datetime) -> int:
    """Return the minute of the day at which an instant lies; of the next day more than 24 hours."""
    zone = ZoneInfo(day.zone)
    local, first = at.astimezone(zone), day.from_at.astimezone(zone)
    days = (local.date() - first.date()).days
    return days * 24 * 60 + local.hour * 60 + local.minute


def _answer_lines(drill: Drill, answer: Solved) -> Iterator[str]:
    if len(answer.answer) > 1:
        yield answer_words(drill, answer.answer)
    for one in answer.answer:
        name, _, time = one.partition("=") if drill.form is AnswerForm.TIMES else (one, "", "")
        choice = drill.choice(name)
        yield f"{letter_of(drill, name)}  {time + '  ' if time else ''}{_said(choice)}"


def _said(choice: Choice) -> str:
    # Whole sentences of what a choice takes stand with the exercise.
    is_short = choice.detail and not choice.detail.endswith(".")
    return f"{choice.title}, {choice.detail}" if is_short else choice.title


def _reason(because: Because) -> SheetReason:
    told: Sequence[str] = (because.name, *because.numbers, because.source)
    return SheetReason(text=because.text, foot=" · ".join(filter(None, told)))


def save_progress(path: Path, progress: Progress, zone: str, paper: Paper = A4) -> None:
    """Write a page of how far somebody is; what is there before is replaced whole or left.

    Raises:
        ArmorplanError: it cannot be written, or does not end in .pdf.
    """
    _check_pdf(path, PROGRESS)
    write_whole(path, progress_pdf(progress, zone, paper), PROGRESS)
