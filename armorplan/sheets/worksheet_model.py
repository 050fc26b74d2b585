"""What a worksheet shows, as plain values and words: exercises first, the answers on pages behind."""

from dataclasses import dataclass
from enum import StrEnum

from armorplan.sheets.bench_sheet_model import Scene


class Box(StrEnum):
    """What stands before a choice, to be written in with a pencil."""

    PLACE = "a place number"
    TICK = "a tick"
    RING = "one of them"
    TIME = "a time"


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetChoice:
    """A choice with its letter; ``place``: where it stands in the order that is shown, or empty."""

    letter: str
    title: str
    detail: str = ""
    place: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DayStrip:
    """A day to draw in, in minutes of the day.

    Attributes:
        closed: from when to when nobody works, within it.
        ends_by_min: all has to be done by then.
        rows: what is to be drawn in, a row each.
    """

    from_min: int
    to_min: int
    ends_by_min: int
    closed: tuple[tuple[int, int], ...] = ()
    rows: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetReason:
    """A reason with its rule and source."""

    text: str
    foot: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetExercise:
    """One exercise.

    Attributes:
        kind: what is asked, as a heading; ``about``: of which build, piece and level.
        how: how to answer, in a sentence.
        name: what makes the same exercise again.
        asks_why: there is room to write the reason down.
        answer: one right answer in words; ``others``: what else is right.
    """

    kind: str
    about: str
    question: str
    how: str
    name: str
    given: tuple[str, ...]
    choices: tuple[SheetChoice, ...]
    box: Box
    cautions: tuple[str, ...] = ()
    scene: Scene | None = None
    day: DayStrip | None = None
    asks_why: bool = False
    answer: tuple[str, ...] = ()
    others: str = ""
    because: tuple[SheetReason, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Worksheet:
    """A sheet of exercises; ``person``: for whom, or empty."""

    title: str
    version: str
    person: str
    exercises: tuple[SheetExercise, ...]
