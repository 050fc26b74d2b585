"""From a build, what stands in it and what went wrong, to the problem of a way back.

Only what may have to move is part of the problem: what is stuck, what can be taken back that
shuts it, the parts that something is wrong with, and all that holds them. The rest stands.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from armorplan.orders.recovery.amiss import Amiss, amiss_of, closed_steps, implied_by
from armorplan.orders.recovery.mistakes import Mistake
from armorplan.orders.recovery.model import RecoveryProblem
from armorplan.orders.recovery.moves import Gathered, Inner, Notes
from armorplan.orders.recovery.salvaging import set_right
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.orders.recovery.stuck import StuckStep, stuck_steps
from armorplan.orders.recovery.taking_back import again, all_opened, for_good, opening
from armorplan.orders.recovery.too_late import put_right


@dataclass(frozen=True, slots=True, kw_only=True)
class Stated:
    """The problem of a way back, with what a maker has to be told beside it.

    Attributes:
        stands: what stands, with what it cannot be without.
        taken: what stands though it was not said to.
        stuck: steps that come too late, or are harder now.
        amiss: mistakes with what each is about.
        notes: by move, how it is done.
        inner: by move that stands for some, those, in order.
    """

    problem: RecoveryProblem
    stands: frozenset[str]
    taken: frozenset[str]
    stuck: tuple[StuckStep, ...]
    amiss: tuple[Amiss, ...]
    notes: Notes
    inner: Inner


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
    told = given | closed_steps(scene, mistakes)
    told |= implied_by(scene, amiss, told)
    stands = scene.standing(told)
    stuck = stuck_steps(scene, stands)
    gathered = Gathered()
    asked = _asked(stuck, amiss)
    wanted = put_right(scene, gathered, asked, stands)
    for one in amiss:
        set_right(scene, gathered, one, stands)
    shutting = {member for one in asked for bar in one.bars for member in bar.of}
    opened = all_opened(scene, shutting, stands)
    _open_and_again(scene, gathered, opened, stands)
    harder = frozenset(one.step for one in stuck if one.harder)
    moving = (frozenset(opened), wanted, harder)
    return Stated(
        problem=_problem(scene, gathered, moving, stands),
        stands=stands,
        taken=stands - given,
        stuck=stuck,
        amiss=amiss,
        notes=gathered.notes,
        inner=gathered.inner,
    )


def _asked(stuck: tuple[StuckStep, ...], amiss: tuple[Amiss, ...]) -> tuple[StuckStep, ...]:
    """Return what a way back is looked for: what is only harder does not stand beside a mistake."""
    late = tuple(one for one in stuck if not one.harder)
    return late if late or amiss else stuck


def _open_and_again(
    scene: RecoveryScene, gathered: Gathered, opened: Collection[str], stands: Collection[str]
) -> None:
    """Gather for each step that may be taken back the two moves: to open it, and to do it again."""
    for step in opened:
        for_ever = (bar.id for bar in scene.bars_of(step) if for_good(bar, opened, stands))
        gathered.add(opening(scene, step, stands))
        gathered.add(again(scene, step, frozenset(for_ever)))


def _problem(
    scene: RecoveryScene,
    gathered: Gathered,
    moving: tuple[frozenset[str], frozenset[str], frozenset[str]],
    stands: frozenset[str],
) -> RecoveryProblem:
    opened, wanted, harder = moving
    known, may_stand = opened | wanted, stands | wanted
    bars = [
        bar
        for bar in scene.bars
        if bar.first in known and bar.of <= may_stand and (scene.binds(bar) or bar.first in harder)
    ]
    members = {member for bar in bars for member in bar.of} & stands
    done = opened | members
    return RecoveryProblem(
        done=done,
        goal=frozenset(gathered.goal | done),
        bars=tuple(bars),
        moves=tuple(gathered.moves[one] for one in sorted(gathered.moves)),
        rates=scene.rates,
    )
