"""'Find the mistake': a right order in which one step was put too early; which one?

Right is each step that, taken out alone and put somewhere behind, leaves a right order. Most orders
are made so that there is one; where the relations leave several, each of them is right.
"""

import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.drills.learning import Learned
from armorplan.app.drills.playing import frames
from armorplan.app.drills.reasons import (
    because_all,
    broken_words,
    cautions_of,
    hint_of,
    met_by,
    title_of,
)
from armorplan.app.drills.source import DrillSource
from armorplan.app.drills.step_sets import PLAIN_SOURCE, StepSet, StepSets, best_of, lacks_of
from armorplan.app.drills.step_words import (
    breaks_told,
    checked,
    choices_of,
    learned_of,
    number_of,
    one_each,
    state_words,
    title_for,
)
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.distance import credit_of
from armorplan.practice.drill import AnswerForm, Asked, Drill, Judged, Solved
from armorplan.practice.levels import SIZES, chance_of
from armorplan.practice.mistake_spot import moved_early, too_early
from armorplan.relations.checking import Break
from armorplan.relations.index import named_steps

_DRAWN, _TRIED, _ATTEMPTS = 2, 3, 24
_ROUNDS = 20
_NEAR, _FAR = 1, 2
"""How far off a wrong answer is: a step that has its part in the mistake, or any other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spot:
    """An order with a mistake.

    Attributes:
        shown: the order.
        told: what it breaks, what is told first in front.
        mends: by step that comes too early, a right order in which it has waited.
        place: where it was drawn that the mistake is to stand.
    """

    found: StepSet
    shown: tuple[str, ...]
    told: tuple[Break, ...]
    mends: Mapping[str, tuple[str, ...]]
    place: int


class MistakeMaker:
    """Makes, judges and solves 'Find the mistake'."""

    def make(self, source: DrillSource, asked: Asked) -> Drill | None:
        """Return an order with a step that comes too early."""
        derived = source.derived
        spots = _spots(derived, asked)
        spot = best_of(spots, lambda one: _lacks(asked, one), attempts=_ATTEMPTS)
        if spot is None:
            return None
        broken = one_each(each.relation for each in spot.told)
        return Drill(
            asked=asked,
            title=title_for(derived, spot.found.topic.title),
            question=_question(len(spot.shown)),
            choices=choices_of(derived, spot.shown),
            form=AnswerForm.ONE,
            given=(
                *state_words(derived, spot.found.learned.done, spot.shown),
                "If just that one waited, the order would be right.",
            ),
            done=spot.found.learned.done,
            shown=spot.shown,
            parts=spot.found.parts(derived),
            rules=tuple(each.reason.rule for each in broken),
            cautions=cautions_of(derived, spot.shown),
            hint=hint_of(broken[0]),
        )

    def judge(self, source: DrillSource, drill: Drill, answer: Sequence[str]) -> Judged:
        """Return what an answer is worth. Half of it where the step has its part in the mistake.

        Raises:
            ArmorplanError: not one step was named, or something that is no choice.
        """
        checked(drill, answer)
        if len(set(answer)) > 1:
            raise ArmorplanError("Only one step is asked for: the one that comes too early.")
        derived, (step,) = source.derived, set(answer)
        learned = learned_of(derived, drill)
        mends = mends_of(learned, drill.shown)
        told = breaks_told(learned, drill.shown, drill.rules[0])
        is_right = step in mends
        culprit = step if is_right else next(iter(mends))
        told = tuple(sorted(told, key=lambda each: each.step != culprit))
        broken = one_each(each.relation for each in told)
        named = {name for each in told for name in named_steps(each.relation)}
        far = 0 if is_right else (_NEAR if step in named else _FAR)
        because = because_all(derived, broken)
        return Judged(
            right=is_right,
            sentence=_sentence(derived, (step, culprit), told, mends[culprit]),
            because=because,
            nearest=(culprit,),
            moved=() if is_right else (culprit,),
            distance=0 if is_right else 1,
            credit=credit_of(far, _FAR),
            met=met_by(broken, ()) if is_right else met_by((), broken),
            play=frames(learned.played(source), drill.shown, done=drill.done, because=because),
        )

    def solve(self, source: DrillSource, drill: Drill) -> Solved:
        """Return the step that comes too early."""
        derived = source.derived
        learned = learned_of(derived, drill)
        mends = mends_of(learned, drill.shown)
        told = breaks_told(learned, drill.shown, drill.rules[0])
        first, *others = mends
        titles = ", ".join(f"'{title_of(derived, one)}'" for one in others)
        return Solved(
            answer=(first,),
            others=f"Right as well: {titles}." if titles else "",
            because=because_all(derived, one_each(each.relation for each in told)),
        )


MAKER = MistakeMaker()


def mends_of(learned: Learned, shown: Sequence[str]) -> Mapping[str, tuple[str, ...]]:
    """Return each step that comes too early with an order that holds, once reach has taught all."""
    learned.learn(shown)
    for _ in range(_ROUNDS):
        mends = too_early(learned.few, shown)
        if not any(learned.learn(order) for order in mends.values()):
            return mends
    return too_early(learned.few, shown)


def _spots(derived: Derived, asked: Asked) -> Iterator[_Spot]:
    """Yield orders with a mistake that chance offers; where it stands is drawn for all of them."""
    chance = chance_of(asked)
    share = chance.random()
    for found in StepSets(derived, asked, SIZES[asked.level]).offers():
        main = found.main.reason.rule
        place = int(share * (len(found.few.steps) - 1))
        focus = asked.focus if main == asked.focus else ""
        for shown in _faulty(found, place, chance, focus=focus):
            mends = mends_of(found.learned, shown)
            if mends:
                told = breaks_told(found.learned, shown, main)
                yield _Spot(found=found, shown=shown, told=told, mends=mends, place=place)


def _faulty(
    found: StepSet, place: int, chance: random.Random, *, focus: str
) -> list[tuple[str, ...]]:
    """Return a few orders with one step put forward, those first that break the rule it is about.

    It is put to the place that was drawn; elsewhere where nothing put there breaks anything, or
    not the rule that is asked for.
    """
    orders = [_usual_order(found, chance) for _ in range(_DRAWN)]
    others = [at for at in range(len(found.few.steps) - 1) if at != place]
    chance.shuffle(others)
    for at in (place, *others):
        told = _put_early(found, orders, at)
        if told and (not focus or told[0][0] == focus):
            return [shown for _, shown in told[:_TRIED]]
    return []


def _put_early(
    found: StepSet, orders: Sequence[tuple[str, ...]], place: int
) -> list[tuple[str, tuple[str, ...]]]:
    """Return wrong orders with a step put to a place, and what each breaks; the set's rule first."""
    main = found.main.reason.rule
    moved = dict.fromkeys(shown for order in orders for shown in moved_early(order, place))
    told = [(breaks_told(found.learned, shown, main), shown) for shown in moved]
    wrong = [(breaks[0].relation.reason.rule, shown) for breaks, shown in told if breaks]
    return sorted(wrong, key=lambda each: each[0] != main)


def _usual_order(found: StepSet, chance: random.Random) -> tuple[str, ...]:
    """Return a right order that keeps what states of the set keep, so that one thing is amiss in it."""
    few, done, made = found.few, 0, list[int]()
    while len(made) < len(few.steps):
        free = (at for at in range(len(few.steps)) if not done >> at & 1)
        made.append(chance.choice([at for at in free if not found.needs[at] & ~done]))
        done |= 1 << made[-1]
    order = tuple(few.steps[at] for at in made)
    return order if few.is_right(order) else few.drawn(chance)


def _lacks(asked: Asked, spot: _Spot) -> tuple[bool, ...]:
    """Return what an order lacks for a good exercise, what weighs most first."""
    first = spot.told[0].relation.reason
    of_set = lacks_of(asked, spot.found, SIZES[asked.level][0])
    return (
        bool(asked.focus) and first.rule != asked.focus,
        not spot.found.is_steered,
        first.source == PLAIN_SOURCE,
        spot.shown[spot.place] not in spot.mends,
        len(spot.mends) > 1,
        of_set[3],
    )


def _question(count: int) -> str:
    return f"One of these {number_of(count)} steps comes too early. Which one?"


def _sentence(
    derived: Derived, steps: tuple[str, str], told: Sequence[Break], mended: Sequence[str]
) -> str:
    """Return the answer to the apprentice: the step named, and the one that comes too early."""
    step, culprit = steps
    fault = broken_words(derived, told[0].relation, told[0].step)
    if step == culprit:
        behind = mended[mended.index(culprit) - 1]
        return f"Right: {fault} Behind '{title_of(derived, behind)}' it is right."
    name = title_of(derived, step)
    if any(step in named_steps(one.relation) for one in told):
        return f"Not yet, but near: '{name}' has its part in it. {fault}"
    return f"Not yet: '{name}' has all it needs. {fault}"
