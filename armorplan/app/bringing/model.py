"""A drawing on its way to a pattern: what was answered so far, and what is asked still.

Nothing but the answers is kept; what they make of the drawing is reckoned from them each time, so
that a former value is the way back and a file of answers says all.
"""

from dataclasses import dataclass
from enum import StrEnum, unique

from armorplan.geometry.brought.model import LooseDrawing
from armorplan.geometry.matching.model import RowMatch


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """One answer: the id of the question, and the key of a choice or what was typed."""

    about: str
    choice: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Bringing:
    """A drawing with the answers given so far, in the order they were given.

    Attributes:
        drawing: what was read.
        name: what the pattern shall be called; empty: after the drawing.
        given: one answer at most to each question; a later one takes the place of a former.
    """

    drawing: LooseDrawing
    name: str = ""
    given: tuple[Given, ...] = ()

    def answer(self, about: str) -> str | None:
        """Return what was answered to a question; ``None`` where nothing was."""
        return next((each.choice for each in self.given if each.about == about), None)

    @property
    def answers(self) -> dict[str, str]:
        """The answers by question."""
        return {each.about: each.choice for each in self.given}


@unique
class QuestionKind(StrEnum):
    """What is asked, in the order it is asked."""

    UNIT = "unit"
    CLEARED = "cleared"
    FRAME = "frame"
    SHAPES = "shapes"
    NAMES = "names"
    TWINS = "twins"
    NEAR_TWINS = "near twins"
    KINDS = "kinds"
    MATERIAL = "material"
    ROWS = "rows"
    ROW = "row"
    TURNING = "turning"
    OUTSIDE = "outside"
    ON_WEARER = "on the wearer"
    FASTENERS = "fasteners"
    THREADS = "threads"
    STRAPS = "straps"
    PIECES = "pieces"
    MOVEMENT = "movement"
    WEARER = "wearer"
    SHAPING = "shaping"
    FOLDS = "folds"
    TREATMENTS = "treatments"


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One way to answer: its key, its words, and why or what follows, as a sentence."""

    key: str
    words: str
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question.

    Attributes:
        id: names it as long as what it asks about is there.
        text: the question, as sentences with numbers.
        choices: the ways to answer, the likeliest first.
        suggested: key of the choice that is taken as long as nothing is answered; always one of
            ``choices``.
        sure: the suggestion needs no thought: it can be taken without a look.
        shapes: keys of the shapes it is about, for the picture.
        matches: what fits what, for ghosts; of a question with rivals one to a choice, in order.
        settles: how many things one answer settles.
        typed: what may be typed instead of a choice, and its unit ('angle in °'); empty: nothing.
        numeric: what is typed is a number above 0.
        answer: what was answered; ``None``: it is open.
    """

    id: str
    kind: QuestionKind
    text: str
    choices: tuple[Choice, ...]
    suggested: str
    sure: bool = False
    shapes: tuple[str, ...] = ()
    matches: tuple[RowMatch, ...] = ()
    settles: int = 1
    typed: str = ""
    numeric: bool = False
    answer: str | None = None

    @property
    def taken(self) -> str:
        """The key or typed words that hold now: what was answered, else what is suggested."""
        return self.suggested if self.answer is None else self.answer
