"""Exercises, what an answer is worth, and how far somebody is, as lines for a terminal."""

from collections.abc import Iterator
from textwrap import wrap
from zoneinfo import ZoneInfo

from armorplan.app.drills.naming import KIND_WORDS
from armorplan.app.drills.setting import answer_words, letter_of
from armorplan.practice.drill import (
    LETTERS,
    Answer,
    AnswerForm,
    Because,
    Choice,
    DayAsked,
    Drill,
    Judged,
    Solved,
    WhyAsked,
)
from armorplan.practice.grades import ReasonState
from armorplan.practice.progress import PieceProgress, Progress
from armorplan.steps.naming import lowered

_WIDE = 100
_HOW = {
    AnswerForm.ORDER: "Put all of them in order, the first one first.",
    AnswerForm.SOME: "Choose all that are right; there may be several.",
    AnswerForm.ONE: "Choose one.",
    AnswerForm.TIMES: "Give each the time at which it is begun.",
}


def exercise_lines(drill: Drill, *, hint: bool, answer_with: str) -> Iterator[str]:
    """Yield an exercise: what is known, the choices, and what to type next."""
    yield from _wrapped(f"{KIND_WORDS[drill.asked.kind]} ({drill.asked.level.words})")
    yield from _wrapped(drill.title)
    yield ""
    yield from (line for words in drill.given for line in _hung(f"- {words}", "  "))
    if drill.day is not None:
        yield from _day_lines(drill.day)
    yield from ("",) if drill.given or drill.day else ()
    yield from _wrapped(drill.question)
    for choice in _as_shown(drill):
        yield from _choice_lines(drill, choice)
    yield from (line for words in drill.cautions for line in _hung(f"! {words}", "  "))
    if hint:
        yield ""
        yield from _wrapped(f"Hint: {drill.hint or 'there is none for this one.'}")
    yield ""
    yield f"{_HOW[drill.form]} Put your letters where these stand:"
    yield f"  {answer_with}"


def letters_shown(drill: Drill) -> str:
    """Return an answer that shows what one looks like, and is none in earnest: the letters as they stand."""
    if drill.form is AnswerForm.TIMES:
        return " ".join(f"{letter_of(drill, one.id)}=hh:mm" for one in drill.choices)
    some = {AnswerForm.ONE: 1, AnswerForm.SOME: 2}.get(drill.form, len(drill.choices))
    return " ".join(letter_of(drill, one.id) for one in drill.choices[:some])


def _as_shown(drill: Drill) -> list[Choice]:
    """Return the choices; those of an order that is shown, in that order."""
    place = {step: at for at, step in enumerate(drill.shown)}
    return sorted(drill.choices, key=lambda one: place.get(one.id, 0))


def _choice_lines(drill: Drill, choice: Choice) -> Iterator[str]:
    place = f"{drill.shown.index(choice.id) + 1:2d}. " if choice.id in drill.shown else ""
    yield from _hung(f"  {place}{letter_of(drill, choice.id)}  {choice.title}", "       ")
    if choice.detail:
        yield from _hung(f"       {choice.detail}", "       ")


def _day_lines(day: DayAsked) -> Iterator[str]:
    zone = ZoneInfo(day.zone)
    first, last = day.from_at.astimezone(zone), day.to_at.astimezone(zone)
    yield from _hung(
        f"- The day goes from {first:%H:%M} to {last:%H:%M} ({day.zone}); times in steps of {day.grid_min} min.",
        "  ",
    )


def judged_lines(drill: Drill, judged: Judged) -> Iterator[str]:
    """Yield what an answer is worth: the sentence, the reasons, the nearest right answer."""
    yield from _wrapped(judged.sentence)
    yield from _because_lines(judged.because)
    if judged.right or not judged.nearest:
        return
    yield ""
    yield from _wrapped(f"{_near_words(drill)}: {answer_words(drill, judged.nearest)}")
    yield from _answer_lines(drill, judged.nearest)
    yield from _wrapped(_far_words(drill, judged))


def _near_words(drill: Drill) -> str:
    near = {AnswerForm.ORDER: "The nearest right order", AnswerForm.ONE: "Right is"}
    return near.get(drill.form, "The nearest right answer")


def _far_words(drill: Drill, judged: Judged) -> str:
    bits = [_moves_words(drill, judged)]
    if judged.kendall is not None:
        pairs = "1 pair" if judged.kendall == 1 else f"{judged.kendall} pairs"
        bits.append(f"In {pairs} of steps the one you put first comes later there.")
    return " ".join(filter(None, bits))


def _moves_words(drill: Drill, judged: Judged) -> str:
    if drill.form is AnswerForm.ONE:
        return ""
    many = judged.distance != 1
    what = {
        AnswerForm.ORDER: "step is put elsewhere",
        AnswerForm.SOME: "is added or left out",
        AnswerForm.TIMES: "is moved",
    }[drill.form]
    what = what.replace("step is", "steps are").replace("is ", "are ", 1) if many else what
    fewest = "" if judged.exact else " at most"
    moved = ", ".join(letter_of(drill, one.partition("=")[0]) for one in judged.moved)
    named = f": {moved}" if moved else ""
    fewer = " No fewer will do." if judged.exact and drill.form is AnswerForm.ORDER else ""
    return f"For it {judged.distance}{fewest} {what}{named}.{fewer}"


def _answer_lines(drill: Drill, answer: Answer) -> Iterator[str]:
    for one in answer:
        name, _, time = one.partition("=") if drill.form is AnswerForm.TIMES else (one, "", "")
        at = f"{time}  " if time else ""
        words = f"  {at}{letter_of(drill, name)}  {drill.choice(name).title}"
        yield from _hung(words, "       ")


def _because_lines(reasons: tuple[Because, ...]) -> Iterator[str]:
    """Yield reasons with their numbers and sources, then the cautions of all of them once."""
    for one in reasons:
        numbers = f" ({', '.join(one.numbers)})" if one.numbers else ""
        force = f", {one.force}" if one.force else ""
        yield from _hung(f"- {one.name}{force}: {one.text}{numbers}", "  ")
        if one.source:
            yield from _hung(f"  Source: {one.source}", "  ")
    cautions = dict.fromkeys(words for one in reasons for words in one.cautions)
    yield from (line for words in cautions for line in _hung(f"! {words}", "  "))


def why_lines(asked: WhyAsked, answer_with: str) -> Iterator[str]:
    """Yield the second question, and what to type next."""
    yield ""
    yield from _wrapped(asked.question)
    for letter, one in zip(LETTERS, asked.choices, strict=False):
        yield from _hung(f"  {letter}  {one.title}", "     ")
        if one.detail:
            yield from _hung(f"     {one.detail}", "     ")
    yield ""
    yield f"  {answer_with}"


def reason_lines(asked: WhyAsked, chosen: str) -> Iterator[str]:
    """Yield whether the reason that was chosen decides it, and what the right one is."""
    because = dict(asked.because)
    yield ""
    if chosen == asked.right:
        yield from _wrapped(f"That is the reason. {because.get(chosen, '')}".strip())
        return
    yield from _wrapped(f"That reason does not decide it. {because.get(chosen, '')}".strip())
    right = next(one for one in asked.choices if one.id == asked.right)
    yield from _wrapped(f"What does: {right.title}")


def solved_lines(drill: Drill, solved: Solved) -> Iterator[str]:
    """Yield a right answer, what else is right, and why."""
    yield ""
    yield from _wrapped(f"A right answer: {answer_words(drill, solved.answer)}")
    yield from _answer_lines(drill, solved.answer)
    if solved.others:
        yield from _wrapped(solved.others)
    yield from _because_lines(solved.because)


_STATES = (ReasonState.SHAKY, ReasonState.UNSEEN, ReasonState.MASTERED)


def progress_lines(progress: Progress) -> Iterator[str]:
    """Yield how far somebody is: in sentences, then by piece."""
    for words in progress.sentences:
        yield from _wrapped(words)
    for piece in progress.pieces:
        yield ""
        yield from _piece_lines(piece)


def _piece_lines(piece: PieceProgress) -> Iterator[str]:
    yield from _wrapped(f"{piece.name}. {piece.sentence}".strip())
    for state in _STATES:
        some = [row for row in piece.reasons if row.state is state]
        if some and state is ReasonState.UNSEEN:
            yield from _hung(f"  {state.value}: {'; '.join(row.name for row in some)}", "    ")
        elif some:
            yield f"  {state.value}:"
            for row in some:
                yield from _hung(f"  - {row.name}: {lowered(row.sentence)}", "    ")


def _wrapped(words: str) -> list[str]:
    return wrap(words, _WIDE, break_long_words=False, break_on_hyphens=False) if words else []


def _hung(words: str, indent: str) -> list[str]:
    return wrap(
        words, _WIDE, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    )
