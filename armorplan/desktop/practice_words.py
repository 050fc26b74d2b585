"""Practice in words: kinds, levels, how far from right, and grades that shame nobody."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication

from armorplan.app.drills.naming import KIND_WORDS
from armorplan.practice.drill import (
    Answer,
    AnswerForm,
    Asked,
    Choice,
    Drill,
    DrillKind,
    Judged,
    Level,
    WhyAsked,
)
from armorplan.practice.grades import Grade

BETWEEN = "; "


def _say(text: str) -> str:
    return QCoreApplication.translate("practice", text)


def kind_words(kind: DrillKind) -> str:
    """Return what a kind of exercise is called."""
    return _say(KIND_WORDS[kind])


def level_words(level: Level) -> str:
    """Return how much of the work an exercise is about."""
    return _say(level.words)


def form_words(form: AnswerForm) -> str:
    """Say what an answer is made of, before one is given."""
    return {
        AnswerForm.ORDER: _say("Put all of them in order."),
        AnswerForm.SOME: _say("Choose all that are right; there may be several."),
        AnswerForm.ONE: _say("Choose one."),
        AnswerForm.TIMES: _say("Give each its time."),
    }[form]


def not_whole_words(form: AnswerForm) -> str:
    """Say what an answer still lacks."""
    return {
        AnswerForm.ORDER: _say("Put all of them in order first, then answer."),
        AnswerForm.SOME: _say("Choose at least one, then answer."),
        AnswerForm.ONE: _say("Choose one, then answer."),
        AnswerForm.TIMES: _say("Give each of them a time first, then answer."),
    }[form]


def how_far(drill: Drill, given: Answer, judged: Judged) -> str:
    """Say how far a wrong answer is from a right one, naming what has to change.

    Empty where the answer is right, and where the sentence of the judgement says so already.
    """
    if judged.right or not judged.nearest or _is_said(drill, given, judged):
        return ""
    if drill.form is AnswerForm.ONE:
        titles = _named(drill, judged.nearest)
        return _say("Right is: {0}.").format(titles)
    if drill.form is AnswerForm.SOME:
        return _some_words(drill, given, judged)
    if drill.form is AnswerForm.TIMES:
        return _times_words(drill, given, judged)
    return _moved_words(drill, judged)


def _is_said(drill: Drill, given: Answer, judged: Judged) -> bool:
    """Tell whether the sentence names all that has to change."""
    changed = judged.moved or tuple(set(judged.nearest) ^ set(given))
    names = {name.partition("=")[0] for name in changed}
    return bool(names) and all(title_of(drill, name) in judged.sentence for name in names)


def _moved_words(drill: Drill, judged: Judged) -> str:
    count = len(judged.moved) or judged.distance
    if not count:
        return ""
    if count == 1:
        text = _say("One step is to be moved: {0}.")
    elif judged.exact:
        text = _say("{1} steps are to be moved: {0}.")
    else:
        text = _say("{1} steps at the most are to be moved: {0}.")
    return text.format(_named(drill, judged.moved), count)


def _some_words(drill: Drill, given: Answer, judged: Judged) -> str:
    missing = [one for one in judged.nearest if one not in given]
    over = [one for one in given if one not in judged.nearest]
    said = []
    if missing:
        text = _say("One is missing: {0}.") if len(missing) == 1 else _say("Missing: {0}.")
        said.append(text.format(_named(drill, missing)))
    if over:
        is_one = len(over) == 1
        text = _say("One cannot be: {0}.") if is_one else _say("These cannot be: {0}.")
        said.append(text.format(_named(drill, over)))
    return " ".join(said)


def _times_words(drill: Drill, given: Answer, judged: Judged) -> str:
    changed = [one for one in judged.nearest if one not in given]
    if not changed:
        return ""
    named = BETWEEN.join(time_words(drill, one) for one in changed)
    if len(changed) == 1:
        return _say("One time is to be changed: {0}.").format(named)
    return _say("{1} times are to be changed: {0}.").format(named, len(changed))


def kendall_words(pairs: int) -> str:
    """Say how many pairs of steps stand the other way round than in the nearest right order."""
    if pairs == 1:
        return _say(
            "In one pair of steps the one you put first comes later in the nearest right order."
        )
    return _say(
        "In {0} pairs of steps the one you put first comes later in the nearest right order."
    ).format(pairs)


def time_words(drill: Drill, timed: str) -> str:
    """Return one part of an answer that gives times: a title, and the time it gets."""
    name, _, time = timed.partition("=")
    return _say("'{0}' at {1}").format(title_of(drill, name), time)


def title_of(drill: Drill, name: str) -> str:
    """Return what a choice is called; its id where the exercise has no such choice."""
    return next((one.title for one in drill.choices if one.id == name), name)


def _named(drill: Drill, names: Sequence[str]) -> str:
    titles = (title_of(drill, name.partition("=")[0]) for name in names)
    return BETWEEN.join(f"'{title}'" for title in titles)


def cautions_words(count: int) -> str:
    """Name the line behind which the cautions of the work stand."""
    return _say("Cautions of this work ({0})").format(count)


def nearest_button_words(form: AnswerForm, *, is_shown: bool) -> str:
    """Return what the button says that turns between a right answer and the one given."""
    if is_shown:
        return _say("&Your own answer")
    return (
        _say("The &nearest right order") if form is AnswerForm.ORDER else _say("A right a&nswer")
    )


def right_shown_words(form: AnswerForm) -> str:
    """Say which answer the form shows now."""
    if form is AnswerForm.ORDER:
        return _say("This is the right order that is nearest to yours.")
    return _say("This answer is right.")


def why_drill(drill: Drill, asked: WhyAsked) -> Drill:
    """Return the second question in the shape of an exercise, for the same form to ask it."""
    return Drill(
        asked=drill.asked,
        title=drill.title,
        question=asked.question,
        choices=tuple(
            Choice(id=one.id, title=one.title, detail=one.detail) for one in asked.choices
        ),
        form=AnswerForm.ONE,
        done=drill.done,
        parts=drill.parts,
    )


def grade_words(grade: Grade) -> str:
    """Say how it was known, to the one who practises."""
    return {
        Grade.MISSED: _say("This reason comes back soon."),
        Grade.NEEDED_REASON: _say("You had it, with the reason before you. It comes back soon."),
        Grade.KNEW: _say("You knew it."),
        Grade.COULD_TEACH: _say("You could teach it."),
    }[grade]


def number_words(asked: Asked) -> str:
    """Return how much of the work an exercise is about, and of which kind it is."""
    return _say("{0}, {1}").format(kind_words(asked.kind), level_words(asked.level))


def looking_words() -> str:
    """Say that an exercise is being made."""
    return _say("An exercise is being set …")


def none_words(kind: DrillKind | None) -> str:
    """Say that no exercise of what is asked for can be made here."""
    if kind is None:
        return _say(
            "No exercise can be made of this piece: nothing in it has to come before anything "
            "else. Choose another piece."
        )
    return _say(
        "No exercise '{0}' can be made of this piece that would not answer itself. Choose another "
        "kind or piece."
    ).format(kind_words(kind))
