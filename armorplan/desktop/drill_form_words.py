"""What answer forms say: places, letters, what is chosen, and what judging leaves at each choice."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QCoreApplication

from armorplan.desktop.drill_marks import Mark, Note, mark_words
from armorplan.practice.drill import LETTERS, Answer, Choice, Drill, Judged


def _say(text: str) -> str:
    return QCoreApplication.translate("drill", text)


def letters(drill: Drill) -> Mapping[str, str]:
    """Return the letter of each choice by its id."""
    return {one.id: LETTERS[at] for at, one in enumerate(drill.choices)}


def choice_of_letter(drill: Drill, letter: str) -> Choice | None:
    """Return the choice that a letter names, large or small; ``None`` where it names none."""
    at = LETTERS.find(letter.upper()) if len(letter) == 1 else -1
    return drill.choices[at] if 0 <= at < len(drill.choices) else None


def spoken(letter: str, choice: Choice) -> str:
    """Say a choice for the ear."""
    more = f". {choice.detail}" if choice.detail else ""
    return f"{letter}, {choice.title}{more}"


def place_words(place: int, of: int) -> str:
    """Say which place of an order it is, counted from 1."""
    return _say("place {0} of {1}").format(place, of)


def moved_words(letter: str, place: int, of: int) -> str:
    """Say where a step has come to lie."""
    return _say("{0} is now at {1}").format(letter, place_words(place, of))


def chosen_words(chosen: int, of: int) -> str:
    """Say how many are chosen."""
    return _say("{0} of {1} chosen").format(chosen, of)


def broken_at(drill: Drill, answer: Sequence[str], judged: Judged) -> str:
    """Return the choice with which an answer comes apart; empty where none can be named.

    It is the last one that is played before something can no more be done; where no picture
    tells, the first one that the first reason speaks of.
    """
    if judged.right:
        return ""
    at = _last_played(judged)
    spoken_of = {at} if at else set(judged.because[0].steps if judged.because else ())
    given = [one.partition("=")[0] for one in answer]
    by_id = {one.id: one for one in drill.choices}
    named = (one for one in given if one in by_id)
    return next((one for one in named if spoken_of & {one, *by_id[one].steps}), "")


def _last_played(judged: Judged) -> str:
    at = ""
    for frame in judged.play:
        at = frame.at or at
        if frame.amiss or frame.ghosts:
            return at
    return ""


def order_notes(drill: Drill, answer: Answer, judged: Judged) -> Mapping[str, Note]:
    """Say of each step of an order whether it may stay, and where it goes wrong.

    Where to a step is to be moved is not told: whoever tries again finds that out.
    """
    if judged.right:
        return {one: _plain(Mark.RIGHT) for one in answer}
    notes = {one: _plain(Mark.STAYS) for one in answer}
    for one in judged.moved:
        if one in notes:
            notes[one] = _plain(Mark.MOVED)
    broken = broken_at(drill, answer, judged)
    if broken:
        words = mark_words(Mark.BREAK)
        if notes[broken].mark is Mark.MOVED:
            words = f"{words}; {notes[broken].words}"
        notes[broken] = Note(mark=Mark.BREAK, words=words)
    return notes


def chosen_notes(drill: Drill, answer: Answer, judged: Judged) -> Mapping[str, Note]:
    """Say of each choice whether it was rightly chosen, wrongly, or left out."""
    right = frozenset(answer if judged.right else judged.nearest)
    notes = {}
    for one in drill.choices:
        if one.id in answer:
            notes[one.id] = _plain(Mark.RIGHT if one.id in right else Mark.WRONG)
        elif one.id in right:
            notes[one.id] = Note(mark=Mark.MISSED, words=_left_out(answer, right))
    return notes


def _left_out(answer: Answer, right: frozenset[str]) -> str:
    """Of one that is right alone, 'this one'; beside others that are right, 'this one as well'."""
    is_alone = len(right) == 1 or not right & set(answer)
    return _say("this one") if is_alone else mark_words(Mark.MISSED)


def day_notes(drill: Drill, answer: Answer, judged: Judged) -> Mapping[str, Note]:
    """Say of each bar of a day what there is to be done with it."""
    names = [one.partition("=")[0] for one in answer]
    if judged.right:
        return {one: _plain(Mark.RIGHT) for one in names}
    times = dict(one.partition("=")[::2] for one in judged.nearest)
    moved = {one.partition("=")[0] for one in judged.moved}
    broken = broken_at(drill, answer, judged)
    notes = {one: _plain(Mark.STAYS) for one in names}
    for one in (one for one in names if one in moved or one == broken):
        mark = Mark.BREAK if one == broken else Mark.MOVED
        words = mark_words(mark)
        if one in moved and one in times:
            words = _say("{0}; at {1} it would do").format(words, times[one])
        notes[one] = Note(mark=mark, words=words)
    return notes


def worst_of(notes: Mapping[str, Note]) -> str:
    """Return the choice that is to be looked at first: where it goes wrong, else what is to be moved."""
    for mark in (Mark.BREAK, Mark.MOVED):
        found = next((name for name, note in notes.items() if note.mark is mark), "")
        if found:
            return found
    return ""


def _plain(mark: Mark) -> Note:
    return Note(mark=mark, words=mark_words(mark))
