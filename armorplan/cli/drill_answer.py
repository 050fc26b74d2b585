"""An answer as it is typed, looked at before it is judged: nothing twice, nothing left out."""

from collections.abc import Sequence

from armorplan.app.drills.setting import answer_from, letter_of
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import LETTERS, Answer, AnswerForm, Drill, WhyAsked

_ALL = (AnswerForm.ORDER, AnswerForm.TIMES)


def answer_typed(drill: Drill, words: Sequence[str]) -> Answer:
    """Return the answer that was typed.

    Raises:
        ArmorplanError: it names what is no choice, something twice, too many or too few.
    """
    answer = answer_from(drill, " ".join(words))
    if not answer:
        last = LETTERS[len(drill.choices) - 1]
        raise ArmorplanError(f"--answer names nothing. Answer with letters from A to {last}.")
    chosen = [one.partition("=")[0] if drill.form is AnswerForm.TIMES else one for one in answer]
    twice = next((one for at, one in enumerate(chosen) if one in chosen[:at]), None)
    if twice is not None:
        raise ArmorplanError(f"'{letter_of(drill, twice)}' is named twice. Name each once.")
    if drill.form is AnswerForm.ONE and len(chosen) > 1:
        raise ArmorplanError(f"Only one is asked for, and {len(chosen)} are named. Choose one.")
    missing = [one.id for one in drill.choices if one.id not in chosen]
    if drill.form in _ALL and missing:
        letters = ", ".join(letter_of(drill, one) for one in missing)
        what = "put in order" if drill.form is AnswerForm.ORDER else "given a time"
        are = "is" if len(missing) == 1 else "are"
        raise ArmorplanError(f"All of them are to be {what}, and {letters} {are} missing.")
    return answer


def reason_typed(asked: WhyAsked, word: str) -> str:
    """Return the id of the reason that was typed by its letter.

    Raises:
        ArmorplanError: it is none of them.
    """
    letters = {LETTERS[at]: one.id for at, one in enumerate(asked.choices)}
    found = letters.get(word.strip().upper())
    if found is None:
        last = LETTERS[len(asked.choices) - 1]
        raise ArmorplanError(f"'{word}' is none of the reasons. Choose a letter from A to {last}.")
    return found
