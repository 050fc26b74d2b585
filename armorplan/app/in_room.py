"""A build as it stands in another room, or in the same one that was learned of, all at once.

Its steps, their order and what binds them stay; only minutes of drying and of windows change. The
words of its relations tell the minutes of when it was opened, until it is opened the next time.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import TypeVar

from armorplan.app.derived import Derived
from armorplan.drying.room import DryingRoom, drying_room
from armorplan.relations.model import Before, Relation
from armorplan.rules.facts import Facts
from armorplan.schedule.drying_tables import WINDOW_RULES
from armorplan.steps.drying_step import usual_min
from armorplan.steps.model import Step, Work
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Shelf

_R = TypeVar("_R", bound=Relation)


def in_room(derived: Derived, room: Room) -> Derived:
    """Return a build with the minutes that its dryings and windows take in a room."""
    was = derived.shop.room
    if room == was:
        return derived
    moved = _moved(was, room)
    drying = drying_room(room)

    def dries(step: Step) -> Step:
        is_moved = step.drying is not None and (moved is None or step.drying.treatment in moved)
        return _in(step, derived.shelf, drying) if is_moved and not step.attended else step

    flat = _with(derived.flat_work, dries)
    facts = Facts(assembly=derived.assembly, work=flat, shelf=derived.shelf, room=room)
    return replace(
        derived,
        shop=replace(derived.shop, room=room),
        work=_with(derived.work, dries),
        flat_work=flat,
        relations=tuple(_today(relation, facts) for relation in derived.relations),
        waits=tuple(_today(wait, facts) for wait in derived.waits),
    )


def _moved(was: Room, room: Room) -> frozenset[str] | None:
    """Return the treatments that dry otherwise; ``None``: perhaps all, since the air is another."""
    if replace(was, paces=()) != replace(room, paces=()):
        return None
    return frozenset(pace.treatment for pace in {*was.paces} ^ {*room.paces})


def _with(work: Work, dries: Callable[[Step], Step]) -> Work:
    steps = tuple(map(dries, work.steps))
    is_same = all(new is old for new, old in zip(steps, work.steps, strict=True))
    return work if is_same else Work(steps=steps)


def _in(step: Step, shelf: Shelf, room: DryingRoom) -> Step:
    entry = shelf.treatment(step.drying.treatment) if step.drying else None
    if step.drying is None or entry is None:
        return step
    minutes = usual_min(room, entry, step.drying)
    return step if minutes == step.minutes else replace(step, minutes=minutes)


def _today(relation: _R, facts: Facts) -> _R:
    if not isinstance(relation, Before) or relation.reason.rule not in WINDOW_RULES:
        return relation
    window = facts.window_min(facts.work.step(relation.first), facts.work.step(relation.then))
    if window is None:
        return relation
    if window == (relation.lag_min, relation.max_lag_min):
        return relation
    return replace(relation, lag_min=window[0], max_lag_min=window[1])
