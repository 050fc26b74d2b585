"""Lames are hung one after the other from the cop on, where no head gets hidden that way."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import replace

from armorplan.assembly.model import SidedJoint
from armorplan.pattern.joining import Joint, Motion
from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet

_GROUND = Ground(code="lames-from-cop", force=Force.USUAL)


def _pivots(facts: Facts) -> dict[str, list[SidedJoint]]:
    """Return the pivots of each plate; a strap that turns is none."""
    found: dict[str, list[SidedJoint]] = defaultdict(list)
    for joint, _ in facts.joint_steps():
        if joint.joint.motion is Motion.TURNING and len(set(joint.parts)) == len(joint.parts):
            for part in joint.parts:
                found[part].append(joint)
    return found


def _away(facts: Facts, pivots: dict[str, list[SidedJoint]]) -> dict[str, int]:
    """Return how many pivots lie between each plate and the nearest cop; no cop, no entry."""
    cops = (part for part in pivots if facts.assembly.part(part).part.kind is PartKind.COP)
    away = dict.fromkeys(sorted(cops), 0)
    ahead = list(away)
    for part in ahead:  # It grows as neighbours are found.
        for beside in _beside(part, pivots[part]):
            if beside not in away:
                away[beside] = away[part] + 1
                ahead.append(beside)
    return away


def _beside(part: str, pivots: Iterable[SidedJoint]) -> Iterator[str]:
    for joint in pivots:
        yield from (other for other in joint.parts if other != part)


def _derive(facts: Facts) -> Iterator[Relation]:
    pivots = _pivots(facts)
    away = _away(facts, pivots)
    covered = {cover.joint for cover in facts.assembly.covers}
    for lame in sorted(away):
        for near in pivots[lame]:
            for far in pivots[lame]:
                inward = min(away[part] for part in near.parts) < away[lame]
                outward = max(away[part] for part in far.parts) > away[lame]
                if inward and outward and covered.isdisjoint((near.id, far.id)):
                    yield from _in_turn(facts, lame, (near, far))


def _in_turn(facts: Facts, lame: str, pivots: tuple[SidedJoint, SidedJoint]) -> Iterator[Relation]:
    near, far = pivots
    first, then = facts.work.setting(near.id), facts.work.setting(far.id)
    if first and then and first.piece == then.piece:
        yield _GROUND.before(
            facts.end_of(first).id,
            then.id,
            f"{facts.name(lame)} hangs on the cop's side first: each lame that is hung is flexed "
            "before the next one is hung on it, and its joint stays within reach.",
            about=(lame, near.id, far.id),
        )


_COP = sketch_part("cop", kind=PartKind.COP, holes={"c": (10.0, 10.0)})
_LAME = sketch_part("lame", kind=PartKind.LAME, holes={"l1": (10.0, 30.0), "l2": (70.0, 10.0)})
_NEXT = sketch_part("next", kind=PartKind.LAME, holes={"n": (10.0, 30.0)})


def _turning(name: str, *stack: str) -> Joint:
    return replace(sketch_rivet(name, *stack), motion=Motion.TURNING)


RULE = Rule(
    code=_GROUND.code,
    name="Lames hung from the cop outwards",
    why="Lames are hung one after the other along the limb, and each is flexed through its way before the "
    "next follows. Beginning at the cop leaves the joint to come free at the end of the chain. Where "
    "a plate lies over the head of a pivot, that pivot comes first, whichever side it is on; the "
    "rule then says nothing. Nor does it say when an inner leather is riveted in: some hang the "
    "lames first and set it with the lames bent to the end, others rivet it while each lame is "
    "single, which is the only way where the next plate hides its rivets.",
    mend="Nothing is spoilt. Flex the lames one by one with the others folded back; a joint that can no "
    "longer be reached wants its outer neighbour taken off.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Two lames that hang on a cop",
            pattern=sketch(
                _COP,
                _LAME,
                _NEXT,
                joints=(_turning("near", "c", "l1"), _turning("far", "l2", "n")),
            ),
            expects=frozenset({("rivet/near", "rivet/far")}),
        ),
        Example(
            title="A single lame on a cop",
            pattern=sketch(_COP, _LAME, joints=(_turning("near", "c", "l1"),)),
        ),
    ),
)
