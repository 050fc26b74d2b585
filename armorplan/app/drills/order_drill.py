"""'Put in order': a few steps of the build, mixed up. Every order that keeps all that binds is right."""

import random
from collections.abc import Sequence
from itertools import permutations

from armorplan.app.derived import Derived
from armorplan.app.drills.learning import Learned
from armorplan.app.drills.playing import frames
from armorplan.app.drills.reasons import (
    because_all,
    broken_words,
    cautions_of,
    hint_of,
    listed_steps,
    met_by,
    title_of,
)
from armorplan.app.drills.source import DrillSource
from armorplan.app.drills.step_sets import StepSets, best_of, lacks_of
from armorplan.app.drills.step_words import (
    breaks_told,
    checked,
    choices_of,
    learned_of,
    number_of,
    one_each,
    others_words,
    state_words,
    title_for,
)
from armorplan.practice.distance import Distance, credit_of, distance
from armorplan.practice.drill import AnswerForm, Asked, Drill, Judged, Solved
from armorplan.practice.levels import SIZES, chance_of
from armorplan.practice.tight import tight_relations
from armorplan.practice.worst import worst
from armorplan.relations.checking import Break
from armorplan.relations.model import Relation

_SHUFFLES = 60
_ROUNDS = 20


class OrderMaker:
    """Makes, judges and solves 'Put in order'."""

    def make(self, source: DrillSource, asked: Asked) -> Drill | None:
        """Return steps that are shown in no right order; ``None`` where there are none."""
        derived, sizes = source.derived, SIZES[asked.level]
        offers = StepSets(derived, asked, sizes).offers()
        found = best_of(offers, lambda offer: lacks_of(asked, offer, sizes[0]))
        if found is None:
            return None
        main = found.main.reason.rule
        shown = _mixed(found.learned, main, chance_of(asked))
        return Drill(
            asked=asked,
            title=title_for(derived, found.topic.title),
            question=f"In what order are these {number_of(len(shown))} steps done?",
            choices=choices_of(derived, shown),
            form=AnswerForm.ORDER,
            given=(
                *state_words(derived, found.learned.done, shown),
                "All other steps come after these.",
            ),
            done=found.learned.done,
            parts=found.parts(derived),
            rules=found.rules,
            cautions=cautions_of(derived, found.few.steps),
            hint=hint_of(found.main),
        )

    def judge(self, source: DrillSource, drill: Drill, answer: Sequence[str]) -> Judged:
        """Return what an order is worth; one with steps missing or twice is judged as far as it goes.

        Raises:
            ArmorplanError: nothing was answered, or something that is no choice.
        """
        checked(drill, answer)
        learned = learned_of(source.derived, drill)
        found = measured(learned, answer)
        if found.moves == 0:
            return _right(source, drill, learned, answer)
        return _wrong(source, drill, learned, (answer, found))

    def solve(self, source: DrillSource, drill: Drill) -> Solved:
        """Return the right order that is nearest to the build's own."""
        learned = learned_of(source.derived, drill)
        found = measured(learned, learned.few.steps)
        known = learned.settle()
        return Solved(
            answer=found.nearest,
            others=others_words(learned.few.count, is_known=known or not learned.learns),
            because=because_all(source.derived, _deciding(learned, drill)),
        )


MAKER = OrderMaker()


def measured(learned: Learned, answer: Sequence[str]) -> Distance:
    """Return how far an answer is from a right order, once reach has taught what both leave out.

    An order of joints may be refused by bars that nobody had told of yet. So what would be right
    is tried too, until nothing more is learned of it.
    """
    learned.learn(dict.fromkeys(answer))
    found = distance(answer, learned.few)
    for _ in range(_ROUNDS):
        if not learned.learn(found.nearest):
            break
        found = distance(answer, learned.few)
    return found


def _mixed(learned: Learned, main: str, chance: random.Random) -> tuple[str, ...]:
    """Return the steps in no right order, breaking the rule it is about where chance finds how.

    Turned upside down it is not right either, where chance finds one.
    """
    wrong: tuple[str, ...] = ()
    shown = list(learned.few.steps)
    for _ in range(_SHUFFLES):
        chance.shuffle(shown)
        if learned.few.is_right(shown[::-1]):
            continue
        told = breaks_told(learned, shown, main)
        if any(each.relation.reason.rule == main for each in told):
            return tuple(shown)
        if told and not wrong:
            wrong = tuple(shown)
    return wrong or next(order for order in permutations(shown) if not learned.few.is_right(order))


def _deciding(learned: Learned, drill: Drill) -> tuple[Relation, ...]:
    """Return one relation of each rule the exercise needs, in the order of its rules."""
    rules = {rule: at for at, rule in enumerate(drill.rules)}
    tight = [each for each in tight_relations(learned.few) if each.reason.rule in rules]
    return tuple(sorted(one_each(tight), key=lambda each: rules[each.reason.rule]))


def _right(source: DrillSource, drill: Drill, learned: Learned, answer: Sequence[str]) -> Judged:
    kept = _deciding(learned, drill)
    is_known = not learned.learns
    others = others_words(learned.few.count, is_known=is_known)
    return Judged(
        right=True,
        sentence=" ".join(filter(None, ("Right: each step has what it needs before it.", others))),
        because=because_all(source.derived, kept),
        nearest=tuple(answer),
        kendall=0,
        credit=1.0,
        met=met_by(kept, ()),
        play=frames(source, answer, done=drill.done),
    )


def _wrong(
    source: DrillSource, drill: Drill, learned: Learned, given: tuple[Sequence[str], Distance]
) -> Judged:
    derived, (answer, found) = source.derived, given
    told = breaks_told(learned, answer, drill.rules[0])
    broken = one_each(each.relation for each in told)
    kept = [] if found.added else _deciding(learned, drill)
    because = because_all(derived, broken)
    play = frames(
        learned.played(source), tuple(dict.fromkeys(answer)), done=drill.done, because=because
    )
    return Judged(
        right=False,
        sentence=_sentence(derived, found, told[:1]),
        because=because,
        nearest=found.nearest,
        moved=(*found.moved, *found.added, *found.removed),
        distance=found.moves,
        kendall=found.kendall,
        credit=credit_of(found.moves, worst(learned.few).moves),
        met=met_by(kept, broken),
        play=play,
    )


def _sentence(derived: Derived, found: Distance, first: Sequence[Break]) -> str:
    """Return what is wrong first; what would mend it is told beside the nearest right order."""
    words = [f"Not yet: {broken_words(derived, each.relation, each.step)}" for each in first]
    if found.added:
        words.append(f"Still to be put in: {listed_steps(derived, found.added)}.")
    words += [
        f"'{title_of(derived, one)}' stands there twice." for one in dict.fromkeys(found.removed)
    ]
    return " ".join(words)
