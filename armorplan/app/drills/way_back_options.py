"""The ways that an exercise offers: real ways back, and real moves that lead nowhere or too far."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from armorplan.app.drills.way_back_choices import MOST_LINES, Option, lines_of
from armorplan.app.drills.way_back_limits import limits_words
from armorplan.app.drills.way_back_prices import is_told_alike, most_right, takes_of
from armorplan.app.drills.way_back_trouble import Trouble
from armorplan.app.way_back_rows import WayBack
from armorplan.app.ways_back import way_row, ways_back_in
from armorplan.orders.recovery.amiss import Amiss
from armorplan.orders.recovery.checking import bars_against, faults_of, state_after
from armorplan.orders.recovery.from_build import Stated
from armorplan.orders.recovery.model import (
    Doing,
    Move,
    Rates,
    Recovery,
    RecoveryProblem,
    TakeBack,
)
from armorplan.orders.recovery.moves import MoveNote, Told, cost_of
from armorplan.orders.recovery.remaking import anew
from armorplan.orders.recovery.salvaging import salvage_moves
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.orders.recovery.taking_back import again, can_be_opened, opening
from armorplan.orders.recovery.unfit import unfit
from armorplan.steps.naming import lowered, part_name
from armorplan.workshop.salvages import Salvage

_MOST_ANEW = 4
_ELSEWHERE = 2
_AGAIN = "again:"
_MADE = "made-for-a-drill"


def options_of(scene: RecoveryScene, state: Stated, trouble: Trouble) -> tuple[Option, ...]:
    """Return all that can be offered for a trouble, the cheapest way first; empty where it is unfit.

    It is unfit where the cheapest way is not proved, is taken only since nothing milder leads back, or is
    too long to be read.
    """
    ways = ways_back_in(scene, state).ways
    if not ways or not ways[0].proved or ways[0].is_risky:
        return ()
    found = [*ways, *_more_opened(scene, state, ways), *_more_anew(scene, state, trouble)]
    leading = _told_as_they_are([_leading(way, ways[0]) for way in found], scene.rates)
    if not any(one.way is ways[0] and len(lines_of(one.way)) <= MOST_LINES for one in leading):
        return ()
    amiss = (
        *_less_opened(scene, state, ways),
        *_elsewhere(scene, state),
        *_wrong_anew(scene, state, trouble),
        *_unfit(scene, state),
    )
    told: dict[tuple[str, str], Option] = {}
    for option in (*leading, *amiss):
        if len(lines_of(option.way)) <= MOST_LINES:
            limits = " ".join(_limits(scene, state, option.way))
            told.setdefault(option.told, replace(option, limits=limits))
    return tuple(told.values())


def _leading(way: WayBack, best: WayBack) -> Option:
    return Option(
        way=way, leads=True, right=not way.is_risky and way.price <= most_right(best.price)
    )


def _told_as_they_are(options: list[Option], rates: Rates) -> list[Option]:
    """Return those of which the numbers that are told say the same as the search's own prices.

    A way that is hardly too dear, or hardly not, is left out: whoever reckons with whole minutes could
    not tell.
    """
    sums = [takes_of(one.way, rates).in_all for one in options]
    mild = [in_all for one, in_all in zip(options, sums, strict=True) if not one.way.is_risky]
    most = most_right(min(mild))
    return [
        one
        for one, in_all in zip(options, sums, strict=True)
        if is_told_alike(one.way, rates) and (one.way.is_risky or one.right is (in_all <= most))
    ]


def salvages_of(
    scene: RecoveryScene, state: Stated, way: WayBack
) -> Iterator[tuple[Amiss, Salvage]]:
    """Yield the salvages that a way rests on, each with what it is to set right."""
    made = {move.id for move in way.moves}
    for amiss in state.amiss:
        yield from ((amiss, one) for one in scene.salvages if f"{amiss.id}:{one.id}" in made)


def _limits(scene: RecoveryScene, state: Stated, way: WayBack) -> Iterator[str]:
    for amiss, salvage in salvages_of(scene, state, way):
        words = limits_words(scene, amiss, salvage)
        if words:
            yield words


def _moves(problem: RecoveryProblem, way: WayBack) -> tuple[Move, ...]:
    return tuple(problem.move(each) for each in way.id.split("|"))


def _row(scene: RecoveryScene, state: Stated, moves: Iterable[Move]) -> WayBack:
    found = tuple(moves)
    ticks = state.problem.ticks(found)
    return way_row(scene, state, Recovery(moves=found, ticks=ticks, bound=0, proved=False))


def _more_opened(
    scene: RecoveryScene, state: Stated, ways: tuple[WayBack, ...]
) -> Iterator[WayBack]:
    """Yield ways back that open one thing more than they have to."""
    problem = state.problem
    doing = {
        move.does: move
        for move in problem.moves
        if isinstance(move, Doing) and move.id.startswith(_AGAIN)
    }
    for way in ways:
        moves = _moves(problem, way)
        opens = [move for move in moves if isinstance(move, TakeBack)]
        more = (m for m in problem.moves if isinstance(m, TakeBack) and m not in opens)
        for extra in more if opens else ():
            back = [doing[step] for step in sorted(extra.clears) if step in doing]
            whole = (*opens, extra, *moves[len(opens) :], *back)
            if back and not faults_of(problem, whole):
                yield _row(scene, state, whole)


def _less_opened(
    scene: RecoveryScene, state: Stated, ways: tuple[WayBack, ...]
) -> Iterator[Option]:
    """Yield what opens one thing less than it has to, and so leads nowhere."""
    for way in ways:
        moves = _moves(state.problem, way)
        for left in moves:
            if not isinstance(left, TakeBack) or _can_be_late(state):
                continue
            rest = tuple(
                move
                for move in moves
                if move is not left and not (isinstance(move, Doing) and move.does in left.clears)
            )
            if rest:
                yield from _halting(scene, state, rest)


def _halting(scene: RecoveryScene, state: Stated, moves: tuple[Move, ...]) -> Iterator[Option]:
    """Yield an option where its moves come to a halt at what bars one of them."""
    stands = frozenset(state.problem.done)
    for at, move in enumerate(moves):
        bars = tuple(bars_against(state.problem, stands, move))
        if bars:
            way = _row(scene, state, moves)
            if all(isinstance(each, Doing) for each in moves):
                way = replace(way, title=f"{way.title}, with nothing opened")
            yield Option(way=way, leads=False, why=bars[0].why, bars=bars, halts=at)
            return
        stands = state_after(stands, move)


def _can_be_late(state: Stated) -> bool:
    """Tell whether what comes too late can be done as things stand: by reach, or late in spite of it.

    Then nothing that opens too little leads nowhere.
    """
    wanted = {one.step for one in state.stuck}
    return any(
        move.id.startswith(("late:", "reach:")) and move.does in wanted
        for move in state.problem.moves
        if isinstance(move, Doing)
    )


def _elsewhere(scene: RecoveryScene, state: Stated) -> Iterator[Option]:
    """Yield that something else of the same parts is opened, which changes nothing."""
    late = next((one for one in state.stuck if not one.harder), None)
    usual = next((m for m in state.problem.moves if late and m.id == f"do:{late.step}"), None)
    if late is None or usual is None or _can_be_late(state):
        return
    shutting = {step for bar in scene.bars_of(late.step) for step in bar.of}
    parts = frozenset(scene.step(late.step).parts)
    near = [
        step
        for part in sorted(parts)
        for step in scene.facts.work.touching(part)
        if step.id in state.stands and step.id not in shutting and scene.facts.work.sets(step)
    ]
    for step in near[:_ELSEWHERE]:
        if can_be_opened(scene, step.id):
            usually = (usual, state.notes[usual.id])
            told = (opening(scene, step.id, state.stands), usually, again(scene, step.id))
            way = _put_together(scene, state, told)
            yield Option(way=way, leads=False, why=late.bars[0].why, bars=late.bars[:1], halts=1)


def _put_together(scene: RecoveryScene, state: Stated, told: tuple[Told, ...]) -> WayBack:
    """Return moves that are none of the problem's own as one way."""
    whole = Doing(id=_MADE, does=_MADE, title=told[0][0].title, cost=cost_of(told))
    also = replace(
        state,
        notes={**state.notes, _MADE: MoveNote()},
        inner={**state.inner, _MADE: told},
    )
    ticks = sum(scene.rates.ticks(move.cost) for move, _ in told)
    return way_row(scene, also, Recovery(moves=(whole,), ticks=ticks, bound=0, proved=False))


def _more_anew(scene: RecoveryScene, state: Stated, trouble: Trouble) -> Iterator[WayBack]:
    """Yield that more parts are made anew than have to be: all that the early step touched."""
    parts = _touched(scene, state, trouble)
    if parts:
        mine = scene.step(trouble.late).parts
        every = tuple(dict.fromkeys((*mine, *parts)))
        yield _put_together(scene, state, anew(scene, every, state.stands, {trouble.late}))


def _wrong_anew(scene: RecoveryScene, state: Stated, trouble: Trouble) -> Iterator[Option]:
    """Yield that another part is made anew, which changes nothing for the one that it is about."""
    for part in _touched(scene, state, trouble)[:1]:
        late = next(one for one in state.stuck if one.step == trouble.late)
        name = lowered(part_name(scene.facts.assembly, part))
        way = _put_together(scene, state, anew(scene, (part,), state.stands))
        yield Option(
            way=way,
            leads=False,
            why=f"It is not {name} that is wrong. {late.bars[0].why}",
            bars=late.bars[:1],
            halts=len(way.moves),
        )


def _touched(scene: RecoveryScene, state: Stated, trouble: Trouble) -> tuple[str, ...]:
    """Return the other parts of the early step, where one made anew is a way back."""
    if not trouble.late or not any(m.id == f"anew:{trouble.late}" for m in state.problem.moves):
        return ()
    mine = scene.step(trouble.late).parts
    others = tuple(part for part in scene.step(trouble.early).parts if part not in mine)
    return others if len(others) < _MOST_ANEW else ()


def _unfit(scene: RecoveryScene, state: Stated) -> Iterator[Option]:
    """Yield salvages of the shelf that will not do for this leather."""
    for amiss in state.amiss:
        for salvage in scene.salvages:
            if amiss.mistake.kind.slug not in salvage.mends:
                continue
            why = unfit(scene, amiss, salvage, state.stands)
            if why:
                told = salvage_moves(scene, amiss, salvage, state.stands)
                yield Option(way=_put_together(scene, state, told), leads=False, why=why)
