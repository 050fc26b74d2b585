"""Words of the key under the parts: what each mark of reach means, and how many joints have it."""

from collections import Counter
from enum import Enum, auto
from typing import NamedTuple

from PySide6.QtCore import QCoreApplication

from armorplan.app.reach_rows import ReachFrame, RowState, WayIn
from armorplan.desktop.closing_lost_words import Lost
from armorplan.desktop.standing_glyphs import standing_word
from armorplan.geometry.reach.model import Standing


class Count(NamedTuple):
    """How many joints of a standing are still to set, and how many are set."""

    standing: Standing
    to_set: int
    done: int


class MarkShown(Enum):
    """What is drawn over the parts, or on the slider, beside how each joint can be set."""

    SET = auto()
    COMING = auto()
    WORSE = auto()
    DEPTH = auto()
    OPEN = auto()
    HALF = auto()
    SHUT = auto()
    WAY = auto()
    BARRING = auto()
    LOST = auto()


def _tr(text: str) -> str:
    return QCoreApplication.translate("ClosingWords", text)


def counts(frame: ReachFrame) -> tuple[Count, ...]:
    """Return how many joints there are of each standing met, the easiest first."""
    to_set = Counter(j.standing for j in frame.joints if not j.is_set)
    done = Counter(j.standing for j in frame.joints if j.is_set)
    return tuple(
        Count(one, to_set[one], done[one]) for one in Standing if to_set[one] or done[one]
    )


def count_words(count: Count) -> str:
    """Return a standing with how many joints still to set, and set, stand so."""
    word = standing_word(count.standing)
    if not count.done:
        return _tr("{standing}: {n} to set").format(standing=word, n=count.to_set)
    if not count.to_set:
        return _tr("{standing}: {n} set").format(standing=word, n=count.done)
    told = _tr("{standing}: {n} to set, {done} set")
    return told.format(standing=word, n=count.to_set, done=count.done)


def marks_shown(frame: ReachFrame, way: WayIn | None, lost: Lost) -> tuple[MarkShown, ...]:
    """Return which marks have to be explained at a place in the order."""
    states = {row.state for row in frame.rows}
    joints = [joint for joint in frame.joints if joint.standing is not None]
    deep = (j for j in joints if not j.is_set and (j.standing or 0) >= Standing.INSIDE)
    met = {
        MarkShown.SET: any(joint.is_set for joint in joints),
        MarkShown.COMING: bool(frame.coming),
        MarkShown.WORSE: any(joint.worse for joint in joints),
        MarkShown.DEPTH: any(deep),
        MarkShown.OPEN: RowState.OPEN in states,
        MarkShown.HALF: RowState.HALF in states,
        MarkShown.SHUT: RowState.SHUT in states,
        MarkShown.WAY: way is not None and bool(way.legs),
        MarkShown.BARRING: way is not None and bool(way.barred_by),
        MarkShown.LOST: bool(lost),
    }
    return tuple(mark for mark, shows in met.items() if shows)


def mark_words(mark: MarkShown) -> str:
    """Return what a mark means."""
    return {
        MarkShown.SET: _tr("faint: set already"),
        MarkShown.COMING: _tr("set next"),
        MarkShown.WORSE: _tr("harder since the last step"),
        MarkShown.DEPTH: _tr("mm in, at most"),
        MarkShown.OPEN: _tr("row still open"),
        MarkShown.HALF: _tr("row half closed"),
        MarkShown.SHUT: _tr("closed"),
        MarkShown.WAY: _tr("the tool's way in"),
        MarkShown.BARRING: _tr("row in its way once closed"),
        MarkShown.LOST: _tr("under the slider: something falls out of reach there"),
    }[mark]
