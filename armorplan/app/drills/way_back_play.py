"""How a way back goes, picture by picture: to its end, or to where it halts."""

from collections.abc import Iterator

from armorplan.app.derived import Derived
from armorplan.app.drills.reach_turns import joints_set
from armorplan.app.drills.way_back_choices import Option
from armorplan.app.way_back_rows import WayBackMove
from armorplan.app.ways_back_words import folded
from armorplan.orders.recovery.from_build import Stated
from armorplan.orders.recovery.remaking import ANEW, REMAKE
from armorplan.practice.drill import Frame
from armorplan.steps.naming import lowered

_MOST_FRAMES = 14


def way_frames(derived: Derived, state: Stated, option: Option) -> tuple[Frame, ...]:
    """Return the pictures of a way: first as it stands, then move by move; moves of a row are one."""
    frames = list(_frames(derived, state, option))
    if len(frames) > _MOST_FRAMES:
        return (*frames[: _MOST_FRAMES - 1], frames[-1])
    return tuple(frames)


def _frames(derived: Derived, state: Stated, option: Option) -> Iterator[Frame]:
    stands = set(state.stands)
    late = tuple(one.step for one in state.stuck if not one.harder)
    yield Frame(done=_in_order(derived, stands), said="As it stands.", amiss=late)
    made = option.way.moves if option.leads else option.way.moves[: option.halts]
    for title, run in folded(made):
        for move in run:
            stands.difference_update(move.clears)
            stands.update({move.step} - {""})
        yield Frame(
            done=_in_order(derived, stands),
            at=next((m.step for m in run if m.step and not m.left_out), ""),
            parts=_worked_at(derived, state, run),
            opened=tuple(step for m in run if m.opens for step in m.clears),
            said=f"{title}.",
            amiss=tuple(step for step in late if step not in stands),
        )
    if not option.leads:
        barred = late or tuple(bar.first for bar in option.bars[:1])
        why = option.why or "It leads nowhere."
        yield Frame(
            done=_in_order(derived, stands),
            said=f"Here it halts: {lowered(option.way.title)}. {why}"
            if not made
            else f"Here it halts. {why}",
            amiss=tuple(step for step in barred if step not in stands),
        )


def _worked_at(derived: Derived, state: Stated, run: tuple[WayBackMove, ...]) -> tuple[str, ...]:
    """Return the parts that a run is done to: the one made anew, the spoilt ones, or those of its steps.

    Where a joint is set or opened it is that which shows, not what it holds.
    """
    anew = {part for move in run if (part := _part_anew(move))}
    if anew:
        return tuple(sorted(anew))
    steps = [step for m in run for step in (m.step, *m.clears) if derived.work.has(step)]
    if not steps:
        return tuple(dict.fromkeys(part for one in state.amiss for part in one.parts))
    bare = [step for step in steps if not joints_set(derived, (step,))]
    return tuple(dict.fromkeys(part for step in bare for part in derived.work.step(step).parts))


def _part_anew(move: WayBackMove) -> str:
    """Return the part that a move cuts anew, or does again what was done to it; empty for none."""
    for head, words in ((REMAKE, move.id), (ANEW, move.group)):
        if words.startswith(head):
            return words.removeprefix(head)
    return ""


def _in_order(derived: Derived, steps: set[str]) -> tuple[str, ...]:
    return tuple(sorted(steps, key=lambda one: (derived.place.get(one, 0), one)))
