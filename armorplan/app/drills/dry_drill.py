"""'Dry yet?': what was made wet at a time, in this air, looked at now: what may be done with it?

What is right is reckoned by ``drying.room`` and lies outside the band in which nobody can be sure.
"""

from collections.abc import Iterable, Sequence

from armorplan.app.derived import Derived
from armorplan.app.drills.day_links import links_of
from armorplan.app.drills.dry_looks import Look
from armorplan.app.drills.dry_misled import nearest
from armorplan.app.drills.dry_race import goal_rung
from armorplan.app.drills.dry_reasons import because_of_look
from armorplan.app.drills.dry_setting import DrySet, set_of
from armorplan.app.drills.dry_words import (
    choices_of,
    given_words,
    hint_words,
    question_words,
    right_words,
)
from armorplan.app.drills.reasons import cautions_of
from armorplan.app.drills.source import DrillSource
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import (
    AnswerForm,
    Asked,
    Because,
    Drill,
    Judged,
    Level,
    Met,
    Solved,
)
from armorplan.steps.naming import lowered


class DryDrills:
    """Makes, judges and solves questions about drying."""

    def make(self, source: DrillSource, asked: Asked) -> Drill | None:
        """Return a question; ``None`` where nothing of this build dries by a law of the air."""
        found = set_of(source.derived, asked)
        return None if found is None else _drill(source.derived, asked, found)

    def judge(self, source: DrillSource, drill: Drill, answer: Sequence[str]) -> Judged:
        """Return what an answer is worth; each choice wrongly made or left out is one move.

        Raises:
            ArmorplanError: it names what is no choice, or not one of them where one is asked.
        """
        asked = _set(source, drill)
        chosen = _chosen(drill, answer)
        wrong = [c.id for c in drill.choices if (c.id in chosen) is not (c.id in asked.right)]
        because = _because(source.derived, asked)
        told = because if drill.form is AnswerForm.ONE else _about(because, asked, wrong)
        distance = 1 if wrong and drill.form is AnswerForm.ONE else len(wrong)
        most = 1 if drill.form is AnswerForm.ONE else len(drill.choices)
        return Judged(
            right=not wrong,
            sentence=_sentence(right_words(asked), is_right=not wrong),
            because=told,
            nearest=asked.right,
            moved=tuple(wrong),
            distance=distance,
            credit=1.0 - distance / most,
            met=_met(asked, wrong),
        )

    def solve(self, source: DrillSource, drill: Drill) -> Solved:
        """Return the right answer; there is no other."""
        asked = _set(source, drill)
        return Solved(answer=asked.right, because=_because(source.derived, asked))


def _sentence(right: str, *, is_right: bool) -> str:
    """Say what holds; why it does stands in the reasons."""
    return f"Right: {lowered(right)}" if is_right else right


def _set(source: DrillSource, drill: Drill) -> DrySet:
    found = set_of(source.derived, drill.asked)
    if found is None or _drill(source.derived, drill.asked, found) != drill:
        raise ArmorplanError("This build holds no such exercise any more. Ask for another one.")
    return found


def _drill(derived: Derived, asked: Asked, found: DrySet) -> Drill:
    cases = [look.case for look in found.looks]
    wet = [case.wet.id for case in cases]
    steps = tuple(dict.fromkeys(step for case in cases for step in (case.wet.id, case.step.id)))
    return Drill(
        asked=asked,
        title=derived.pattern.name,
        question=question_words(found),
        choices=choices_of(derived, found),
        form=AnswerForm.SOME if found.level >= Level.PIECE else AnswerForm.ONE,
        given=given_words(derived, found),
        done=_done(derived, wet),
        parts=tuple(dict.fromkeys(part for case in cases for part in case.step.parts)),
        rules=tuple(sorted({case.rule for case in cases})),
        cautions=cautions_of(derived, steps),
        hint=hint_words(found),
    )


def _done(derived: Derived, wet: Iterable[str]) -> tuple[str, ...]:
    """Return the steps by which all of these are wet, in order."""
    made = set(wet)
    before = {*links_of(derived).before(made), *made}
    return tuple(step for step in derived.order if step in before)


def _chosen(drill: Drill, answer: Sequence[str]) -> frozenset[str]:
    known = {choice.id for choice in drill.choices}
    for name in answer:
        if name not in known:
            raise ArmorplanError(f"'{name}' is none of the choices. Choose among those shown.")
    chosen = frozenset(answer)
    if drill.form is AnswerForm.ONE and len(chosen) != 1:
        raise ArmorplanError("One of the choices is asked for. Choose just one.")
    return chosen


def _because(derived: Derived, asked: DrySet) -> tuple[Because, ...]:
    if asked.level is Level.ROW:
        return tuple(because_of_look(derived, look, goal_rung(look)) for look in asked.looks)
    if asked.level is Level.STRAP:
        look = asked.looks[0]
        as_told = look.rung() == look.catalogue_rung()
        return (because_of_look(derived, look, nearest(look) if as_told else None),)
    return tuple(because_of_look(derived, look) for look in asked.looks)


def _about(
    because: tuple[Because, ...], asked: DrySet, wrong: Sequence[str]
) -> tuple[Because, ...]:
    """Return the reasons of what was chosen wrongly first; where nothing was, all."""
    pairs = list(zip(asked.looks, because, strict=True))
    return tuple(told for look, told in sorted(pairs, key=lambda p: not _is_of(p[0], wrong)))


def _is_of(look: Look, names: Sequence[str]) -> bool:
    return look.case.step.id in names


def _met(asked: DrySet, wrong: Sequence[str]) -> tuple[Met, ...]:
    """Return which rules an answer met; of several, one missed misses its rule."""
    is_one = asked.level < Level.PIECE
    missed = {look.case.rule for look in asked.looks if wrong and (is_one or _is_of(look, wrong))}
    rules = sorted({look.case.rule for look in asked.looks})
    return tuple(Met(rule=rule, kept=rule not in missed) for rule in rules)


MAKER = DryDrills()
