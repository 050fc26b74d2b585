"""Lays bits of a sheet on pages: work in a wide column, the reasons for it in the margin."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from armorplan.pattern.parts import Point
from armorplan.sheets.bench_sheet_ink import Ink, Paper
from armorplan.sheets.bench_sheet_letters import Style, wrapped

LEFT_MM, RIGHT_MM, TOP_MM, FOOT_MM = 17.0, 14.0, 22.0, 18.0
MARGIN_MM, GUTTER_MM = 44.0, 6.0
WHOLE_MM, WASTE_MM = 60.0, 75.0
"""What is no higher than the first is not parted where it fits on a new page; nor is what is
higher, where no more than the second is left empty for it."""


Draw = Callable[[Ink, Point], None]
"""Draws itself with its upper left corner there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bit:
    """Something that is not parted; ``keep``: what follows stays on its page."""

    high_mm: float
    draw: Draw
    keep: bool = False


@dataclass(slots=True, kw_only=True)
class Page:
    """A page: what is drawn on it."""

    placed: list[tuple[Bit, Point]] = field(default_factory=list)


def text_bits(text: str, style: Style, room_mm: float, *, indent_mm: float = 0.0) -> list[Bit]:
    """Return a paragraph as bits of a line; its first two lines stay together, and its last two."""
    lines = wrapped(text, style, room_mm - indent_mm)
    last = len(lines) - 1
    return [
        Bit(
            high_mm=style.lead_mm,
            draw=_line(line, style, indent_mm),
            keep=at < last and (at == 0 or at == last - 1),
        )
        for at, line in enumerate(lines)
    ]


def _line(words: str, style: Style, indent_mm: float) -> Draw:
    def draw(ink: Ink, at: Point) -> None:
        ink.text((at[0] + indent_mm, at[1] + style.lead_mm * 0.75), words, style)

    return draw


def gap(high_mm: float, *, keep: bool = False) -> Bit:
    """Return room with nothing in it."""
    return Bit(high_mm=high_mm, draw=lambda _ink, _at: None, keep=keep)


def kept(bits: Iterable[Bit]) -> list[Bit]:
    """Return bits that stay together with what follows them."""
    return [Bit(high_mm=bit.high_mm, draw=bit.draw, keep=True) for bit in bits]


def beside(left: Sequence[Bit], right: Sequence[Bit], wide_mm: float) -> Bit:
    """Return bits below each other, and others so far to the right of them, as one."""

    def draw(ink: Ink, at: Point) -> None:
        for bits, x in ((left, at[0]), (right, at[0] + wide_mm)):
            y = at[1]
            for bit in bits:
                bit.draw(ink, (x, y))
                y += bit.high_mm

    return Bit(high_mm=max(high_of(left), high_of(right)), draw=draw, keep=True)


def high_of(bits: Iterable[Bit]) -> float:
    """Return how high bits are below each other."""
    return sum(bit.high_mm for bit in bits)


def _together(bits: Sequence[Bit]) -> list[list[Bit]]:
    """Return bits in groups that stay on one page."""
    groups: list[list[Bit]] = [[]]
    for bit in bits:
        groups[-1].append(bit)
        if not bit.keep:
            groups.append([])
    return [group for group in groups if group]


class Flow:
    """Pages as they fill."""

    def __init__(self, paper: Paper) -> None:
        self.paper = paper
        self.pages: list[Page] = []
        self._y = 0.0

    @property
    def wide_mm(self) -> float:
        """Width of the column of work."""
        return self.paper.wide_mm - LEFT_MM - RIGHT_MM - GUTTER_MM - MARGIN_MM

    @property
    def whole_mm(self) -> float:
        """Width of both columns."""
        return self.paper.wide_mm - LEFT_MM - RIGHT_MM

    @property
    def number(self) -> int:
        """How many pages there are."""
        return len(self.pages)

    @property
    def room_mm(self) -> float:
        """How much is left of the last page."""
        return self._end - self._y if self.pages else 0.0

    def page_of(self, bit: Bit) -> int:
        """Return the number of the page a bit was laid on, counted from 1; KeyError: it was not."""
        for number in range(len(self.pages), 0, -1):
            if any(placed is bit for placed, _ in self.pages[number - 1].placed):
                return number
        raise KeyError(bit)

    @property
    def _end(self) -> float:
        return self.paper.high_mm - FOOT_MM

    @property
    def _column(self) -> float:
        return LEFT_MM + self.wide_mm + GUTTER_MM

    def new_page(self) -> None:
        """Begin a page."""
        self.pages.append(Page())
        self._y = TOP_MM

    def takes(self, bits: Sequence[Bit], beside: Sequence[Bit] = ()) -> bool:
        """Tell whether bits, and those beside them, find room on the last page."""
        return max(high_of(bits), high_of(beside)) <= self.room_mm

    def put(
        self, bits: Sequence[Bit], beside: Sequence[Bit] = (), *, again: Sequence[Bit] = ()
    ) -> None:
        """Lay bits below what is there, and others beside them in the margin.

        Args:
            bits: for the column of work.
            beside: for the margin.
            again: stands above what goes on on another page.
        """
        high = max(high_of(bits), high_of(beside))
        if self._y > TOP_MM and not self.takes(bits, beside) and self._is_better_whole(high):
            self.new_page()
        left = list(beside)
        begun = self._y
        for number, group in enumerate(_together(bits)):
            tall = high_of(group)
            if self._y > TOP_MM and self._y + tall > self._end:
                # What nothing stands beside yet goes along to the next page.
                left = self._margin(left, begun) if number else left
                self.new_page()
                begun = TOP_MM
                self._lay(
                    again if number and tall + high_of(again) <= self.room_mm else (), LEFT_MM
                )
            self._lay(group, LEFT_MM)
        self._rest(left, begun)

    def _is_better_whole(self, high: float) -> bool:
        room_mm = self.room_mm
        would_fit = high <= self._end - TOP_MM
        return high <= WHOLE_MM or room_mm < WHOLE_MM / 4 or (would_fit and room_mm <= WASTE_MM)

    def _rest(self, left: list[Bit], begun: float) -> None:
        """Lay what is left for the margin; where it takes a page more, that page goes on below it."""
        ended = self._y
        while left:
            placed = self._margin(left, begun)
            self._y = max(ended, begun + high_of(left[: len(left) - len(placed)]))
            left = placed
            if left:
                self.new_page()
                begun = ended = TOP_MM

    def _lay(self, bits: Iterable[Bit], x: float) -> None:
        for bit in bits:
            self.pages[-1].placed.append((bit, (x, self._y)))
            self._y += bit.high_mm

    def _margin(self, bits: list[Bit], y: float) -> list[Bit]:
        """Lay bits in the margin as far as the page goes; return those that are left."""
        groups = _together(bits)
        while groups and y + high_of(groups[0]) <= self._end:
            for bit in groups.pop(0):
                self.pages[-1].placed.append((bit, (self._column, y)))
                y += bit.high_mm
        return [bit for group in groups for bit in group]
