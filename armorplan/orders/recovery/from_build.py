"""From a build, what stands in it and what went wrong, to the problem of a way back.

Only what may have to move is part of the problem: what is stuck, what can be taken back that
shuts it, the parts that something is wrong with, and all that holds them. The rest stands.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from armorplan.orders.recovery.amiss import Amiss, amiss_of, closed_steps, implied_by
from armorplan.orders.recovery.mistakes import Mistake
from armorplan.orders.recovery.model import RecoveryProblem
from armorplan.orders.recovery.moves import Gathered, Notes
from armorplan.orders.recovery.remaking import held_by, make_anew
from armorplan.orders.recovery.salvaging import set_right
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.orders.recovery.stuck import StuckStep, stuck_steps
from armorplan.orders.recovery.taking_back import all_opened, can_be_opened, open_and_again
from armorplan.orders.recovery.too_late import put_right
from armorplan.steps.model import Step

_FEW_PARTS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Stated:
    """The problem of a way back, with what a maker has to be told beside it.

    Attributes:
        stands: what stands, with what it cannot be without.
        taken: what stands though it was not said to.
        stuck: steps that come too late, or are harder now.
        amiss: mistakes with what each is about.
        notes: by move, how it is done.
    """

    problem: RecoveryProblem
    stands: frozenset[str]
    taken: frozenset[str]
    stuck: tuple[StuckStep, ...]
    amiss: tuple[Amiss, ...]
    notes: Notes


def recovery_problem(
    scene: RecoveryScene, done: Iterable[str], mistakes: tuple[Mistake, ...] = ()
) -> RecoveryProblem:
    """Return the problem of a way back.

    Raises:
        ArmorplanError: a mistake is about something that is not in the build.
    """
    return stated(scene, done, mistakes).problem


def stated(
    scene: RecoveryScene, done: Iterable[str], mistakes: tuple[Mistake, ...] = ()
) -> Stated:
    """Return the problem of a way back, and what goes with it.

    Args:
        scene: the build.
        done: steps that stand.
        mistakes: what went wrong besides.

    Raises:
        ArmorplanError: a mistake is about something that is not in the build.
    """
    given = frozenset(done)
    amiss = amiss_of(scene, mistakes)
    told = given | closed_steps(scene, mistakes) | implied_by(scene, amiss)
    stands = scene.standing(told)
    stuck = stuck_steps(scene, stands)
    gathered = Gathered()
    remade = _remade(scene, stuck, amiss)
    asked = _asked(stuck, amiss)
    wanted = put_right(scene, gathered, asked, stands, remade)
    for one in amiss:
        set_right(scene, gathered, one, stands)
    for part in sorted(remade):
        own = {one for one in wanted if scene.step(one).parts == (part,)}
        make_anew(scene, gathered, part, stands, own)
    opened = all_opened(scene, _seeds(scene, asked, amiss, (remade, stands)), stands)
    open_and_again(scene, gathered, opened, stands)
    harder = frozenset(one.step for one in stuck if one.harder)
    moving = (frozenset(opened), wanted, harder)
    return Stated(
        problem=_problem(scene, gathered, moving, stands),
        stands=stands,
        taken=stands - given,
        stuck=stuck,
        amiss=amiss,
        notes=gathered.notes,
    )


def _asked(stuck: tuple[StuckStep, ...], amiss: tuple[Amiss, ...]) -> tuple[StuckStep, ...]:
    """Return what a way back is looked for: what is only harder does not stand beside a mistake."""
    late = tuple(one for one in stuck if not one.harder)
    return late if late or amiss else stuck


def _remade(
    scene: RecoveryScene, stuck: Collection[StuckStep], amiss: Collection[Amiss]
) -> frozenset[str]:
    """Return the parts that may have to be made anew: what is wrong, or what no opening frees."""
    found = {part for one in amiss for part in one.parts}
    for one in stuck:
        step = scene.step(one.step)
        if one.harder or len(step.parts) > _FEW_PARTS or scene.facts.work.sets(step):
            continue
        if any(not can_be_opened(scene, member) for bar in one.bars for member in bar.of):
            found.update(step.parts)
    return frozenset(found)


def _seeds(
    scene: RecoveryScene,
    stuck: Collection[StuckStep],
    amiss: Collection[Amiss],
    state: tuple[frozenset[str], frozenset[str]],
) -> frozenset[str]:
    remade, stands = state
    seeds = {member for one in stuck for bar in one.bars for member in bar.of}
    held: list[Step] = [step for part in remade for step in held_by(scene, part, stands)]
    held += [
        step
        for one in amiss
        for joint in one.joints
        if (step := scene.facts.work.setting(joint.id))
    ]
    return frozenset(seeds | {step.id for step in held}) & stands


def _problem(
    scene: RecoveryScene,
    gathered: Gathered,
    moving: tuple[frozenset[str], frozenset[str], frozenset[str]],
    stands: frozenset[str],
) -> RecoveryProblem:
    opened, wanted, harder = moving
    known = gathered.done | opened | wanted
    may_stand = stands | wanted | gathered.done
    bars = [
        bar
        for bar in scene.bars
        if bar.first in known and bar.of <= may_stand and (scene.binds(bar) or bar.first in harder)
    ]
    members = {member for bar in bars for member in bar.of} & stands
    done = frozenset(gathered.done | opened | members)
    return RecoveryProblem(
        done=done,
        goal=frozenset(gathered.goal | gathered.done | opened | members),
        bars=(*bars, *gathered.bars),
        moves=tuple(gathered.moves[one] for one in sorted(gathered.moves)),
        rates=scene.rates,
    )
