"""'The way back': something came too late or went wrong; which way back costs least and does lead back?

What is offered is what the program's own search finds and prices, beside real moves that lead
nowhere. The cheapest way is right where it is proved without the solver; else nothing is set.
"""

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import islice

from armorplan.app.derived import Derived
from armorplan.app.drills.reach_turns import joints_set
from armorplan.app.drills.source import DrillSource
from armorplan.app.drills.way_back_choices import FEWEST, Option, picked, whole_detail_of
from armorplan.app.drills.way_back_options import options_of, salvages_of
from armorplan.app.drills.way_back_play import way_frames
from armorplan.app.drills.way_back_prices import sum_words, takes_of, untrue_sums
from armorplan.app.drills.way_back_trouble import MOST_TRIED, Trouble, troubles, troubles_by
from armorplan.app.drills.way_back_words import (
    QUESTION,
    cheapest,
    given_words,
    hint_words,
    late_bar,
    others_words,
    reasons_for,
    sentence_of,
)
from armorplan.app.itself import Itself
from armorplan.app.mending import WAY_BACK
from armorplan.app.ways_back import recovery_scene
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.recovery.from_build import Stated, stated
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.practice.drill import (
    AnswerForm,
    Asked,
    Choice,
    Drill,
    Judged,
    Level,
    Met,
    Solved,
    WhyAsked,
)
from armorplan.practice.levels import chance_of
from armorplan.workshop.salvages import Salvage

WAYS_OFFERED = {Level.STRAP: 3, Level.ROW: 4, Level.PIECE: 5, Level.HARNESS: 5}
"""How many ways are offered; where a trouble has fewer, at least three."""
_MOST_OTHERS = 3
_MORE_TRIED = 6
"""So many troubles more are looked at for one that offers as many ways as the level asks for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Set:
    """An exercise with what it was made from; options stand as they are shown."""

    scene: RecoveryScene
    state: Stated
    trouble: Trouble
    options: tuple[Option, ...]

    @property
    def wrong(self) -> tuple[RecoveryScene, Stated, Trouble]:
        """What is wrong."""
        return self.scene, self.state, self.trouble

    @property
    def best(self) -> Option:
        """The cheapest way."""
        return cheapest(self.options)


class WayBackMaker:
    """Makes, judges and solves exercises about ways back."""

    def make(self, source: DrillSource, asked: Asked) -> Drill | None:
        """Return the exercise; ``None`` where nothing of this build can go wrong in such a way."""
        made = _made(Itself(source.derived), asked)
        return _drill(source.derived, asked, made) if made else None

    def judge(self, source: DrillSource, drill: Drill, answer: Sequence[str]) -> Judged:
        """Return what a way is worth: right is the cheapest, or what is hardly dearer.

        Raises:
            ArmorplanError: it is no single one of the ways.
        """
        made = _of(source, drill)
        option = made.options[_chosen(drill, answer)]
        best = made.best
        late = late_bar(*made.wrong)
        reasons = reasons_for(source.derived, made.scene, late, option, made.options)
        return Judged(
            right=option.right,
            sentence=sentence_of(option, best, made.scene.rates),
            because=reasons,
            nearest=tuple(answer) if option.right else (_id(made.options.index(best)),),
            distance=0 if option.right else 1,
            credit=1.0 if option.right else 0.0,
            met=tuple(_met(made, option)),
            play=way_frames(source.derived, made.state, option),
        )

    def solve(self, source: DrillSource, drill: Drill) -> Solved:
        """Return the cheapest way, and what else is right."""
        made = _of(source, drill)
        best = made.best
        return Solved(
            answer=(_id(made.options.index(best)),),
            others=others_words(made.options, best),
            because=reasons_for(
                source.derived, made.scene, late_bar(*made.wrong), best, made.options
            ),
        )


MAKER = WayBackMaker()


def cost_asked(source: DrillSource, drill: Drill, judged: Judged) -> WhyAsked | None:
    """Return the second question: what does the way come to? The price decides, so it is asked for.

    The others are the same way reckoned wrongly, then what other ways come to. ``None`` where too few
    of them differ.
    """
    made = _of(source, drill)
    rates, mine = made.scene.rates, made.options[_chosen(drill, judged.nearest)]
    takes = takes_of(mine.way, rates)
    right = sum_words(takes)
    wrong = [*untrue_sums(takes, rates)][: _MOST_OTHERS - 1]
    wrong += [
        (sum_words(takes_of(one.way, rates)), f"That is what '{one.way.title}' comes to.")
        for one in made.options
        if one is not mine
    ]
    whys = {f"{text}.": f"Not true of this way. {why}" for text, why in reversed(wrong)}
    whys.pop(f"{right}.", None)
    whys = {text: whys[text] for text in [*reversed(whys)][:_MOST_OTHERS]}
    if len(whys) + 1 < FEWEST:
        return None
    least = (
        "no way that leads back costs less"
        if mine is made.best
        else "that is near enough the cheapest"
    )
    whys[f"{right}."] = f"'{mine.way.title}' comes to that, and {least}."
    return _asked_of(drill, mine, right, whys)


def _asked_of(drill: Drill, mine: Option, right: str, whys: dict[str, str]) -> WhyAsked:
    texts = sorted(whys)
    random.Random(repr(chance_of(drill.asked).random())).shuffle(texts)  # noqa: S311 - a drill, not a secret
    ids = {text: f"reason-{at}" for at, text in enumerate(texts, start=1)}
    return WhyAsked(
        question=f"What does '{mine.way.title}' come to?",
        choices=tuple(Choice(id=one, title=text) for text, one in ids.items()),
        right=ids[f"{right}."],
        because=tuple((one, whys[text]) for text, one in ids.items()),
    )


@lru_cache(maxsize=4)
def _scene(build: Itself) -> RecoveryScene:
    return recovery_scene(build.derived)


@lru_cache(maxsize=8)
def _made(build: Itself, asked: Asked) -> _Set | None:
    """Return what needs the reason asked for, where anything does; else whatever there is."""
    scene, chance = _scene(build), chance_of(asked)
    if asked.focus:
        some = troubles_by(build.derived, scene, asked, chance)
        found = _first(scene, some, asked.level, chance)
        if found:
            return found
    return _first(scene, troubles(build.derived, scene, asked, chance), asked.level, chance)


def _first(
    scene: RecoveryScene, some: Iterator[Trouble], level: Level, chance: random.Random
) -> _Set | None:
    """Return the first trouble that offers as many ways as its level wants, or soon one with fewer."""
    fewer, tried, wanted = None, 0, WAYS_OFFERED[level]
    for trouble in islice(some, MOST_TRIED):
        state = stated(scene, trouble.done, trouble.mistakes)
        options = picked(options_of(scene, state, trouble), wanted, chance)
        if options:
            found = _Set(scene=scene, state=state, trouble=trouble, options=options)
            if len(options) >= wanted:
                return found
            fewer = fewer or found
        tried += fewer is not None
        if tried > _MORE_TRIED:
            break
    return fewer


def _of(source: DrillSource, drill: Drill) -> _Set:
    made = _made(Itself(source.derived), drill.asked)
    titles = tuple(one.title for one in drill.choices)
    if made is None or titles != tuple(one.way.title for one in made.options):
        raise ArmorplanError("The build has changed since this was asked. Ask for it once more.")
    return made


def _id(at: int) -> str:
    return f"way-{at + 1}"


def _chosen(drill: Drill, answer: Sequence[str]) -> int:
    known = [one.id for one in drill.choices]
    if len(answer) != 1 or answer[0] not in known:
        raise ArmorplanError("Choose one of the ways, and only one.")
    return known.index(answer[0])


def _drill(derived: Derived, asked: Asked, made: _Set) -> Drill:
    trouble, state = made.trouble, made.state
    about = trouble.topic.title
    done = sorted(state.stands, key=lambda one: (derived.place.get(one, 0), one))
    return Drill(
        asked=asked,
        title=derived.pattern.name
        if about == derived.pattern.name
        else f"{derived.pattern.name}: {about}",
        question=QUESTION,
        choices=tuple(_choice(derived, made, at) for at in range(len(made.options))),
        form=AnswerForm.ONE,
        given=tuple(given_words(derived, made.scene, state, trouble, _salvages(made))),
        done=tuple(done),
        parts=_parts(derived, made),
        rules=tuple(dict.fromkeys((*_late_rules(made), WAY_BACK))),
        cautions=_cautions(made),
        hint=hint_words(late_bar(*made.wrong), made.scene.rates),
    )


def _salvages(made: _Set) -> tuple[Salvage, ...]:
    scene, state = made.scene, made.state
    return tuple(one for o in made.options for _, one in salvages_of(scene, state, o.way))


def _choice(derived: Derived, made: _Set, at: int) -> Choice:
    option = made.options[at]
    moved = (step for m in option.way.moves for step in (*m.clears, m.step))
    steps = tuple(dict.fromkeys(step for step in moved if derived.work.has(step)))
    return Choice(
        id=_id(at),
        title=option.way.title,
        detail=whole_detail_of(option, made.scene.rates),
        steps=steps,
        parts=tuple(dict.fromkeys(p for step in steps for p in derived.work.step(step).parts)),
        joints=joints_set(derived, steps),
    )


def _parts(derived: Derived, made: _Set) -> tuple[str, ...]:
    late = (derived.work.step(one.step).parts for one in made.state.stuck)
    spoilt = (one.parts for one in made.state.amiss)
    return tuple(dict.fromkeys(part for parts in (*spoilt, *late) for part in parts))


def _cautions(made: _Set) -> tuple[str, ...]:
    moves = (move for one in made.options for move in one.way.moves if move.opens or move.means)
    return tuple(dict.fromkeys(caution for move in moves for caution in move.cautions))


def _late_rules(made: _Set) -> tuple[str, ...]:
    """Return the rule by which something comes too late: the one asked about, where it bars anything."""
    bar = late_bar(*made.wrong)
    return (made.scene.rule_of(bar),) if bar else ()


def _met(made: _Set, option: Option) -> list[Met]:
    """Return what an answer tells: what leads nowhere missed what bars it, what is too dear the price."""
    barring = {made.scene.rule_of(bar) for bar in option.bars}
    if option.right:
        return [Met(rule=rule, kept=True) for rule in (*_late_rules(made), WAY_BACK)]
    if barring:
        return [Met(rule=rule, kept=False) for rule in sorted(barring)]
    return [Met(rule=WAY_BACK, kept=False)]
