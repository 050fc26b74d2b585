"""What is kept of an answered exercise: which piece it was of, and which reasons it met."""

from collections import Counter
from dataclasses import dataclass
from datetime import datetime

from armorplan.app.derived import Derived
from armorplan.app.practice_reasons import reason_name
from armorplan.practice.drill import Answer, Drill, Judged
from armorplan.practice.grades import Grade
from armorplan.practice.results import ReasonMet, Result


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstTry:
    """How a first try went; see ``practice.results.Result``."""

    person: str
    drill: Drill
    answer: Answer
    judged: Judged
    grade: Grade
    seconds: float
    hint: bool = False


def result_of(derived: Derived, tried: FirstTry, at: datetime) -> Result:
    """Return what is kept of a first try at an instant (aware)."""
    return Result(
        at=at,
        person=tried.person,
        pattern=derived.pattern.uuid,
        pattern_name=derived.pattern.name,
        piece=piece_of(derived, tried.drill),
        asked=tried.drill.asked,
        answer=tried.answer,
        right=tried.judged.right,
        grade=tried.grade,
        seconds=tried.seconds,
        hint=tried.hint,
        reasons=reasons_met(tried.drill, tried.judged),
    )


def reasons_met(drill: Drill, judged: Judged) -> tuple[ReasonMet, ...]:
    """Return the reasons an answer met, and which one of them the second question is about.

    A right answer keeps every reason that the exercise needs, whether or not it was told.
    """
    # After an answer only: a window opens sooner without it.
    from armorplan.app.drills.reasoning import reason_asked

    about = reason_asked(drill, judged) or next(iter(judged.because), None)
    decided = about.rule if about else ""
    told = {because.rule: because.name for because in judged.because}
    met = {one.rule: one.kept for one in judged.met} or dict.fromkeys(told, judged.right)
    if judged.right:
        met = dict.fromkeys(drill.rules, True) | met
    return tuple(
        ReasonMet(
            rule=rule, name=told.get(rule) or reason_name(rule), kept=kept, decided=rule == decided
        )
        for rule, kept in sorted(met.items())
    )


def piece_of(derived: Derived, drill: Drill) -> str:
    """Return the piece that an exercise is of: the one asked for, else where most of it lies."""
    if drill.asked.piece:
        return drill.asked.piece
    work = derived.work
    steps = [step for choice in drill.choices for step in choice.steps if work.has(step)]
    found = Counter(work.step(step).piece for step in steps)
    if not found:
        known = {part.id: part.part.piece for part in derived.assembly.parts}
        found = Counter(known[part] for part in drill.parts if part in known)
    return max(sorted(found), key=found.__getitem__, default="")
