"""Words of the key under the parts: what each mark of reach means, and how many joints have it."""

from collections import Counter
from enum import Enum, auto
from typing import NamedTuple

from PySide6.QtCore import QCoreApplication

from armorplan.app.reach_rows import JointReach, ReachFrame, RowState, WayIn
from armorplan.desktop.standing_glyphs import standing_word
from armorplan.desktop.standing_shades import SHADES_FROM_MM, shade_of
from armorplan.geometry.reach.model import Standing


class Rest(Enum):
    """Joints that no standing is marked of."""

    FREE = auto()
    SET = auto()


class Count(NamedTuple):
    """How many joints still to set stand so, or how many others there are."""

    of: Standing | Rest
    number: int


class MarkShown(Enum):
    """What is drawn over the parts, or on the slider, beside how each joint can be set."""

    IN_TIME = auto()
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
    """Return how many joints still to set stand how, the easiest first, and the rest: all of them."""
    to_set = Counter(Rest.FREE if j.standing is None else j.standing for j in _to_set(frame))
    to_set[Rest.SET] = len(frame.joints) - to_set.total()
    return tuple(Count(one, to_set[one]) for one in (*Standing, *Rest) if to_set[one])


def _to_set(frame: ReachFrame) -> list[JointReach]:
    return [joint for joint in frame.joints if not joint.is_set]


def count_words(count: Count) -> str:
    """Return what is counted, with how many there are."""
    if isinstance(count.of, Standing):
        told = _tr("{standing}: {n} to set")
        return told.format(standing=standing_word(count.of), n=count.number)
    told = {
        Rest.FREE: _tr("no shell in the way, not marked: {n} to set"),
        Rest.SET: _tr("set, faint: {n}"),
    }[count.of]
    return told.format(n=count.number)


def shades_shown(frame: ReachFrame) -> tuple[int, ...]:
    """Return which steps of depth the marks of joints still to set have; none where all are shallow."""
    met = sorted({shade_of(joint.margin) for joint in _to_set(frame) if joint.margin is not None})
    return tuple(met) if any(met) else ()


def shade_words(shade: int) -> str:
    """Return how deep a joint lies whose mark has a shade."""
    if shade < len(SHADES_FROM_MM):
        return _tr("up to {n} mm in").format(n=SHADES_FROM_MM[shade])
    return _tr("more than {n} mm in").format(n=SHADES_FROM_MM[-1])


def marks_shown(
    frame: ReachFrame, way: WayIn | None, late: tuple[int, ...] = ()
) -> tuple[MarkShown, ...]:
    """Return which marks have to be explained at a place in the order.

    Args:
        frame: the place.
        way: how a tool gets to the chosen joint.
        late: after how many stops something not set yet falls out of reach.
    """
    states = {row.state for row in frame.rows}
    joints = [joint for joint in frame.joints if joint.standing is not None]
    gone = (j.is_set and j.standing is Standing.CANNOT for j in joints)
    deep = (j for j in joints if not j.is_set and (j.standing or 0) >= Standing.INSIDE)
    met = {
        MarkShown.IN_TIME: any(gone),
        MarkShown.COMING: bool(frame.coming),
        MarkShown.WORSE: any(joint.worse and not joint.is_set for joint in joints),
        MarkShown.DEPTH: any(deep),
        MarkShown.OPEN: RowState.OPEN in states,
        MarkShown.HALF: RowState.HALF in states,
        MarkShown.SHUT: RowState.SHUT in states,
        MarkShown.WAY: way is not None and bool(way.legs),
        MarkShown.BARRING: way is not None and bool(way.barred_by),
        MarkShown.LOST: bool(late),
    }
    return tuple(mark for mark, shows in met.items() if shows)


def mark_words(mark: MarkShown) -> str:
    """Return what a mark means."""
    return {
        MarkShown.IN_TIME: _tr("set in time: no tool gets there any more"),
        MarkShown.COMING: _tr("set next"),
        MarkShown.WORSE: _tr("harder since the last step"),
        MarkShown.DEPTH: _tr("(number) mm in, at most"),
        MarkShown.OPEN: _tr("row still open"),
        MarkShown.HALF: _tr("row half closed"),
        MarkShown.SHUT: _tr("closed"),
        MarkShown.WAY: _tr("the tool's way in"),
        MarkShown.BARRING: _tr("row in its way once closed"),
        MarkShown.LOST: _tr("under the slider: something not set yet falls out of reach there"),
    }[mark]
