"""A build as it stands in another room, or in the same one that was learned of, all at once.

Its steps, their order and what binds them stay; only minutes of drying and of windows change. The
words of its relations tell the minutes of when it was opened, until it is opened the next time.
"""

from dataclasses import replace
from typing import TypeVar

from armorplan.app.derived import Derived
from armorplan.drying.room import DryingRoom, drying_room
from armorplan.drying.stages import stage_minutes
from armorplan.relations.model import Before, Relation
from armorplan.rules.facts import Facts
from armorplan.schedule.drying_tables import WINDOW_RULES
from armorplan.steps.model import Step, Work
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Shelf

_R = TypeVar("_R", bound=Relation)


def in_room(derived: Derived, room: Room) -> Derived:
    """Return a build with the minutes that its dryings and windows take in a room."""
    if room == derived.shop.room:
        return derived
    drying = drying_room(room)
    flat = _dried(derived.flat_work, derived.shelf, drying)
    facts = Facts(assembly=derived.assembly, work=flat, shelf=derived.shelf, room=room)
    return replace(
        derived,
        shop=replace(derived.shop, room=room),
        work=_dried(derived.work, derived.shelf, drying),
        flat_work=flat,
        relations=tuple(_today(relation, facts) for relation in derived.relations),
        waits=tuple(_today(wait, facts) for wait in derived.waits),
    )


def _dried(work: Work, shelf: Shelf, room: DryingRoom) -> Work:
    return Work(steps=tuple(_in(step, shelf, room) for step in work.steps))


def _in(step: Step, shelf: Shelf, room: DryingRoom) -> Step:
    entry = shelf.treatment(step.drying.treatment) if step.drying else None
    if step.drying is None or entry is None or step.attended:
        return step
    stage = step.drying.stage
    minutes = room.usual(entry, step.drying.body).likely_min(stage)
    return replace(step, minutes=stage_minutes(entry)[stage] if minutes is None else minutes)


def _today(relation: _R, facts: Facts) -> _R:
    if not isinstance(relation, Before) or relation.reason.rule not in WINDOW_RULES:
        return relation
    window = facts.window_min(facts.work.step(relation.first), facts.work.step(relation.then))
    if window is None:
        return relation
    return replace(relation, lag_min=window[0], max_lag_min=window[1])
