"""Sentences about reach while a build is closed joint by joint."""

from collections import Counter
from collections.abc import Mapping
from math import isfinite

from PySide6.QtCore import QCoreApplication

from armorplan.app.reach_rows import ReachFrame, ReachStop, RowReach, RowState, WayIn
from armorplan.desktop.standing_glyphs import standing_word
from armorplan.geometry.reach.model import Margin, Standing


def _tr(text: str) -> str:
    return QCoreApplication.translate("ClosingWords", text)


def mm(length_mm: float) -> str:
    """Return a length in whole millimetres."""
    return _tr("{n} mm").format(n=round(length_mm))


def place_words(stops: tuple[ReachStop, ...], at: int) -> str:
    """Return how many steps are done and which comes next."""
    head = _tr("{n} of {all} set.").format(n=at, all=len(stops))
    if at == len(stops):
        return f"{head} {_tr('All is closed.')}"
    return f"{head} {_tr('Next: {step}').format(step=stops[at].title)}"


def lost_words(frame: ReachFrame, titles: Mapping[str, str]) -> str:
    """Return what the last step put out of reach; empty where nothing."""
    if not frame.lost:
        return ""
    is_set = {joint.id for joint in frame.joints if joint.is_set}
    late = [joint for joint in frame.lost if joint not in is_set]
    if late:
        named = _listed([titles.get(joint, joint) for joint in late])
        return _tr("Out of reach from here on, and not set yet: {joints}.").format(joints=named)
    if len(frame.lost) == 1:
        named = titles.get(frame.lost[0], frame.lost[0])
        return _tr("Out of reach from here on, and set in time: {joints}.").format(joints=named)
    return _tr("Out of reach from here on, and set in time: {n} joints.").format(n=len(frame.lost))


def _listed(names: list[str], most: int = 3) -> str:
    rest = len(names) - most
    told = ", ".join(names[:most])
    return told if rest <= 0 else _tr("{some} and {n} more").format(some=told, n=rest)


def counts(frame: ReachFrame) -> tuple[tuple[Standing, int], ...]:
    """Return how many joints still to set there are of each standing met, the easiest first."""
    found = Counter(j.standing for j in frame.joints if not j.is_set)
    met = {j.standing for j in frame.joints}
    return tuple((standing, found[standing]) for standing in Standing if standing in met)


def row_words(row: RowReach) -> str:
    """Return a row's gape as it is written at it; empty for a closed one."""
    if row.state is RowState.SHUT:
        return ""
    if row.gape_mm is None:
        return _tr("{row}: open").format(row=row.name)
    return _tr("{row}: gapes {gape}").format(row=row.name, gape=mm(row.gape_mm))


def way_words(way: WayIn) -> str:
    """Return how a tool gets to a chosen joint, with its numbers, and what would bar it."""
    return " ".join(sentence for sentence in (_head(way), _bars(way)) if sentence)


def _head(way: WayIn) -> str:
    margin = way.reach.margin
    if margin is None:
        return _tr("Chosen: no shell is in its way.")
    head = (
        _tr("Chosen, set already: {standing}.") if way.reach.is_set else _tr("Chosen: {standing}.")
    )
    told = head.format(standing=standing_word(margin.standing))
    return " ".join(one for one in (told, _numbers(way, margin)) if one)


def _numbers(way: WayIn, margin: Margin) -> str:
    if margin.way is None:
        return _tr("No tool fits.") if margin.standing is Standing.CANNOT else ""
    needs = need_words(margin)
    through = _tr("It takes {n} in through {opening}").format(n=needs, opening=way.through)
    if margin.opening_mm is not None and isfinite(margin.opening_mm):
        through = _tr("{through} ({n} wide)").format(through=through, n=mm(margin.opening_mm))
    if margin.reach_mm is None:
        return through + "."
    tool = way.tool or _tr("The tool")
    return _tr("{through}. {tool} reaches {n}.").format(
        through=through, tool=tool, n=mm(margin.reach_mm)
    )


def need_words(margin: Margin) -> str:
    """Return the length a tool needs, as a range where a straight one may do with less."""
    if margin.way is None:
        return ""
    least, most = round(margin.way.least_mm), round(margin.way.along_mm)
    if least >= most:
        return mm(most)
    return _tr("{least} to {most} mm").format(least=least, most=most)


def _bars(way: WayIn) -> str:
    """Return which rows leave it harder, those first that put it out of reach."""
    told = []
    for standing in dict.fromkeys(bar.standing for bar in way.barred_by):
        bars = (bar for bar in way.barred_by if bar.standing is standing)
        rows = _tr("; or ").join(_tr(" and ").join(bar.names) for bar in bars)
        word = standing_word(standing).capitalize()
        told.append(_tr("{standing} once closed: {rows}.").format(standing=word, rows=rows))
    return " ".join(told)
