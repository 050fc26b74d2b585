"""What ``armorplan drill --json`` answers. What would give an answer away stands in it only afterwards."""

from dataclasses import dataclass
from datetime import datetime

from armorplan.app.drills.setting import answer_words, letter_of
from armorplan.practice.drill import (
    LETTERS,
    Answer,
    Asked,
    Because,
    DayAsked,
    Drill,
    Judged,
    Met,
    Solved,
    WhyAsked,
)
from armorplan.practice.progress import Progress, ReasonRow

ASKED_WHY = "Right. And why?"
"""All that is said of a right answer as long as its reason is asked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LetteredRow:
    """A choice with the letter it is answered by."""

    letter: str
    id: str
    title: str
    detail: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ExerciseRow:
    """An exercise. ``hint`` is empty, and ``rules`` are, as long as nobody asked or answered."""

    asked: Asked
    title: str
    question: str
    form: str
    given: tuple[str, ...]
    choices: tuple[LetteredRow, ...]
    shown: tuple[str, ...]
    done: tuple[str, ...]
    parts: tuple[str, ...]
    cautions: tuple[str, ...]
    day: DayAsked | None
    hint: str
    rules: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedRow:
    """What an answer is worth, as ``practice.drill.Judged`` has it; answers by letters as well."""

    answer: str
    right: bool
    sentence: str
    because: tuple[Because, ...]
    nearest: Answer
    nearest_letters: str
    moved: tuple[str, ...]
    distance: int
    exact: bool
    kendall: int | None
    credit: float
    met: tuple[Met, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WhyRow:
    """The second question; what was chosen and what is right once it is answered."""

    question: str
    choices: tuple[LetteredRow, ...]
    chosen: str
    right: str
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SolvedRow:
    """A right answer."""

    answer: Answer
    letters: str
    others: str
    because: tuple[Because, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgressReason:
    """How one reason sits; ``piece`` is where, empty: in all."""

    piece: str
    rule: str
    name: str
    state: str
    asked: int
    kept: int
    last: str
    last_at: datetime | None
    due_at: datetime | None
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgressRow:
    """How far somebody is."""

    person: str
    name: str
    drills: int
    sentences: tuple[str, ...]
    reasons: tuple[ProgressReason, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillReport:
    """What ``--json`` answers; ``kept`` says what became of the result, empty: nobody asked."""

    pattern: str
    person: str = ""
    exercise: ExerciseRow | None = None
    answer_with: str = ""
    judged: JudgedRow | None = None
    why: WhyRow | None = None
    solved: SolvedRow | None = None
    kept: str = ""
    progress: ProgressRow | None = None


def exercise_row(drill: Drill, asked: Asked, *, hint: bool, is_told: bool) -> ExerciseRow:
    """Return an exercise; its hint where it was asked for, its rules once it is answered.

    Args:
        drill: the exercise.
        asked: what makes it again, as it may be told.
        hint: it was asked for.
        is_told: its reasons may be told: it was answered, and no second question is open.
    """
    return ExerciseRow(
        asked=drill.asked if is_told else asked,
        title=drill.title,
        question=drill.question,
        form=drill.form.value,
        given=drill.given,
        choices=tuple(
            LetteredRow(
                letter=letter_of(drill, one.id), id=one.id, title=one.title, detail=one.detail
            )
            for one in drill.choices
        ),
        shown=drill.shown,
        done=drill.done,
        parts=drill.parts,
        cautions=drill.cautions,
        day=drill.day,
        hint=drill.hint if hint or is_told else "",
        rules=drill.rules if is_told else (),
    )


def judged_row(drill: Drill, answer: Answer, judged: Judged, *, is_told: bool) -> JudgedRow:
    """Return what an answer is worth, without the pictures of how it goes, and its reasons if they may be told."""
    return JudgedRow(
        answer=answer_words(drill, answer),
        right=judged.right,
        sentence=judged.sentence if is_told else ASKED_WHY,
        because=judged.because if is_told else (),
        nearest=judged.nearest,
        nearest_letters=answer_words(drill, judged.nearest),
        moved=judged.moved,
        distance=judged.distance,
        exact=judged.exact,
        kendall=judged.kendall,
        credit=judged.credit,
        met=judged.met if is_told else (),
    )


def why_row(asked: WhyAsked, chosen: str) -> WhyRow:
    """Return the second question, with what is right once a reason was chosen."""
    because = dict(asked.because)
    return WhyRow(
        question=asked.question,
        choices=tuple(
            LetteredRow(letter=letter, id=one.id, title=one.title, detail=one.detail)
            for letter, one in zip(LETTERS, asked.choices, strict=False)
        ),
        chosen=chosen,
        right=asked.right if chosen else "",
        because=because.get(chosen, "") if chosen else "",
    )


def solved_row(drill: Drill, solved: Solved) -> SolvedRow:
    """Return a right answer."""
    return SolvedRow(
        answer=solved.answer,
        letters=answer_words(drill, solved.answer),
        others=solved.others,
        because=solved.because,
    )


def progress_row(progress: Progress) -> ProgressRow:
    """Return how far somebody is: of all, then of each piece."""
    rows = [_reason("", row) for row in progress.reasons]
    rows += [_reason(piece.piece, row) for piece in progress.pieces for row in piece.reasons]
    return ProgressRow(
        person=progress.person,
        name=progress.name,
        drills=progress.drills,
        sentences=progress.sentences,
        reasons=tuple(rows),
    )


def _reason(piece: str, row: ReasonRow) -> ProgressReason:
    return ProgressReason(
        piece=piece,
        rule=row.rule,
        name=row.name,
        state=row.state.value,
        asked=row.asked,
        kept=row.kept,
        last=row.last.value if row.last else "",
        last_at=row.last_at,
        due_at=row.due_at,
        sentence=row.sentence,
    )
