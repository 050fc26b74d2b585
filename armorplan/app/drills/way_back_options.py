"""The ways that an exercise offers: real ways back, and real moves that lead nowhere or too far."""

import random
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from armorplan.app.drills.way_back_trouble import Trouble
from armorplan.app.way_back_rows import WayBack, WayBackMove
from armorplan.app.ways_back import way_row, ways_back_in
from armorplan.app.ways_back_words import folded
from armorplan.orders.recovery.checking import bars_against, faults_of, state_after
from armorplan.orders.recovery.from_build import Stated
from armorplan.orders.recovery.model import (
    Bar,
    Doing,
    Move,
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

MARGIN_MIN, MARGIN_SHARE = 3.0, 0.1
"""A way dearer than the cheapest by no more than this, or by this share of it, is right as well."""
FEWEST = 3
_MOST_ANEW = 4
_ELSEWHERE = 2
_AGAIN = "again:"
_MADE = "made-for-a-drill"


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One way that is offered.

    Attributes:
        way: what it takes, move by move; its price counts only where it leads back.
        leads: it leads back.
        right: it is the cheapest, or hardly dearer.
        why: what still bars it, in a sentence; empty where it leads back.
        bars: by which relations that is.
        halts: how many of its moves are made before it halts.
    """

    way: WayBack
    leads: bool
    right: bool = False
    why: str = ""
    bars: tuple[Bar, ...] = ()
    halts: int = 0

    @property
    def told(self) -> tuple[str, str]:
        """What tells it from others."""
        return self.way.title, detail_of(self.way)


_MOST_LINES = 4


def detail_of(way: WayBack) -> str:
    """Return what is done, one thing after the other, without what it takes; empty where its title says it."""
    lines = [title for title, _ in folded(_told_moves(way.moves))]
    if len(lines) == 1 and way.title.startswith(lines[0]):
        return ""
    more = len(lines) - _MOST_LINES
    shown = lines if more <= 1 else [*lines[:_MOST_LINES], f"{more} more"]
    return "; ".join(shown[:1] + [lowered(one) for one in shown[1:]])


def _told_moves(moves: tuple[WayBackMove, ...]) -> tuple[WayBackMove, ...]:
    """Return moves without what is only looked at once more, unless there is nothing else."""
    once_more = {step for move in moves if move.opens and not move.minutes for step in move.clears}
    told = tuple(m for m in moves if m.step not in once_more and not once_more & {*m.clears})
    return told or moves


def options_of(scene: RecoveryScene, state: Stated, trouble: Trouble) -> tuple[Option, ...]:
    """Return all that can be offered for a trouble, the cheapest way first; empty where it is unfit.

    It is unfit where the cheapest way is not proved, or is taken only since nothing milder leads back.
    """
    ways = ways_back_in(scene, state).ways
    if not ways or not ways[0].proved or ways[0].is_risky:
        return ()
    found = [*ways, *_more_opened(scene, state, ways), *_more_anew(scene, state, trouble)]
    leading = [_leading(way, ways[0]) for way in found]
    amiss = (
        *_less_opened(scene, state, ways),
        *_elsewhere(scene, state),
        *_wrong_anew(scene, state, trouble),
        *_unfit(scene, state),
    )
    told: dict[tuple[str, str], Option] = {}
    for option in (*leading, *amiss):
        told.setdefault(option.told, option)
    return tuple(told.values())


def _leading(way: WayBack, best: WayBack) -> Option:
    most = best.price + max(MARGIN_MIN, MARGIN_SHARE * best.price)
    return Option(way=way, leads=True, right=not way.is_risky and way.price <= most)


def picked(options: tuple[Option, ...], wanted: int, chance: random.Random) -> tuple[Option, ...]:
    """Return some options mixed, the cheapest among them; empty where too few of them are wrong."""
    right = [one for one in options if one.right]
    dearer = [one for one in options if one.leads and not one.right]
    amiss = [one for one in options if not one.leads]
    if not dearer + amiss or len(dearer + amiss) + 1 < FEWEST:
        return ()
    for some in (dearer, amiss):
        chance.shuffle(some)
    mixed = [*dearer[:1], *amiss[:1]]
    rest = [*dearer[1:], *amiss[1:]]
    chance.shuffle(rest)
    taken = [right[0], *right[1:2][: max(0, wanted - FEWEST)]]
    taken += [*mixed, *rest][: wanted - len(taken)]
    chance.shuffle(taken)
    return tuple(_told_apart(taken))


def _told_apart(options: list[Option]) -> Iterator[Option]:
    """Yield options; those of one title with where each of them begins."""
    titles = [one.way.title for one in options]
    for option in options:
        title = option.way.title
        if titles.count(title) > 1:
            first = detail_of(option.way).partition(";")[0]
            where = first.partition(": ")[2] or lowered(first)
            option = replace(option, way=replace(option.way, title=f"{title}: {where}"))  # noqa: PLW2901
        yield option


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
