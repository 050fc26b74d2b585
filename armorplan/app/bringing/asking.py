"""Gathering questions: each is put with what was answered to it, and the answer goes on from there."""

from dataclasses import replace

from armorplan.app.bringing.model import Bringing, Choice, Question
from armorplan.files.typed_numbers import typed_number

ALL, NONE, EACH, USUAL = "all", "none", "each", "usual"
"""Keys of choices that many questions have."""
NOT_ALL = "Not all; ask of each"


class Asking:
    """What is asked of one bringing, in order; each question is answered as soon as it is put."""

    def __init__(self, bringing: Bringing) -> None:
        self.bringing = bringing
        self._put: list[Question] = []

    @property
    def questions(self) -> tuple[Question, ...]:
        """All that was asked so far."""
        return tuple(self._put)

    def put(self, question: Question) -> str:
        """Ask; return the key, or the typed words, that hold now."""
        said = self.bringing.answer(question.id)
        if said is not None and fits(question, said):
            question = replace(question, answer=said)
        self._put.append(question)
        return question.taken

    def number(self, question: Question) -> float:
        """Ask for a number; return the one that holds now."""
        taken = self.put(question)
        return typed_number(taken) or float(question.suggested)


def fits(question: Question, said: str) -> bool:
    """Tell whether what was said answers a question."""
    if any(choice.key == said for choice in question.choices):
        return True
    if question.numeric:
        number = typed_number(said)
        return bool(question.typed) and number is not None and number > 0
    return bool(question.typed and said)


def choices(*told: tuple[str, str] | tuple[str, str, str]) -> tuple[Choice, ...]:
    """Return choices from key, words and why."""
    return tuple(Choice(key=each[0], words=each[1], why="".join(each[2:])) for each in told)


def counted(number: int, what: str, many: str = "") -> str:
    """Return '1 part' or '3 parts'."""
    return f"{number:,} {what if number == 1 else many or what + 's'}"


def a(what: str) -> str:
    """Return a word with its article: 'a lame', 'an internal leather'."""
    return f"{'an' if what[:1].lower() in 'aeiou' else 'a'} {what}"


def capital(words: str) -> str:
    """Return words with a capital letter before them, the rest as it is."""
    return words[:1].upper() + words[1:]


def listed(names: list[str], most: int = 6) -> str:
    """Return the first names, and how many more there are; phrases with commas apart by semicolons."""
    shown = names[:most]
    between = "; " if any(", " in name for name in shown) else ", "
    more = len(names) - most
    return between.join(shown) + (f" and {more:,} more" if more > 0 else "")
