"""What went wrong in an exercise about ways back: a step that came too late, or spoilt leather."""

import random
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import islice

from armorplan.app.derived import Derived
from armorplan.app.looked_up import why_not
from armorplan.app.mending import WAY_BACK
from armorplan.orders.recovery.amiss import amiss_of, implied_by
from armorplan.orders.recovery.mistakes import WHICH_WAY, Mistake, MistakeKind
from armorplan.orders.recovery.scene import IMPLIED, RecoveryScene
from armorplan.practice.drill import Asked, Level
from armorplan.practice.levels import Topic, mixed_topics

MOST_TRIED = 48
_A_TOPIC, _A_FOCUS = 12, 6
_A_PLACE = 3
_LEATHER_FIRST = 0.3
_OUT_MM = (1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """What stands, and what is wrong with it.

    Attributes:
        rule: code of the rule whose reason it is about; of spoilt leather that of ways back.
        topic: what of the build it is about, in words.
        late: step that was left out; ``early``: what was done though it should have come behind it.
            Both are empty where leather is spoilt.
        mistakes: what is wrong with the leather.
    """

    rule: str
    topic: Topic
    done: frozenset[str]
    late: str = ""
    early: str = ""
    mistakes: tuple[Mistake, ...] = ()


def troubles(
    derived: Derived, scene: RecoveryScene, asked: Asked, chance: random.Random
) -> Iterator[Trouble]:
    """Yield troubles in chance's order."""
    topics = mixed_topics(derived.assembly, derived.work, asked, chance)
    late = _late_pairs(scene)
    for topic in topics:
        groups = _groups(late, topic)
        of_topic = (
            trouble
            for code in _mixed(groups, chance)
            for trouble in (
                _too_late(scene, topic, groups[code], chance)
                if code in groups
                else _spoilt(derived, scene, topic, code, chance)
            )
        )
        yield from islice(of_topic, max(_A_TOPIC, MOST_TRIED // len(topics)))


def troubles_by(
    derived: Derived, scene: RecoveryScene, asked: Asked, chance: random.Random
) -> Iterator[Trouble]:
    """Yield troubles that need the reason asked for, in chance's order; of larger topics at last."""
    late = _late_pairs(scene)
    pairs = {asked.focus: late.get(asked.focus, [])}
    for wider in (asked, replace(asked, level=Level.HARNESS)):
        for topic in mixed_topics(derived.assembly, derived.work, wider, chance):
            if asked.focus == WAY_BACK:
                for kind in _leather(chance):
                    yield from _spoilt(derived, scene, topic, kind, chance)
            for some in _groups(pairs, topic).values():
                yield from _too_late(scene, topic, some, chance, most=_A_FOCUS)


def _leather(chance: random.Random) -> list[str]:
    found = [kind.value for kind in MistakeKind if kind is not MistakeKind.CLOSED]
    return chance.sample(found, len(found))


def _mixed(groups: Iterable[str], chance: random.Random) -> list[str]:
    """Return rules, then kinds of spoilt leather, or now and then the other way round.

    Of spoilt leather there is always something to ask: by turns it would crowd out the rest.
    """
    late, leather = sorted(groups), _leather(chance)
    chance.shuffle(late)
    return [*leather, *late] if chance.random() < _LEATHER_FIRST else [*late, *leather]


Pair = tuple[str, str, str]


def _late_pairs(scene: RecoveryScene) -> dict[str, list[Pair]]:
    """Return by rule: the rule, which step comes too late, once which other is done.

    What has surely been done where the other stands cannot have been left out, nor can what time does by
    itself.
    """
    found: dict[str, list[Pair]] = {}
    for bar in scene.bars:
        rule = scene.rule_of(bar)
        last = max(bar.of, key=lambda one: (scene.place.get(one, 0), one))
        is_work = scene.step(bar.first).attended and scene.step(last).attended
        if rule not in IMPLIED and is_work:
            found.setdefault(rule, []).append((rule, bar.first, last))
    return found


def _groups(late: dict[str, list[Pair]], topic: Topic) -> dict[str, list[Pair]]:
    inside = frozenset(topic.steps)
    found = {
        rule: [pair for pair in pairs if pair[1] in topic.own and pair[2] in inside]
        for rule, pairs in late.items()
    }
    return {rule: pairs for rule, pairs in found.items() if pairs}


def _too_late(
    scene: RecoveryScene, topic: Topic, pairs: list[Pair], chance: random.Random, *, most: int = 1
) -> Iterator[Trouble]:
    for rule, late, early in chance.sample(pairs, min(most, len(pairs))):
        done = scene.standing({early}, left={late}, whole=True)
        if late not in done:
            yield Trouble(rule=rule, topic=topic, done=done, late=late, early=early)


def _spoilt(
    derived: Derived, scene: RecoveryScene, topic: Topic, kind: str, chance: random.Random
) -> Iterator[Trouble]:
    places = list(_places(derived, topic, MistakeKind(kind)))
    chance.shuffle(places)
    for place in places[:_A_PLACE]:
        mistake = _mistake(MistakeKind(kind), place, chance)
        if why_not(derived, mistake):
            continue
        done = _by_then(derived, scene, mistake, chance)
        yield Trouble(rule=WAY_BACK, topic=topic, done=done, mistakes=(mistake,))


def _places(derived: Derived, topic: Topic, kind: MistakeKind) -> Iterator[str]:
    assembly = derived.assembly
    if kind is MistakeKind.ROW_OFF:
        joints = [joint for part in topic.parts for joint in assembly.joints_of(part)]
        seams = (assembly.seam_of(joint.id) for joint in joints)
        yield from dict.fromkeys(seam.id for seam in seams if seam)
    elif kind is MistakeKind.WRONG_HOLE:
        for part in topic.parts:
            for joint in assembly.joints_of(part):
                yield from (f"{part}/{hole}" for on, hole in joint.stack if on == part and hole)
    else:
        yield from topic.parts


def _mistake(kind: MistakeKind, place: str, chance: random.Random) -> Mistake:
    ways = tuple(WHICH_WAY.get(kind, ()))
    return Mistake(
        kind=kind,
        about=(place,),
        mm=chance.choice(_OUT_MM) if ways else 0.0,
        way=chance.choice(ways) if ways else "",
        darker=chance.choice((True, False)) if kind is MistakeKind.WRONG_COLOUR else None,
    )


def _by_then(
    derived: Derived, scene: RecoveryScene, mistake: Mistake, chance: random.Random
) -> frozenset[str]:
    """Return what stands when it is seen: the build's own order up to somewhere behind the leather."""
    surely = implied_by(scene, amiss_of(scene, (mistake,)))
    least = 1 + max((derived.place.get(step, 0) for step in surely), default=0)
    upto = chance.randint(min(least, len(derived.order)), len(derived.order))
    return frozenset(derived.order[:upto]) | surely
