"""'What may come next': the work stands somewhere; all steps that can be gone on with are right."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.drills.learning import Learned
from armorplan.app.drills.next_states import LEAST_OF_EACH, Standing, standing_of, states_of
from armorplan.app.drills.playing import frames
from armorplan.app.drills.reasons import (
    because_all,
    broken_words,
    cautions_of,
    hint_of,
    listed_steps,
    met_by,
    rules_of,
)
from armorplan.app.drills.source import DrillSource
from armorplan.app.drills.step_sets import StepSet, StepSets, best_of, lacks_of
from armorplan.app.drills.step_words import (
    checked,
    choices_of,
    learned_of,
    one_each,
    state_words,
    title_for,
)
from armorplan.practice.distance import choice_distance, credit_of
from armorplan.practice.drill import MOST_STEPS, AnswerForm, Asked, Drill, Judged, Level, Solved
from armorplan.practice.levels import SIZES, chance_of
from armorplan.relations.model import Relation
from armorplan.steps.model import StepKind

_CHOICES = {**SIZES, Level.STRAP: (2 * LEAST_OF_EACH, 2 * LEAST_OF_EACH)}
"""Fewest and most steps to choose from."""
_DONE_OF_THEM = 2
"""So many more steps may be gathered; those are done already, in the state that is shown."""
_TOLD = 2
"""Of a step left out, so many of those that it waited for are named."""
_AT_THE_END = frozenset((StepKind.FIT, StepKind.INSPECT, StepKind.PACK))
"""Kinds of step that anybody puts last."""
_SPOTS = 12
_ATTEMPTS = {**dict.fromkeys(Level, 10), Level.STRAP: 3}
"""So many states are looked at; a strap has few, of which the best would always be the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _State:
    found: StepSet
    learned: Learned
    stands: Standing


class NextMaker:
    """Makes, judges and solves 'What may come next'."""

    def make(self, source: DrillSource, asked: Asked) -> Drill | None:
        """Return a state with steps that may come next and steps that may not."""
        derived = source.derived
        offers = _states(derived, asked)
        attempts = _ATTEMPTS[asked.level]
        state = best_of(offers, lambda one: _lacks(derived, asked, one), attempts=attempts)
        if state is None:
            return None
        stops = _told(state.stands, asked.focus)
        chance = chance_of(asked)
        shown = list(state.learned.few.steps)
        chance.shuffle(shown)
        main = stops[0].reason.rule
        return Drill(
            asked=asked,
            title=title_for(derived, state.found.topic.title),
            question="Which of these may come next?",
            choices=choices_of(derived, shown),
            form=AnswerForm.SOME,
            given=tuple(state_words(derived, state.learned.done, shown)),
            done=state.learned.done,
            parts=state.found.parts(derived),
            rules=(main, *(rule for rule in rules_of(stops) if rule != main)),
            cautions=cautions_of(derived, state.learned.few.steps),
            hint=hint_of(stops[0]),
        )

    def judge(self, source: DrillSource, drill: Drill, answer: Sequence[str]) -> Judged:
        """Return what a choice is worth; right is all that may come next, and nothing else.

        Raises:
            ArmorplanError: nothing was answered, or something that is no choice.
        """
        checked(drill, answer)
        derived, stands = source.derived, _stands(source.derived, drill)
        taken = tuple(step for step in stands.stopped if step in answer)
        left = tuple(step for step in stands.may if step not in answer)
        moves = choice_distance(answer, stands.may)
        broken = [stands.stops(step) for step in taken]
        broken += [each for step in left for each in stands.seen_to(step)[:1]]
        kept = [stands.stops(step) for step in stands.stopped if step not in taken]
        because = because_all(derived, one_each(broken if moves else kept))
        others = tuple(one.id for one in drill.choices)
        play = frames(source, taken[:1], done=drill.done, left=others, because=because)
        return Judged(
            right=not moves,
            sentence=_sentence(derived, stands, taken, left),
            because=because,
            nearest=tuple(one.id for one in drill.choices if one.id in stands.may),
            moved=(*taken, *left),
            distance=moves,
            credit=credit_of(moves, len(drill.choices)),
            met=met_by(kept, broken),
            play=play if taken else (),
        )

    def solve(self, source: DrillSource, drill: Drill) -> Solved:
        """Return all that may come next."""
        stands = _stands(source.derived, drill)
        return Solved(
            answer=tuple(one.id for one in drill.choices if one.id in stands.may),
            because=because_all(source.derived, map(stands.stops, stands.stopped)),
        )


MAKER = NextMaker()


def _states(derived: Derived, asked: Asked) -> Iterator[_State]:
    """Yield states that chance offers."""
    low, high = _CHOICES[asked.level]
    sizes = (low, min(high + _DONE_OF_THEM, MOST_STEPS))
    chance = chance_of(asked)
    for found in StepSets(derived, asked, sizes).offers():
        spots = [chance.random() for _ in range(_SPOTS)]
        left = (2 * LEAST_OF_EACH, high)
        for learned, stands in states_of(derived, found, left, spots=spots):
            yield _State(found=found, learned=learned, stands=stands)


def _lacks(derived: Derived, asked: Asked, state: _State) -> tuple[bool, ...]:
    """Return what a state lacks for a good exercise, what weighs most first."""
    low, _ = _CHOICES[asked.level]
    kinds = [
        {derived.work.step(step).kind for step in steps}
        for steps in (state.stands.may, state.stands.stopped)
    ]
    stops = {state.stands.stops(step).reason.rule for step in state.stands.stopped}
    of_set = lacks_of(asked, state.found, LEAST_OF_EACH)
    return (
        bool(asked.focus) and asked.focus not in stops,
        *of_set[1:3],
        kinds[1] <= _AT_THE_END,
        kinds[0].isdisjoint(kinds[1]),
        len(state.learned.few.steps) < low,
        len(stops) < 2,  # noqa: PLR2004 - several rules meet
    )


def _told(stands: Standing, focus: str) -> tuple[Relation, ...]:
    """Return what stops each step that may not come next, the rule that is asked for first."""
    stops = [stands.stops(step) for step in stands.stopped]
    return tuple(sorted(stops, key=lambda each: each.reason.rule != focus))


def _stands(derived: Derived, drill: Drill) -> Standing:
    return standing_of(derived, learned_of(derived, drill), drill.rules[0])


def _sentence(
    derived: Derived, stands: Standing, taken: Sequence[str], left: Sequence[str]
) -> str:
    if not taken and not left:
        return "Right: these may come next, and the others have to wait."
    words = [f"Not yet: {broken_words(derived, stands.stops(step), step)}" for step in taken[:1]]
    if taken[1:]:
        words.append(f"To wait as well: {listed_steps(derived, taken[1:])}.")
    if left:
        begun = "" if taken else "Not yet: "
        words.append(f"{begun}{listed_steps(derived, left)} may come next too.")
        words.append(_seen_to_words(derived, stands, left))
    return " ".join(words)


def _seen_to_words(derived: Derived, stands: Standing, left: Sequence[str]) -> str:
    firsts = {relation.first for step in left for relation in stands.seen_to(step)[:_TOLD]}
    them = "it waits" if len(left) == 1 else "they wait"
    if not firsts:
        return f"Nothing has to be done before {'it' if len(left) == 1 else 'them'}."
    return f"All that {them} for is done: {listed_steps(derived, firsts)}."
