"""How a way back goes, picture by picture: to its end, or to where it halts."""

from collections.abc import Iterator

from armorplan.app.derived import Derived
from armorplan.app.drills.way_back_options import Option
from armorplan.app.ways_back_words import folded
from armorplan.orders.recovery.from_build import Stated
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


def _in_order(derived: Derived, steps: set[str]) -> tuple[str, ...]:
    return tuple(sorted(steps, key=lambda one: (derived.place.get(one, 0), one)))
