"""Sentences about what falls out of reach where in the order of a build."""

from collections.abc import Mapping
from enum import Enum, auto

from PySide6.QtCore import QCoreApplication

from armorplan.app.reach_rows import ReachFrame, ReachStop
from armorplan.geometry.reach.model import Standing

Lost = Mapping[int, tuple[str, ...]] | None
"""By number of stops done, what is out of reach from there on; ``None``: not known yet."""


class Tone(Enum):
    """How loud something is said."""

    ALARM = auto()
    PLAIN = auto()
    QUIET = auto()


def _tr(text: str) -> str:
    return QCoreApplication.translate("ClosingWords", text)


def late_places(lost: Lost, stops: tuple[ReachStop, ...]) -> tuple[int, ...]:
    """Return after how many stops something falls out of reach that is not set by then."""
    return tuple(at for at, joints in (lost or {}).items() if _not_set(joints, at, stops))


def lost_words(
    lost: Lost, frame: ReachFrame, stops: tuple[ReachStop, ...], *, asked: bool = True
) -> tuple[str, Tone]:
    """Return what is out of reach and not set, here or next, and how it is said.

    What is set in time is told only where it is asked for: there nothing is wrong.
    """
    titles = {joint: stop.title for stop in stops for joint in stop.joints}
    is_set = {joint.id for joint in frame.joints if joint.is_set}
    gone = frozenset(j.id for j in frame.joints if j.standing is Standing.CANNOT)
    late = sorted(gone - is_set)
    here = [joint for joint in late if joint in frame.lost] if frame.at else []
    if here:
        told = _tr("After '{step}' out of reach, and not set yet: {joints}.")
        after = stops[frame.at - 1].title
        return told.format(step=after, joints=_named(here, titles)), Tone.ALARM
    if late:
        told = _tr("Out of reach, and not set yet: {joints}.")
        return told.format(joints=_named(late, titles)), Tone.ALARM
    return _lost_next(lost, frame.at, stops, titles) or _in_time(
        lost if asked else None, frame.at, stops, titles
    )


def _not_set(joints: tuple[str, ...], at: int, stops: tuple[ReachStop, ...]) -> list[str]:
    """Return which of these joints the first stops do not set."""
    by_then = {joint for stop in stops[:at] for joint in stop.joints}
    return [joint for joint in joints if joint not in by_then]


def _lost_next(
    lost: Lost, at: int, stops: tuple[ReachStop, ...], titles: Mapping[str, str]
) -> tuple[str, Tone] | None:
    """Return what falls out of reach before it is set, the next such; ``None`` where nothing does."""
    for place in sorted(place for place in late_places(lost, stops) if place > at):
        late = _not_set((lost or {})[place], place, stops)
        told = _tr("Falls out of reach after '{step}', and is not set by then: {joints}.")
        step = stops[place - 1].title
        return told.format(step=step, joints=_named(late, titles)), Tone.PLAIN
    return None


def _in_time(
    lost: Lost, at: int, stops: tuple[ReachStop, ...], titles: Mapping[str, str]
) -> tuple[str, Tone]:
    """Return what the last step shut off that was set before."""
    if not lost or not at or at not in lost:
        return "", Tone.QUIET
    told = _tr("Set in time: {joints}. After '{step}' no tool gets there any more.")
    named = _named(list(lost[at]), titles)
    return told.format(step=stops[at - 1].title, joints=named), Tone.QUIET


def _named(joints: list[str], titles: Mapping[str, str]) -> str:
    return _listed([titles.get(joint, joint) for joint in joints])


def _listed(names: list[str], most: int = 2) -> str:
    rest = len(names) - most
    told = ", ".join(names[:most])
    return told if rest <= 0 else _tr("{some} and {n} more").format(some=told, n=rest)
