"""The second question, after a right answer: which of a few reasons is true here and decides it?

Beside the one that does stand reasons of the same piece that are true and settle nothing here, and
the one that does with a number that is not true.
"""

import random
from collections.abc import Iterator

from armorplan.app.derived import Derived
from armorplan.app.drills.fastener_untrue import untrue_post
from armorplan.app.drills.reasons import rule_words, title_of
from armorplan.app.drills.source import DrillSource
from armorplan.app.drills.untrue import Untrue, untrue
from armorplan.app.drills.way_back_drill import cost_asked
from armorplan.app.mending import WAY_BACK
from armorplan.practice.drill import Because, Choice, Drill, Judged, WhyAsked
from armorplan.practice.levels import chance_of
from armorplan.practice.reason_names import POST_LENGTH
from armorplan.relations.index import first_and_members, is_plain, named_steps
from armorplan.relations.model import Before, BeforeAll

_MOST, _FEWEST = 4, 3
_DRAWN = 16
"""Reasons that settle nothing are drawn from so many of the nearest."""
_PLAIN_FACTS = frozenset(("cut-before-use", "stack-before-joint", "drying-starts-at-once"))
"""Codes of rules that nobody would take for a reason of anything else: these come last."""


def why_asked(source: DrillSource, drill: Drill, judged: Judged) -> WhyAsked | None:
    """Return the second question; ``None`` after a wrong answer, or where too few reasons are known.

    The same exercise answered rightly is asked the same.
    """
    decides = reason_asked(drill, judged)
    if decides is None:
        return None
    if decides.rule == WAY_BACK:
        return cost_asked(source, drill, judged)
    # Another chance than that which mixed the exercise itself.
    chance = random.Random(repr(chance_of(drill.asked).random()))  # noqa: S311 - a drill, not a secret
    false = _untrue(source.derived, drill, decides)
    others = _Others(source.derived, drill, judged).some(chance)
    told = [(decides, "True of this piece, and it decides it.")]
    if false is not None:
        told.append((_with_text(decides, false.text), false.why_not))
    told += others[: _MOST - len(told)]
    if len(told) < _FEWEST:
        return None
    chance.shuffle(told)
    return WhyAsked(
        question="Which of these is true of this piece, and decides it here?",
        choices=tuple(_choice(at, because) for at, (because, _) in enumerate(told, start=1)),
        right=next(_id(at) for at, (because, _) in enumerate(told, 1) if because is decides),
        because=tuple((_id(at), why) for at, (_, why) in enumerate(told, start=1)),
    )


def _id(at: int) -> str:
    return f"reason-{at}"


def _choice(at: int, because: Because) -> Choice:
    return Choice(id=_id(at), title=because.text, detail=because.name, steps=because.steps)


def reason_asked(drill: Drill, judged: Judged) -> Because | None:
    """Return the reason that is asked for: of what the exercise is to teach, if it was met."""
    told = [one for one in judged.because if one.text] if judged.right else []
    wanted = (drill.asked.focus, *drill.rules)
    told.sort(key=lambda one: wanted.index(one.rule) if one.rule in wanted else len(wanted))
    return next(iter(told), None)


def _with_text(because: Because, text: str) -> Because:
    return Because(rule=because.rule, name=because.name, text=text, steps=because.steps)


def _untrue(derived: Derived, drill: Drill, decides: Because) -> Untrue | None:
    if decides.rule == POST_LENGTH:
        return untrue_post(derived, drill, decides)
    return untrue(decides)


class _Others:
    """Reasons of a build that are true and settle nothing of an exercise."""

    def __init__(self, derived: Derived, drill: Drill, judged: Judged) -> None:
        self._derived, self._drill = derived, drill
        self._done = frozenset(drill.done)
        self._asked = frozenset(_steps_of(derived, drill))
        self._parts = frozenset(drill.parts)
        self._rules = {*drill.rules, *(one.rule for one in judged.because)}

    def some(self, chance: random.Random) -> list[tuple[Because, str]]:
        """Return a few, each of another rule, those that are nearest to the exercise preferred."""
        found: dict[str, list[Before | BeforeAll]] = {}
        for relation in self._settling_nothing():
            found.setdefault(relation.reason.rule, []).append(relation)
        drawn = [chance.choice(found[rule]) for rule in sorted(found)]
        chance.shuffle(drawn)
        drawn.sort(key=self._far)
        return [(self._because(one), self._why_not(one)) for one in drawn[:_DRAWN]]

    def _settling_nothing(self) -> Iterator[Before | BeforeAll]:
        """Yield relations that hold and that no answer can touch.

        Their first step is done already, so that they are kept; or none of their steps is asked about.
        """
        open_, said_here = list[Before | BeforeAll](), set[str]()
        for relation in self._derived.index.relations:
            if not is_plain(relation) or not self._stands(relation):
                continue
            if relation.first in self._done or self._asked.isdisjoint(named_steps(relation)):
                open_.append(relation)
            else:
                said_here.add(relation.reason.text)
        # A sentence that names nothing may be true of what is asked about as well.
        yield from (each for each in open_ if each.reason.text not in said_here)

    def _stands(self, relation: Before | BeforeAll) -> bool:
        reason = relation.reason
        kept = not reason.overruled and relation not in self._derived.not_kept
        return kept and reason.rule not in self._rules

    def _far(self, relation: Before | BeforeAll) -> tuple[bool, bool, bool]:
        """Return a key that sorts the nearest first: of what is asked about, then of the same parts."""
        steps = named_steps(relation)
        work = self._derived.work
        parts = {part for step in steps for part in work.step(step).parts}
        return (
            relation.reason.rule in _PLAIN_FACTS,
            self._parts.isdisjoint(parts),
            self._asked.isdisjoint(steps),
        )

    def _because(self, relation: Before | BeforeAll) -> Because:
        rule = relation.reason.rule
        steps = tuple(sorted(named_steps(relation)))
        return Because(rule=rule, name=rule_words(rule), text=relation.reason.text, steps=steps)

    def _why_not(self, relation: Before | BeforeAll) -> str:
        first, members = first_and_members(relation)
        if first in self._done:
            done = title_of(self._derived, first)
            return f"True, but it is seen to already: '{done}' is done, whatever is answered here."
        then = title_of(self._derived, min(members)) if members else ""
        about = f"'{title_of(self._derived, first)}' and '{then}'"
        return f"True, but it speaks of {about}, and neither is asked about here."


def _steps_of(derived: Derived, drill: Drill) -> Iterator[str]:
    """Yield the steps that an exercise is about: chosen from, shown, or setting the joints shown."""
    for choice in drill.choices:
        yield from choice.steps
        for joint in choice.joints:
            step = derived.work.setting(joint)
            if step is not None:
                yield step.id
    yield from (step for step in drill.shown if derived.work.has(step))
