"""Sentences about what falls out of reach where in the order of a build."""

from collections.abc import Mapping

from PySide6.QtCore import QCoreApplication

from armorplan.app.reach_rows import ReachFrame, ReachStop
from armorplan.geometry.reach.model import Standing

Lost = Mapping[int, tuple[str, ...]] | None
"""By number of stops done, what is out of reach from there on; ``None``: not known yet."""


def _tr(text: str) -> str:
    return QCoreApplication.translate("ClosingWords", text)


def lost_words(
    lost: Lost, frame: ReachFrame, stops: tuple[ReachStop, ...], *, ahead: bool = True
) -> tuple[str, bool]:
    """Return what falls out of reach here, else what has and what will; and whether it is too late.

    What will is left out unless it is asked for, where there is little room.

    It is too late where a joint is out of reach that is not set yet.
    """
    titles = {joint: stop.title for stop in stops for joint in stop.joints}
    is_set = {joint.id for joint in frame.joints if joint.is_set}
    gone = frozenset(j.id for j in frame.joints if j.standing is Standing.CANNOT)
    late = sorted(gone - is_set)
    if frame.lost and frame.at:
        after = stops[frame.at - 1].title
        return _lost_here(after, frame.lost, titles, late), bool(late)
    if late:
        named = _listed([titles.get(joint, joint) for joint in late])
        return _tr("Out of reach, and not set yet: {joints}.").format(joints=named), True
    return _lost_next(lost, frame.at, stops, titles) if ahead else "", False


def _lost_here(
    after: str, lost: tuple[str, ...], titles: Mapping[str, str], late: list[str]
) -> str:
    """Return what the last step put out of reach, what is not set yet before the rest."""
    here = [joint for joint in late if joint in lost]
    named = _listed([titles.get(joint, joint) for joint in here or lost])
    told = (
        _tr("After '{step}' out of reach, and not set yet: {joints}.")
        if here
        else _tr("After '{step}' out of reach, but set in time: {joints}.")
    )
    return told.format(step=after, joints=named)


def _lost_next(
    lost: Lost, at: int, stops: tuple[ReachStop, ...], titles: Mapping[str, str]
) -> str:
    """Return what falls out of reach next; empty where nothing does, or it is not known yet."""
    following = min((place for place in lost or () if place > at), default=0)
    if not lost or not following:
        return ""
    by_then = {joint for stop in stops[:following] for joint in stop.joints}
    late = [joint for joint in lost[following] if joint not in by_then]
    named = _listed([titles.get(joint, joint) for joint in late or lost[following]])
    told = (
        _tr("Falls out of reach next, after '{step}', and is not set by then: {joints}.")
        if late
        else _tr("Falls out of reach next, after '{step}', but is set by then: {joints}.")
    )
    return told.format(step=stops[following - 1].title, joints=named)


def _listed(names: list[str], most: int = 2) -> str:
    rest = len(names) - most
    told = ", ".join(names[:most])
    return told if rest <= 0 else _tr("{some} and {n} more").format(some=told, n=rest)
