"""From a build and what stands in it to the ways back, as rows."""

from collections.abc import Collection, Iterable
from dataclasses import replace
from functools import cache
from itertools import groupby

from armorplan.app.derived import Derived
from armorplan.app.way_back_rows import Stuck, WayBack, WayBackMove, WaysBack
from armorplan.app.ways_back_words import risk_words, takes_words, way_title
from armorplan.files.catalogue import read_shelf
from armorplan.orders.recovery.alternatives import alternatives
from armorplan.orders.recovery.checking import faults_of
from armorplan.orders.recovery.from_build import Stated, stated
from armorplan.orders.recovery.mistakes import Mistake
from armorplan.orders.recovery.model import TICKS, Doing, Means, Move, Recovery, TakeBack
from armorplan.orders.recovery.moves import MoveNote, Told, cost_of, once
from armorplan.orders.recovery.salvaging import told_of
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.orders.recovery.search import Solve
from armorplan.orders.recovery.stuck import StuckStep
from armorplan.orders.recovery.too_late import late_title, telling
from armorplan.steps.model import SETS_JOINT
from armorplan.workshop.salvages import Salvage

_PCT = 100.0
_WHYS = 2
_SPITES = (Means.AS_IS, Means.IN_PLACE, Means.OTHER_TOOL)
"""What is done in spite of something that speaks against it."""


def recovery_scene(derived: Derived) -> RecoveryScene:
    """Return a build as ways back are looked for in it.

    A build that was begun before there were salvages on the shelf has those that ship.
    """
    return RecoveryScene(
        facts=replace(derived.facts, work=derived.work),
        relations=derived.index.relations,
        place=derived.place,
        salvages=derived.shelf.salvages or _shipped(),
        flat_min={step.id: step.minutes for step in derived.flat_work.of_kind(*SETS_JOINT)},
    )


@cache
def _shipped() -> tuple[Salvage, ...]:
    return read_shelf().salvages


def ways_back(
    derived: Derived,
    done: Collection[str],
    mistakes: tuple[Mistake, ...] = (),
    *,
    solver: Solve | None = None,
) -> WaysBack:
    """Return what is wrong, and the ways back, the best first.

    Args:
        derived: the build.
        done: ids of the steps that stand.
        mistakes: what went wrong besides.
        solver: asked where a problem is too large to be searched, in its own process.

    Raises:
        ArmorplanError: a mistake is about something that is not in the build.
    """
    scene = recovery_scene(derived)
    return ways_back_in(scene, stated(scene, done, mistakes), solver=solver)


def ways_back_in(scene: RecoveryScene, state: Stated, *, solver: Solve | None = None) -> WaysBack:
    """Return what is wrong in a state that is looked up already, and the ways back, the best first."""
    stuck = _stuck_rows(scene, state.stuck)
    told = tuple(told_of(scene, one) for one in state.amiss)
    ways: tuple[WayBack, ...] = ()
    if stuck or told:
        found = alternatives(state.problem, solver=solver)
        ways = _ranked(way_row(scene, state, one) for one in found) if found else ()
    return WaysBack(
        stuck=stuck,
        mistakes=told,
        taken=tuple(_titles(scene, state.taken)),
        ways=ways,
        told=_told(stuck, told, ways),
    )


def _titles(scene: RecoveryScene, steps: Iterable[str]) -> list[str]:
    ordered = sorted(steps, key=lambda one: (scene.place.get(one, 0), one))
    return [scene.step(one).title for one in ordered]


def _stuck_rows(scene: RecoveryScene, stuck: Iterable[StuckStep]) -> tuple[Stuck, ...]:
    return tuple(
        Stuck(
            step=one.step,
            title=late_title(scene, one.step),
            why=_why(scene, one),
            harder=one.harder,
        )
        for one in stuck
    )


def _why(scene: RecoveryScene, one: StuckStep) -> str:
    whys = list(dict.fromkeys(bar.why for bar in (*telling(scene, one), *one.bars)))
    more = len(whys) - _WHYS
    rest = f" And {more} more reason{'' if more == 1 else 's'} of the kind." if more > 0 else ""
    return f"{' '.join(whys[:_WHYS])}{rest}"


def _in_usual_order(scene: RecoveryScene, state: Stated, found: Recovery) -> tuple[Move, ...]:
    """Return the moves of a way; what is done in one go in the order of the build, where that holds."""
    moves = list[Move]()
    for opens, some in groupby(found.moves, key=lambda move: isinstance(move, TakeBack)):
        run = tuple(some)
        moves += run if opens else sorted(run, key=lambda move: _place(scene, move))
    return found.moves if faults_of(state.problem, moves) else tuple(moves)


def _place(scene: RecoveryScene, move: Move) -> int:
    return scene.place.get(move.does, -1) if isinstance(move, Doing) else -1


def way_row(scene: RecoveryScene, state: Stated, found: Recovery) -> WayBack:
    """Return one way back as it is told."""
    told = [each for move in _in_usual_order(scene, state, found) for each in _inner(state, move)]
    shown = once(told)
    shares = len(shown) < len(told)
    moves = tuple(move_row(scene, move, note) for move, note in shown)
    cost = cost_of(shown)
    gap = found.ticks - found.bound
    proved = found.proved and not shares and all(note.surely for _, note in shown)
    return WayBack(
        id="|".join(move.id for move in found.moves),
        title=way_title(moves),
        means=str(found.means[0]) if found.means else "",
        moves=moves,
        minutes=cost.minutes,
        wait_min=cost.wait_min,
        risk_pct=cost.risk_pct,
        risk=risk_words(cost.risk_pct),
        hardware=cost.hardware,
        leaves=tuple(dict.fromkeys(found.leaves)),
        price=sum(scene.rates.ticks(m.cost) for m, _ in shown) / TICKS
        if shares
        else found.ticks / TICKS,
        is_risky=bool(found.too_risky(scene.rates)),
        proved=proved,
        gap_pct=0.0 if found.proved or not found.ticks else _PCT * gap / found.ticks,
    )


def _inner(state: Stated, move: Move) -> tuple[Told, ...]:
    """Return a move, or those that it stands for."""
    return state.inner.get(move.id, ((move, state.notes[move.id]),))


def _ranked(ways: Iterable[WayBack]) -> tuple[WayBack, ...]:
    """Return ways with the one to take first; what shares work costs less than its moves one by one."""
    first, *rest = sorted(ways, key=lambda way: (way.is_risky, way.price))
    return (replace(first, is_best=True), *rest)


def move_row(scene: RecoveryScene, move: Move, note: MoveNote) -> WayBackMove:
    """Return one move as it is told."""
    opens = not isinstance(move, Doing)
    in_spite = () if opens else tuple(sorted(_spited(scene, move)))
    return WayBackMove(
        id=move.id,
        opens=opens,
        title=move.title,
        detail=note.detail,
        means=str(move.means) if move.means else "",
        step=note.step,
        clears=tuple(sorted(note.clears)),
        in_spite_of=in_spite,
        minutes=move.cost.minutes,
        wait_min=move.cost.wait_min,
        risk_pct=move.cost.risk_pct,
        tool=note.tool,
        cautions=note.cautions,
        hardware=move.cost.hardware,
        leaves=move.leaves if isinstance(move, Doing) else "",
        left_out=note.left_out,
        group=note.group,
    )


def _spited(scene: RecoveryScene, move: Move) -> set[str]:
    if not isinstance(move, Doing) or move.means not in _SPITES:
        return set()
    return {scene.told[bar].reason.text for bar in move.in_spite_of if bar in scene.told}


def _told(stuck: tuple[Stuck, ...], mistakes: tuple[str, ...], ways: tuple[WayBack, ...]) -> str:
    if not (stuck or mistakes):
        return "Nothing is barred: go on as before."
    late = sum(not one.harder for one in stuck)
    harder = len(stuck) - late
    bits = list(mistakes)
    if late:
        bits.append(f"{late} step{' comes' if late == 1 else 's come'} too late.")
    if harder:
        bits.append(f"{harder} step{' is' if harder == 1 else 's are'} harder now.")
    bits.append(
        f"Best: {ways[0].title[:1].lower()}{ways[0].title[1:]}. {takes_words(ways[0]).capitalize()}."
        if ways
        else "No way back was found."
    )
    return " ".join(bits)
