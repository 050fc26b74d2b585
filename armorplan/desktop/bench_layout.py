"""Where everything of the bench view lies, in letters as large as the distance asks for."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum, auto
from typing import NamedTuple, Protocol

from armorplan.desktop.bench_type import LEAST_TARGET_PX

TITLE_SHARES = (1.6, 1.4, 1.25, 1.1, 1.0)
"""The title is so many times as large as the rest, the largest that there is room for."""
SMALLER = 0.94
LEAST_BODY_PX = 11
"""Letters become smaller step by step until all of it fits, down to this."""
TEXT_SHARES = (0.56, 0.62, 0.7)
"""Of the width title and facts take so much beside the picture of the parts, more where they have to."""
LARGER = 1.25
"""Where there is room letters are larger than they have to be: 20 minutes of arc in place of 16."""
GAP, INSET = 0.3, 0.6
"""Between bands, and from the edge to letters, in letter sizes."""
BAND_INSET = 1.5
"""On either side of the commit line, for its rivet heads."""
NOTICE_INSET = INSET + 1.7
"""On either side of what was said: half of the time of day, since both sides are told alike."""
MARKED_INSET = INSET + 0.65
"""On either side of a caution: half of its mark with a gap, since both sides are told alike."""
PICTURE_LINES = 3.0
"""The picture is at least so many lines high, or facts that can be spared make room."""


SMALL = 0.62
"""Letters of what is seldom looked at, such as the date: 10 minutes of arc where the others have 16."""


class Band(Enum):
    """What has a place of its own."""

    HEAD = auto()
    TITLE = auto()
    FACTS = auto()
    PICTURE = auto()
    CAUTION = auto()
    COMMIT = auto()
    FOOT = auto()
    VERBS = auto()


class Box(NamedTuple):
    """A place in the view, in device-independent pixels."""

    x: int
    y: int
    wide: int
    high: int


class Measure(Protocol):
    """Tells how high a text is that is wrapped to a width."""

    def __call__(self, text: str, wide: int, px: int, *, bold: bool = False) -> int:
        """Return the height in pixels of letters of ``px`` pixels; 0 for no text."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchTexts:
    """What has to be read.

    Attributes:
        facts: the most needed first; of those after ``kept`` some are left out where room is short.
        notice: what was said and has to be read in full, in place of the head; else empty.
        foot_lines: lines of the foot: one, or more where something rings.
        foot_is_target: it is pressed, and so as large as a target.
        has_plan: there is a small line of the plan below the foot's own.
        is_whole: there is no picture; letters take the whole width.
        is_steady: letters are not larger than they have to be: one page follows the other.
    """

    title: str
    facts: tuple[str, ...] = ()
    kept: int = 0
    caution: str = ""
    commit: str = ""
    notice: str = ""
    foot_lines: int = 1
    foot_is_target: bool = False
    has_plan: bool = False
    is_whole: bool = False
    is_steady: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchLayout:
    """Where all of it lies.

    Attributes:
        body_px: size of the letters.
        share: of the size that was wanted; 1: as the distance asks for.
        facts: those that are shown.
    """

    body_px: int
    title_px: int
    share: float
    boxes: Mapping[Band, Box]
    facts: tuple[str, ...]


def lay_bench(
    wide: int, high: int, body_px: int, texts: BenchTexts, measure: Measure
) -> BenchLayout:
    """Lay out the view in letters of ``body_px`` or larger, or the largest in which all fits.

    Facts that can be spared are left out before letters are smaller than ``body_px``, not before
    they are larger.
    """
    px = body_px if texts.is_steady else round(LARGER * body_px)
    while True:
        last = px <= LEAST_BODY_PX
        spares = px <= body_px
        found = _laid(_Room(wide, high, px, measure), texts, spares=spares, is_last=last)
        if found is not None:
            boxes, title_px, facts = found
            share = px / body_px
            return BenchLayout(
                body_px=px, title_px=title_px, share=share, boxes=boxes, facts=facts
            )
        smaller = int(px * SMALLER)
        # The size that was asked for is always tried itself.
        px = body_px if smaller < body_px < px else max(LEAST_BODY_PX, smaller)


class _Room(NamedTuple):
    """The view, and the letters that are tried in it."""

    wide: int
    high: int
    px: int
    measure: Measure
    text_share: float = TEXT_SHARES[0]

    @property
    def gap(self) -> int:
        return round(GAP * self.px)

    @property
    def inset(self) -> int:
        return round(INSET * self.px)

    @property
    def line(self) -> int:
        return self.measure("Ag", self.wide, self.px)

    @property
    def text_wide(self) -> int:
        rims = 2 if self.text_share == 1 else 1
        return round(self.wide * self.text_share) - rims * self.inset

    def full(self, text: str, *, inset: float = INSET, bold: bool = False) -> int:
        """Return the height of a text across the whole view."""
        return self.measure(text, round(self.wide - 2 * inset * self.px), self.px, bold=bold)


_Found = tuple[dict[Band, Box], int, tuple[str, ...]]


def _laid(room: _Room, texts: BenchTexts, *, spares: bool, is_last: bool) -> _Found | None:
    """Return the places in these letters; ``None`` where they do not fit."""
    head = max(room.line, room.full(texts.notice, inset=NOTICE_INSET, bold=True))
    highs = {Band.HEAD: head + room.gap, **_low_bands(room, texts)}
    middle = room.high - sum(high + room.gap for high in highs.values() if high)
    shares = (1.0,) if texts.is_whole else TEXT_SHARES if spares else TEXT_SHARES[:1]
    for facts in _fewer(texts) if spares else (texts.facts,):
        for text_share in shares:
            found = _title(room._replace(text_share=text_share), texts.title, facts, middle)
            if found is not None:
                title_px, title_high = found
                beside = room._replace(text_share=text_share)
                return _boxes(beside, highs, title_high, middle), title_px, facts
    if not is_last:
        return None
    room, line = room._replace(text_share=shares[0]), room.line
    facts = texts.facts[: texts.kept]
    title_high = room.measure(texts.title, room.text_wide, room.px, bold=True)
    return _boxes(room, highs, title_high, max(middle, title_high + line)), room.px, facts


def _title(room: _Room, title: str, facts: tuple[str, ...], middle: int) -> tuple[int, int] | None:
    """Return the largest letters of the title beside which the facts fit, and how high it is."""
    facts_high = sum(room.measure(fact, room.text_wide, room.px) for fact in facts)
    for share in TITLE_SHARES:
        title_px = round(room.px * share)
        title_high = room.measure(title, room.text_wide, title_px, bold=True)
        needed = title_high + room.gap + facts_high
        if max(needed, PICTURE_LINES * room.line) <= middle:
            return title_px, title_high
    return None


def _low_bands(room: _Room, texts: BenchTexts) -> dict[Band, int]:
    """Return the heights of what lies below the picture."""
    small = round(SMALL * room.line) if texts.has_plan else 0
    foot = texts.foot_lines * room.line + room.gap + small
    return {
        Band.CAUTION: room.full(texts.caution, inset=MARKED_INSET),
        Band.COMMIT: room.full(texts.commit, inset=BAND_INSET, bold=True) + 2 * room.gap
        if texts.commit
        else 0,
        Band.FOOT: max(foot, LEAST_TARGET_PX) if texts.foot_is_target else foot,
        Band.VERBS: max(LEAST_TARGET_PX, round(1.6 * room.line)),
    }


def _fewer(texts: BenchTexts) -> Iterator[tuple[str, ...]]:
    """Yield the facts, each time with one less of those that can be spared, the last first."""
    for count in range(len(texts.facts), texts.kept - 1, -1):
        yield texts.facts[:count]


def _boxes(
    room: _Room, highs: Mapping[Band, int], title_high: int, middle: int
) -> dict[Band, Box]:
    gap, inset = room.gap, room.inset
    y = highs[Band.HEAD] + gap
    right = inset + room.text_wide
    facts_y = y + title_high + gap
    boxes = {
        Band.HEAD: Box(0, 0, room.wide, highs[Band.HEAD]),
        Band.TITLE: Box(inset, y, room.text_wide, title_high),
        Band.FACTS: Box(inset, facts_y, room.text_wide, max(0, y + middle - facts_y)),
        Band.PICTURE: Box(right, y, room.wide - right, middle),
    }
    y += middle + gap
    for band in (Band.CAUTION, Band.COMMIT, Band.FOOT, Band.VERBS):
        boxes[band] = Box(0, y, room.wide, highs[band])
        y += highs[band] + (gap if highs[band] else 0)
    return boxes
