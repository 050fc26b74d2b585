"""The second question, after a right answer: which of a few reasons decides what was answered?

It is asked of two steps, or of what a post or a drying comes to. Beside the reason that decides
stand others of the same steps and parts that are true and decide something else, or sums of the
same numbers that are not right.
"""

import random
from collections.abc import Iterable
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.drills.reasons import rule_words
from armorplan.app.drills.source import DrillSource
from armorplan.app.drills.step_words import learned_of
from armorplan.app.drills.untrue import untrue
from armorplan.app.drills.way_back_drill import cost_asked
from armorplan.app.drills.why_drying import drying_asked
from armorplan.app.drills.why_pairs import PLAIN_FACTS, OtherReasons, Pair, quoted
from armorplan.app.drills.why_posts import post_asked
from armorplan.app.mending import WAY_BACK
from armorplan.geometry.told import listed
from armorplan.practice.drill import Because, Choice, Drill, DrillKind, Judged, WhyAsked
from armorplan.practice.levels import chance_of
from armorplan.relations.index import first_and_members, is_plain, named_steps
from armorplan.relations.model import AfterAny, Before, Force, Relation

_MOST, _FEWEST = 4, 3
_NAMED = 3
_IN_ORDER = frozenset((DrillKind.ORDER, DrillKind.NEXT, DrillKind.MISTAKE))


def why_asked(source: DrillSource, drill: Drill, judged: Judged) -> WhyAsked | None:
    """Return the second question; ``None`` after a wrong answer, or where too few reasons are known.

    The same exercise answered rightly is asked the same.
    """
    decides = reason_asked(drill, judged)
    if decides is None:
        return None
    # Another chance than that which mixed the exercise itself.
    chance = random.Random(repr(chance_of(drill.asked).random()))  # noqa: S311 - a drill, not a secret
    if drill.asked.kind is DrillKind.WAY_BACK:
        return cost_asked(source, drill, judged)
    if drill.asked.kind is DrillKind.FASTENER:
        return post_asked(source.derived, drill, judged, chance)
    if drill.asked.kind is DrillKind.DRY:
        return drying_asked(source.derived, decides, chance)
    return _of_steps(source, drill, decides, chance)


def reason_asked(drill: Drill, judged: Judged) -> Because | None:
    """Return the reason that is asked for: of what the exercise is to teach, if it was met.

    Of a way back it is what that costs; of what dries, why that which was chosen is ready. What
    nobody has to be asked for comes last.
    """
    told = [one for one in judged.because if one.text] if judged.right else []
    if drill.asked.kind is DrillKind.WAY_BACK:
        return next((one for one in told if one.rule == WAY_BACK), None)
    wanted = (drill.asked.focus, *drill.rules)
    chosen = {s for c in drill.choices if c.id in judged.nearest for s in c.steps}

    def key(one: Because) -> tuple[bool, bool, bool, int]:
        is_aside = drill.asked.kind is DrillKind.DRY and chosen.isdisjoint(one.steps)
        place = wanted.index(one.rule) if one.rule in wanted else len(wanted)
        return one.rule != drill.asked.focus, is_aside, one.rule in PLAIN_FACTS, place

    return min(told, key=key, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Question:
    """What is asked why, the sentence that asks it, and that which decides it."""

    pair: Pair
    words: str
    relation: Relation


def _of_steps(
    source: DrillSource, drill: Drill, decides: Because, chance: random.Random
) -> WhyAsked | None:
    asked = _question(source, drill, decides)
    if asked is None:
        return None
    text, name = asked.relation.reason.text, rule_words(decides.rule)
    told = [(text, decides.steps, f"'{name}' decides it.")]
    false = untrue(source.derived, drill, decides)
    if false is not None:
        told.append((false.text, decides.steps, false.why_not))
    others = OtherReasons(source.derived, asked.pair).some(chance, _MOST - len(told))
    told += [(one.text, one.steps, why) for one, why in others]
    if len(told) < _FEWEST:
        return None
    chance.shuffle(told)
    ids = [f"reason-{at}" for at in range(1, len(told) + 1)]
    return WhyAsked(
        question=asked.words,
        choices=tuple(
            Choice(id=one, title=title, steps=steps)
            for one, (title, steps, _) in zip(ids, told, strict=True)
        ),
        right=next(one for one, (title, *_) in zip(ids, told, strict=True) if title == text),
        because=tuple((one, why) for one, (*_, why) in zip(ids, told, strict=True)),
    )


def _question(source: DrillSource, drill: Drill, decides: Because) -> _Question | None:
    """Return what is asked of the relation that a reason was told of; ``None`` where there is none."""
    relation = _relation_of(_known(source.derived, drill), decides)
    if relation is None:
        return None
    ahead, behind = _ends(relation)
    if drill.asked.kind is DrillKind.DAY:
        # A wait is told of what works before and behind it, whatever dries between.
        ahead, behind = (frozenset((step,)) for step in decides.steps)
    words = _words(source.derived, relation, ahead, behind)
    if drill.asked.kind is DrillKind.FIRST:
        behind |= {step for one in drill.choices for step in one.steps} - ahead
        right = [c for c in drill.choices if ahead.issuperset(c.steps)]
        words = _first_words(right, relation) or words
    pair = Pair(
        ahead=ahead, behind=behind, rule=decides.rule, texts=frozenset((relation.reason.text,))
    )
    return _Question(pair=pair, words=words, relation=relation)


def _known(derived: Derived, drill: Drill) -> Iterable[Relation]:
    yield from derived.index.relations
    if drill.asked.kind in _IN_ORDER:
        yield from learned_of(derived, drill).lessons


def _relation_of(known: Iterable[Relation], because: Because) -> Relation | None:
    """Return the relation that a reason was told of; of a day it is told behind its minutes."""
    steps = frozenset(because.steps)
    alike = [
        one
        for one in known
        if one.reason.rule == because.rule
        and because.text.endswith(one.reason.text)
        and not steps.isdisjoint(named_steps(one))
    ]
    return max(alike, key=lambda one: len(steps & named_steps(one)), default=None)


def _ends(relation: Relation) -> tuple[frozenset[str], frozenset[str]]:
    if is_plain(relation):
        first, members = first_and_members(relation)
        return frozenset((first,)), members
    if isinstance(relation, AfterAny):
        return relation.of, frozenset((relation.then,))
    return named_steps(relation), named_steps(relation)


def _words(
    derived: Derived, relation: Relation, ahead: frozenset[str], behind: frozenset[str]
) -> str:
    """Return the question why a relation holds, of the steps that it is told of."""
    place = derived.place
    before, then = (
        [quoted(derived, step) for step in sorted(some, key=lambda one: place.get(one, 0))]
        for some in (ahead, behind)
    )
    first, last = listed(before, named=_NAMED, last=" or "), listed(then, named=_NAMED)
    is_easier = relation.reason.force is Force.EASIER
    if isinstance(relation, Before):
        if is_easier:
            return f"Why is {first} rather done before {last}?"
        return f"Why has {last} to wait for {first}?"
    if is_plain(relation):
        return f"Why {'should' if is_easier else 'can'} {first} not be left until {last} are done?"
    if isinstance(relation, AfterAny):
        return f"Why has {last} to wait for {first}?"
    return f"What decides how {last} stand to one another?"


def _first_words(right: list[Choice], relation: Relation) -> str:
    """Return the question of the joint that was chosen; empty where the reason is not of it alone."""
    if len(right) != 1:
        return ""
    if relation.reason.force is Force.EASIER:
        return f"Why does '{right[0].title}' take longer once all the others are set?"
    return f"Why can '{right[0].title}' not wait until all the others are set?"
