"""Setting an exercise: made from what is asked, never a trivial one; answers read and written."""

import re
from collections.abc import Iterator, Sequence

from armorplan.app.drills.registry import KINDS, maker_of
from armorplan.app.drills.source import DrillSource
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import LETTERS, Answer, AnswerForm, Asked, Drill, Judged, Solved

_TIME = re.compile(r"([01]?\d|2[0-3])[:.]([0-5]\d)")


def drill_for(source: DrillSource, asked: Asked) -> Drill | None:
    """Return the exercise that is asked for; ``None`` where the build holds none of its kind."""
    if asked.kind not in KINDS or not source.derived.order:
        return None
    return maker_of(asked.kind).make(source, asked)


def judged(source: DrillSource, drill: Drill, answer: Sequence[str]) -> Judged:
    """Return what an answer is worth.

    Raises:
        ArmorplanError: it is no answer to this exercise.
    """
    return maker_of(drill.asked.kind).judge(source, drill, answer)


def solved(source: DrillSource, drill: Drill) -> Solved:
    """Return the answer to an exercise."""
    return maker_of(drill.asked.kind).solve(source, drill)


def letter_of(drill: Drill, name: str) -> str:
    """Return what a choice is called on paper and on the command line."""
    return LETTERS[next(at for at, one in enumerate(drill.choices) if one.id == name)]


def answer_words(drill: Drill, answer: Sequence[str]) -> str:
    """Return an answer as it is typed: letters, with times ``A=09:15``."""
    words = []
    for one in answer:
        name, mark, time = one.partition("=") if drill.form is AnswerForm.TIMES else (one, "", "")
        words.append(f"{letter_of(drill, name)}{mark}{time}")
    return " ".join(words)


def answer_from(drill: Drill, typed: str) -> Answer:
    """Return the answer that was typed, by letters or ids, parted by blanks or commas.

    Raises:
        ArmorplanError: it is no answer to this exercise.
    """
    return tuple(_one(drill, word) for word in _words(drill, typed))


def _words(drill: Drill, typed: str) -> Iterator[str]:
    words = [word for word in re.split(r"[\s,;]+", typed.strip()) if word]
    solid = "".join(words)
    is_letters = len(words) == 1 and solid.isalpha() and solid.isupper() and len(solid) > 1
    known = {one.id for one in drill.choices}
    if is_letters and solid not in known and drill.form is not AnswerForm.TIMES:
        yield from solid
    else:
        yield from words


def _one(drill: Drill, word: str) -> str:
    name, mark, time = word.partition("=") if drill.form is AnswerForm.TIMES else (word, "", "")
    meant = _named(drill, name)
    if drill.form is not AnswerForm.TIMES:
        return meant
    clock = _TIME.fullmatch(time)
    if not mark or clock is None:
        raise ArmorplanError(f"'{word}' says no time. Write a time of day behind each: A=09:15.")
    return f"{meant}={int(clock[1]):02}:{clock[2]}"


def _named(drill: Drill, name: str) -> str:
    known = {LETTERS[at]: one.id for at, one in enumerate(drill.choices)}
    found = known.get(name.upper())
    if name in known.values() or found is None:
        found = next((one.id for one in drill.choices if one.id == name), None)
    if found is None:
        last = LETTERS[len(drill.choices) - 1]
        raise ArmorplanError(
            f"'{name}' is none of the choices. Answer with letters from A to {last}."
        )
    return found
