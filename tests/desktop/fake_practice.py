"""Practice on an invented cop: one kind that is put in order, one that is chosen; the same every run."""

import threading
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime

from armorplan.app.practice_protocol import Practiser, SkillRow
from armorplan.app.rows import Diagram
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import (
    NUMBERED,
    AnswerForm,
    Asked,
    Because,
    Choice,
    DayAsked,
    DayRow,
    Drill,
    DrillKind,
    Frame,
    Judged,
    Level,
    Met,
    Solved,
    WhyAsked,
)
from armorplan.practice.grades import Grade, ReasonState
from armorplan.practice.progress import PieceProgress, Progress, ReasonRow
from armorplan.workshop.skill_how import SkillHow

STRAP, CLOSE, TRIM = "strap", "close", "trim"
RIGHT = (STRAP, CLOSE, TRIM)
SEEN_AT = datetime(2026, 5, 7, 9, tzinfo=UTC)
REASON = Because(
    rule="thread-before-closed",
    name="Straps before the closing seam",
    text="Once the boss is <closed>, no anvil reaches the strap: 41.5 mm lie between, 38 mm reach.",
    force="cannot",
    source="common practice, no source",
    numbers=("41.5 mm", "38 mm"),
    steps=(STRAP, CLOSE),
    cautions=("Wear eye protection.",),
)
OWN = replace(
    REASON, rule="own:1", name="Of one's own", text="The trim hides the seam.", numbers=()
)
WHY = WhyAsked(
    question="Why does the strap come first?",
    choices=(
        Choice(id="reach", title="Later no anvil reaches it."),
        Choice(id="dry", title="It has to dry first."),
    ),
    right="reach",
    because=(("reach", "41.5 mm lie between, 38 mm reach."), ("dry", "A strap is not dyed here.")),
)
ORDER = Drill(
    asked=Asked(kind=DrillKind.ORDER, seed=7, level=Level.STRAP, piece="cop"),
    title="Elbow cop, strap",
    question="In which order is the strap put on?",
    given=("The cop is dyed and dry.", "The long stake is taken."),
    choices=(
        Choice(id=TRIM, title="Sew on the trim"),
        Choice(id=CLOSE, title="Close the boss"),
        Choice(id=STRAP, title="Rivet the strap", detail="two rivets"),
    ),
    form=AnswerForm.ORDER,
    cautions=("Wear eye protection.",),
    hint="Something has to be reached while it can.",
)
ONE = Drill(
    asked=Asked(kind=DrillKind.FIRST, seed=3, level=Level.ROW, piece="cop"),
    title="Elbow cop, left row",
    question="Which joint is set first?",
    choices=(Choice(id="j1", title="Left 1"), Choice(id="j2", title="Left 2")),
    form=AnswerForm.ONE,
)
FROM_AT, TO_AT = SEEN_AT.replace(hour=8), SEEN_AT.replace(hour=17)
DAY = Drill(
    asked=Asked(kind=DrillKind.DAY, seed=5, level=Level.PIECE),
    title="Elbow cop",
    question="When does each step begin, so that all is done by 16:00?",
    given=tuple(
        f"Line {n} of what is known of this day, as long as such lines are." for n in range(12)
    ),
    choices=tuple(Choice(id=f"s{n}", title=f"Step {n}") for n in range(6)),
    form=AnswerForm.TIMES,
    day=DayAsked(
        from_at=FROM_AT,
        to_at=TO_AT,
        ends_by_at=TO_AT.replace(hour=16),
        zone="UTC",
        rows=tuple(DayRow(title=f"Step {n}", minutes=30, choice=f"s{n}") for n in range(6)),
    ),
)
RIGHT_DAY = tuple(f"s{n}={8 + n // 2:02}:{30 * (n % 2):02}" for n in range(6))
PLAY = (
    Frame(done=(), said="Nothing is done yet."),
    Frame(done=(CLOSE,), at=CLOSE, said="The boss is closed.", amiss=(STRAP,), ghosts=("j1",)),
)
PEOPLE = (Practiser(id="maker", name="Maker"), Practiser(id="nell", name="Nell"))


def worth(answer: tuple[str, ...]) -> Judged:
    """Return what an order of the three steps is worth."""
    met = (Met(rule=REASON.rule, kept=answer == RIGHT),)
    if answer == RIGHT:
        return Judged(
            right=True, sentence="That order works.", because=(REASON,), met=met, credit=1
        )
    return Judged(
        right=False,
        sentence="With the boss closed the strap cannot be set.",
        because=(REASON, OWN),
        nearest=RIGHT,
        moved=(STRAP,),
        distance=1,
        kendall=1,
        met=met,
        play=PLAY,
    )


def progress_of(person: str) -> Progress:
    """Return one reason of each kind, two of them in the cop."""
    rows = (
        ReasonRow(
            rule=REASON.rule,
            name=REASON.name,
            state=ReasonState.SHAKY,
            asked=3,
            kept=1,
            last=Grade.MISSED,
            last_at=SEEN_AT,
            due_at=SEEN_AT,
            is_due=True,
            sentence="Missed on Thursday; it comes back now.",
        ),
        ReasonRow(rule="cut-before-use", name="Cut before use", state=ReasonState.UNSEEN),
        ReasonRow(
            rule="own:1",
            name="Of one's own",
            state=ReasonState.MASTERED,
            last=Grade.KNEW,
            last_at=SEEN_AT,
            due_at=SEEN_AT.replace(day=28),
        ),
    )
    return Progress(
        person=person,
        name=person.title(),
        at=SEEN_AT.replace(day=9),
        drills=3,
        last_at=SEEN_AT,
        reasons=rows,
        pieces=(PieceProgress(piece="cop", name="Elbow cop", reasons=rows[:2]),),
        sentences=(f"{person.title()} answered 3 exercises.",),
    )


@dataclass
class FakePractice:
    """Fulfils ``Practising``; ``kept`` holds what was kept, ``hold`` keeps threads until it is set."""

    why_not_kept: str = ""
    who: str = "maker"
    drill: Drill | None = ORDER
    asks_why: bool = True
    kept: list[tuple[str, Drill, tuple[str, ...], Grade, float, bool]] = field(
        default_factory=list
    )
    asked: list[object] = field(default_factory=list)
    signed: list[tuple[str, str, SkillHow, str, str]] = field(default_factory=list)
    hold: threading.Event | None = None

    def people(self):
        return PEOPLE

    def kinds(self):
        return (DrillKind.ORDER, DrillKind.FIRST)

    def pieces(self):
        return (("cop", "Elbow cop"), ("boss", "Boss"))

    def _wait(self):
        if self.hold is not None:
            self.hold.wait(10)

    def number_of(self, asked):
        """An exercise for the one reason there is has numbers of its own."""
        return asked.seed + (NUMBERED if asked.focus else 0)

    def numbered(self, number, like):
        at, seed = divmod(number, NUMBERED)
        if at > 1:
            raise ArmorplanError(f"There is no exercise {number}.")
        return replace(like, seed=seed, focus=REASON.rule if at else "")

    def setting(self, asked, *, solve=None):  # noqa: ARG002 - of the protocol
        self.asked.append(asked)

        def make():
            self._wait()
            return replace(self.drill, asked=asked) if self.drill else None

        return make

    def coming(self, person, *, kind=None, level=None, piece="", solve=None):  # noqa: ARG002 - of the protocol
        self.asked.append((person, kind, level, piece))

        def make():
            self._wait()
            return ONE if kind is DrillKind.FIRST else self.drill

        return make

    def judging(self, drill, answer, *, solve=None):  # noqa: ARG002 - of the protocol
        def judge():
            self._wait()
            if drill.form is AnswerForm.TIMES:
                right = tuple(answer) == RIGHT_DAY
                return Judged(
                    right=right, sentence="Yes." if right else "Late.", nearest=RIGHT_DAY
                )
            if drill.form is AnswerForm.ONE:
                right = answer == ("j1",)
                said = "Yes." if right else "Later nothing reaches it."
                return Judged(right=right, sentence=said, because=(REASON,), nearest=("j1",))
            return worth(tuple(answer))

        return judge

    def why(self, drill, judged):  # noqa: ARG002 - of the protocol
        return lambda: WHY if self.asks_why else None

    def solving(self, drill, *, solve=None):  # noqa: ARG002 - of the protocol
        return lambda: Solved(answer=RIGHT)

    def diagram(self, done, amiss=(), ghosts=()):  # noqa: ARG002 - of the protocol
        return Diagram(parts=(), holes=(), joints=())

    def keep(self, person, drill, answer, judged, grade, seconds, *, hint=False):  # noqa: ARG002, PLR0913 - of the protocol
        self.kept.append((person, drill, answer, grade, seconds, hint))
        return f"Kept for {person}."

    def progress(self, person):
        return progress_of(person)

    def skills(self, person=""):
        names = {one.id: one.name for one in PEOPLE}
        if person not in names:
            return ()
        said = {(who, kind): rest for who, kind, *rest in self.signed}
        rows = []
        for kind in ("cut", "rivet"):
            how, by, note = said.get((person, kind), (None, "", ""))
            rows.append(
                SkillRow(
                    person=person,
                    name=names[person],
                    kind=kind,
                    how=how,
                    holds=how or SkillHow.ALONE,
                    by=by,
                    at=SEEN_AT if how else None,
                    note=note,
                    practised="Two reasons of it sit, one is shaky.",
                    sentence=f"{names[person]}: {kind}.",
                )
            )
        return tuple(rows)

    def sign_off(self, person, kind, how, by, note=""):
        self.signed.append((person, kind, how, by, note))
        return f"Signed off: {kind}."

    def take_back_skill(self, person):  # noqa: ARG002 - of the protocol
        self.signed.pop()
        return "Taken back."

    def can_take_back(self, person):
        mine = [one for one in self.signed if one[0] == person]
        return f"Sign-off of '{mine[-1][1]}'" if mine else ""
