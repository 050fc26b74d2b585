"""An exercise, an answer to it, and what the answer is worth. Makers of each kind fill them in."""

from dataclasses import dataclass
from datetime import datetime
from enum import IntEnum, StrEnum

from armorplan.relations.model import Quantity

MOST_STEPS = 12
"""As long as an exercise gets: up to here the fewest moves to a right order are always exact."""

NUMBERED = 10_000
"""So many exercises there are of one kind, level and piece for each reason: seeds are below this."""

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
"""What choices are called on the command line and on paper, in the order they are shown."""


class DrillKind(StrEnum):
    """What is asked; the value is its name on the command line and in the workshop file."""

    ORDER = "order"
    NEXT = "next"
    MISTAKE = "mistake"
    FIRST = "first"
    FASTENER = "fastener"
    DRY = "dry"
    DAY = "day"
    WAY_BACK = "way-back"


class Level(IntEnum):
    """How much of the work an exercise is about."""

    STRAP = 1
    ROW = 2
    PIECE = 3
    HARNESS = 4

    @property
    def words(self) -> str:
        """Say how much that is."""
        return ("one strap", "a row", "a piece", "the whole harness")[self - 1]


class AnswerForm(StrEnum):
    """What an answer is made of; in each case the ids of choices."""

    ORDER = "all of them, in order"
    SOME = "all that are right"
    ONE = "one of them"
    TIMES = "a time for each"


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """All that decides an exercise, beside the build: the same again makes the same exercise.

    Attributes:
        piece: it is about this piece of a harness; empty: any.
        part: it is about this part or row; empty: any.
        focus: rule whose reason it is to need; empty, or where none can be made of it: any.
    """

    kind: DrillKind
    seed: int
    level: Level = Level.ROW
    piece: str = ""
    part: str = ""
    focus: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Something that can be chosen, put in order, or given a time.

    Attributes:
        id: what answers hold: a step, a joint, a place in an order, a length in mm.
        detail: a second line; may be empty.
        steps, parts, joints: what of the build is lit with it.
    """

    id: str
    title: str
    detail: str = ""
    steps: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    joints: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class DayRow:
    """One bar of a day that is planned.

    Attributes:
        choice: whose time is asked; empty where time alone passes behind ``after``.
        minutes: how long it takes; of a wait its least.
        latest_min: of a wait: so long after the end of ``after`` it is too late; ``None``: never.
        after: of a wait: the choice behind whose end it begins; ``before``: the one that waits.
        attended: somebody works at it; no two of these at once.
    """

    title: str
    minutes: int
    choice: str = ""
    latest_min: int | None = None
    after: str = ""
    before: str = ""
    attended: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class DayAsked:
    """The day that is to be planned.

    Attributes:
        from_at, to_at: aware instants between which people work; ``closed`` within them they do not.
        ends_by_at: all has to be done by then.
        zone: IANA name of the zone in which times are said.
        grid_min: times are multiples of this.
    """

    from_at: datetime
    to_at: datetime
    ends_by_at: datetime
    zone: str
    rows: tuple[DayRow, ...]
    closed: tuple[tuple[datetime, datetime], ...] = ()
    grid_min: int = 15


@dataclass(frozen=True, slots=True, kw_only=True)
class Drill:
    """An exercise.

    Attributes:
        title: of the build and piece it is about.
        question: one sentence, ending in a question mark or a full stop.
        given: what is known: what is done already, air, thicknesses; one sentence each.
        choices: as they are shown, in an order that gives nothing away.
        form: what an answer is made of.
        done: steps that are done before it, for the diagram, in order.
        shown: what of an order stands fixed (of a mistake: the order that holds it); else empty.
        parts: of which parts it is; the diagram shows these large.
        rules: the rules whose reasons it needs; never told before the answer.
        cautions: of the work it speaks of.
        hint: the reason that decides it, in words that name no answer; 'needed the reason'.
    """

    asked: Asked
    title: str
    question: str
    choices: tuple[Choice, ...]
    form: AnswerForm
    given: tuple[str, ...] = ()
    done: tuple[str, ...] = ()
    shown: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    hint: str = ""
    day: DayAsked | None = None

    def choice(self, name: str) -> Choice:
        """Return the choice of an id; KeyError where there is none."""
        found = next((one for one in self.choices if one.id == name), None)
        if found is None:
            raise KeyError(name)
        return found


Answer = tuple[str, ...]
"""Ids of choices; with ``AnswerForm.TIMES`` each with its time behind: ``ID=09:15``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Because:
    """A reason of this very piece.

    Attributes:
        rule: code of the rule it follows from; what results are kept by.
        name: the rule's name for people.
        text: the sentence, with names and numbers of this piece.
        numbers: as they are said; ``exact``: the same as reckoned.
        steps: the steps it speaks of.
    """

    rule: str
    name: str
    text: str
    force: str = ""
    source: str = ""
    numbers: tuple[str, ...] = ()
    exact: tuple[Quantity, ...] = ()
    steps: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """A reason that an answer met: kept, or missed. What comes back is decided by these."""

    rule: str
    kept: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """One picture of how an answer goes: the work up to a step, and what is amiss by then.

    Attributes:
        done: steps done by now, in order.
        at: the step done in this frame, or that is left to do in it; empty in the first.
        amiss: steps that can no more be done; ``ghosts``: joints drawn as ghosts, out of reach.
        said: what happens, in a sentence.
    """

    done: tuple[str, ...]
    said: str
    at: str = ""
    parts: tuple[str, ...] = ()
    opened: tuple[str, ...] = ()
    amiss: tuple[str, ...] = ()
    ghosts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """What an answer is worth.

    Attributes:
        sentence: the answer to the apprentice, kind and plain.
        because: the reasons, the first break's first; of a right answer those that it kept.
        nearest: a right answer, as near to the given one as there is.
        moved: what has to be put elsewhere, added or taken out for it.
        distance: how many moves, additions and removals that takes; ``exact``: no fewer will do.
        kendall: pairs that stand the other way round than in ``nearest``; ``None``: no order asked.
        credit: 1 where right, else ``1 - distance / most``, where ``most`` is what the worst
            answer takes; never shown as a mark.
        met: the reasons it met.
        play: how it goes, picture by picture; empty where there is nothing to see.
    """

    right: bool
    sentence: str
    because: tuple[Because, ...] = ()
    nearest: Answer = ()
    moved: tuple[str, ...] = ()
    distance: int = 0
    exact: bool = True
    kendall: int | None = None
    credit: float = 0.0
    met: tuple[Met, ...] = ()
    play: tuple[Frame, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """The answer, for the sheet of answers.

    Attributes:
        answer: one right answer.
        others: what else is right, in a sentence: 'Three other orders are right.'; may be empty.
    """

    answer: Answer
    others: str = ""
    because: tuple[Because, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WhyAsked:
    """The second question, after a right answer: which reason holds here?

    Attributes:
        choices: reasons; one of them is true of this piece and decides it.
        right: the id of the true one.
        because: by id, what each is: the true one, and why the others are not.
    """

    question: str
    choices: tuple[Choice, ...]
    right: str
    because: tuple[tuple[str, str], ...]
