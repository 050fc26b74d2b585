"""Words about a drawing that is brought in: kinds of lines with their keys, sizes, how far one is."""

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication, Qt

from armorplan.app.bringing.model import Question
from armorplan.geometry.brought.model import Shape, ShapeKind, SortedOut

KEY_OF: dict[ShapeKind, Qt.Key] = {
    ShapeKind.PART: Qt.Key.Key_P,
    ShapeKind.HOLE: Qt.Key.Key_H,
    ShapeKind.SLOT: Qt.Key.Key_S,
    ShapeKind.ENGRAVING: Qt.Key.Key_E,
    ShapeKind.FRAME: Qt.Key.Key_F,
    ShapeKind.LEFT_OUT: Qt.Key.Key_X,
}
"""The key that takes what is chosen in the drawing for each kind."""


def _tr(text: str) -> str:
    return QCoreApplication.translate("bring", text)


@dataclass(frozen=True, slots=True)
class KindWords:
    """A kind of line: one of them, many of them, and how it is drawn."""

    one: str
    many: str
    drawn: str


def kind_words(kind: ShapeKind) -> KindWords:
    """Return the words for a kind of line."""
    return {
        ShapeKind.PART: KindWords(_tr("part"), _tr("parts"), _tr("filled with leather")),
        ShapeKind.HOLE: KindWords(_tr("hole"), _tr("holes"), _tr("white, with a full line")),
        ShapeKind.SLOT: KindWords(_tr("slot"), _tr("slots"), _tr("hatched")),
        ShapeKind.ENGRAVING: KindWords(_tr("engraving"), _tr("engravings"), _tr("a dashed line")),
        ShapeKind.FRAME: KindWords(_tr("frame"), _tr("frames"), _tr("a line of dash and dot")),
        ShapeKind.LEFT_OUT: KindWords(_tr("left out"), _tr("left out"), _tr("a dotted line")),
    }[kind]


def counted(found: SortedOut) -> dict[ShapeKind, int]:
    """Return how many lines are taken for each kind."""
    counts = dict.fromkeys(ShapeKind, 0)
    for shape in found.shapes:
        counts[shape.kind] += 1
    return counts


def size_words(shape: Shape) -> str:
    """Say how large a line is, in mm."""
    if shape.circle is not None:
        return _tr("ø {mm} mm").format(mm=f"{shape.circle[1]:.1f}")
    across = [max(c) - min(c) for c in zip(*shape.points, strict=True)]
    return _tr("{wide} × {high} mm").format(wide=f"{across[0]:.1f}", high=f"{across[1]:.1f}")


def shape_words(shape: Shape, holder: str = "") -> str:
    """Say what a line is taken for, how large it is, where it lies, and why it is taken for that.

    ``holder`` is the name of the part it lies in; it may be empty.
    """
    kind = kind_words(shape.kind).one
    name = _tr("'{0}', {1}").format(shape.name, kind) if shape.name else kind.capitalize()
    within = _tr(" in '{0}'").format(holder) if holder else ""
    why = f" {shape.why}" if shape.why else ""
    return f"{name}{within}, {size_words(shape)}.{why}"


def progress_words(questions: tuple[Question, ...], at: int) -> str:
    """Say which question this is, of how many, and how many are open still."""
    open_ones = sum(1 for one in questions if one.answer is None)
    place = _tr("{0} of about {1}").format(at + 1, len(questions))
    left = _tr("{0} open").format(open_ones) if open_ones else _tr("all answered")
    return f"{place} · {left}"


def state_of(question: Question) -> str:
    """Say in a word and a sign whether a question is answered."""
    if question.answer is not None:
        return _tr("\N{CHECK MARK} answered")
    if question.sure:
        return _tr("\N{BLACK RIGHT-POINTING SMALL TRIANGLE} sure")
    return _tr("? to look at")


def answer_words(question: Question) -> str:
    """Say what holds now: what was answered, else what is suggested."""
    for choice in question.choices:
        if choice.key == question.taken:
            return choice.words
    return question.taken


def head_and_rest(text: str) -> tuple[str, str]:
    """Return the first sentence of a text, and the others."""
    ends = [at + 1 for mark in (". ", "? ", ": ") if (at := text.find(mark)) >= 0]
    end = min(ends, default=len(text))
    return text[:end], text[end:].lstrip()
