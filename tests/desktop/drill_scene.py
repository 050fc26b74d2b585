"""Exercises made by hand, about the invented parts, one of each form."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from armorplan.practice.drill import (
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
)

TITLES = (
    "Rivet the upper row",
    "Dye the strap",
    "Bevel the edges of the petals all round, the outside only, before any of them is wetted",
    "Rivet the strap to the lower petal",
    "Set the boss",
)
JOINTS = (
    "piece_0.upper_0",
    "piece_0.upper_2",
    "piece_0.lower_0",
    "piece_0.strap_0",
    "piece_0.boss_0",
)
CHOICES = tuple(
    Choice(
        id=f"step-{at}",
        title=title,
        detail="two-part rivet, 3 mm" if at == 0 else "",
        steps=(f"step-{at}",),
        joints=(JOINTS[at],),
        parts=("piece_0.petal_mid",) if at == 4 else (),
    )
    for at, title in enumerate(TITLES)
)
IDS = tuple(choice.id for choice in CHOICES)
ORDER = Drill(
    asked=Asked(kind=DrillKind.ORDER, seed=1),
    title="Left elbow",
    question="Put the steps in order.",
    choices=CHOICES,
    form=AnswerForm.ORDER,
)
SOME = replace(
    ORDER,
    asked=Asked(kind=DrillKind.NEXT, seed=1),
    form=AnswerForm.SOME,
    question="Which may come next?",
)
FIRST = replace(
    ORDER,
    asked=Asked(kind=DrillKind.FIRST, seed=1),
    form=AnswerForm.ONE,
    question="Which of them cannot wait?",
)
MISTAKE = replace(
    ORDER,
    asked=Asked(kind=DrillKind.MISTAKE, seed=1),
    form=AnswerForm.ONE,
    question="Where is the mistake?",
    shown=tuple(IDS[at] for at in (3, 0, 4, 1, 2)),
)
DAWN = datetime(2026, 5, 4, 6, 0, tzinfo=UTC)
"""08:00 on the clock of the zone that is asked about, in summer time."""


def hour(hours):
    """Return an instant of the day, in hours after people begin."""
    return DAWN + timedelta(hours=hours)


CASED, FORMED, DYED = (
    DayRow(title="Case the petals", minutes=45, choice="step-0"),
    DayRow(title="Form the petals", minutes=90, choice="step-1"),
    DayRow(title="Dye the petals", minutes=30, choice="step-2"),
)
DAMP = DayRow(
    title="Damp",
    minutes=60,
    latest_min=150,
    after="step-0",
    before="step-1",
    attended=False,
)
DRY = DayRow(title="Drying", minutes=120, after="step-1", before="step-2", attended=False)
DAY = DayAsked(
    from_at=DAWN,
    to_at=hour(10),
    ends_by_at=hour(9),
    zone="Europe/Berlin",
    rows=(CASED, DAMP, FORMED, DRY, DYED),
    closed=((hour(4), hour(5)),),
)
PLAN = replace(
    ORDER,
    asked=Asked(kind=DrillKind.DAY, seed=1),
    form=AnswerForm.TIMES,
    question="When does each begin?",
    choices=CHOICES[:3],
    day=DAY,
)
PLAY = (
    Frame(done=(), said="Nothing is done yet."),
    Frame(done=("step-3",), at="step-3", said="Done: the strap."),
    Frame(
        done=("step-3",),
        amiss=("step-0",),
        ghosts=("piece_0.upper_0",),
        said="No tool gets to the upper row any more.",
    ),
)


def wrong(nearest=(), moved=(), steps=(), play=()):
    """Return what a wrong answer is worth."""
    because = Because(rule="X", name="a rule", text="It is so.", steps=steps)
    return Judged(
        right=False,
        sentence="Not yet.",
        because=(because,),
        nearest=nearest,
        moved=moved,
        distance=len(moved),
        play=play,
    )


RIGHT = Judged(right=True, sentence="Yes.")
