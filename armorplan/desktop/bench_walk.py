"""A walk through pages of the bench view: all there is to read of a step, or a dry fit round by round."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from PySide6.QtCore import QCoreApplication

from armorplan.app.bench_card import BenchCard
from armorplan.app.dry_fit_rows import PieceFit
from armorplan.app.fit_pins import PinRow
from armorplan.desktop.bench_words import all_words, more_text, unbroken

Fits = Callable[["WalkPage"], bool]
"""Tells whether a page can be read at full size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkPage:
    """One page.

    Attributes:
        about: ids of parts, joints or steps that are lit; empty: those of the step.
        is_whole: letters take the whole width, without the picture.
        numbers: of joints, to be found in the picture: id and number.
        look: id of the look of a dry fit that is asked here; empty: none.
        ticks: id of a step that is done by what the page asks, and ticked with the sign-off; empty: none.
        is_last: what is done here ends the step.
    """

    title: str
    lines: tuple[str, ...] = ()
    about: tuple[str, ...] = ()
    numbers: tuple[tuple[str, int], ...] = ()
    is_whole: bool = False
    look: str = ""
    ticks: str = ""
    is_last: bool = False


def paged(page: WalkPage, fits: Fits) -> Iterator[WalkPage]:
    """Yield a page as it is, or as many as its lines need to be read at full size.

    All but the last say below how many lines are still to come.
    """
    full = _filled(page, fits)
    count = len(page.lines)
    if count - full[-1][0] > 1:
        yield from (_part(page, *one) for one in full)
        return
    even = max(1, -(-count // len(full)))
    halves = [(at, min(at + even, count)) for at in range(0, max(1, count), even)]
    is_even = len(halves) == len(full) and all(fits(_part(page, *one)) for one in halves)
    yield from (_part(page, *one) for one in (halves if is_even else full))


def _filled(page: WalkPage, fits: Fits) -> list[tuple[int, int]]:
    """Return which lines stand on each page, where pages hold as much as they can."""
    found, start = list[tuple[int, int]](), 0
    for at in range(len(page.lines)):
        if at > start and not fits(_part(page, start, at + 1)):
            found.append((start, at))
            start = at
    return [*found, (start, len(page.lines))]


def _part(page: WalkPage, start: int, end: int) -> WalkPage:
    """Return a page with some of its lines; what comes after them is counted below."""
    left = len(page.lines) - end
    more = (more_text(left, below=True),) if left else ()
    return replace(page, lines=(*page.lines[start:end], *more))


def reading_pages(card: BenchCard, more: Iterable[str] = ()) -> Iterator[WalkPage]:
    """Yield all there is to read of a step, cautions in full, and more of what it closes off."""
    title, *lines = all_words(card)
    yield WalkPage(title=unbroken(title), lines=(*lines, *more), is_whole=True)


def fit_pages(fit: PieceFit, found: tuple[str, ...] = ()) -> Iterator[WalkPage]:
    """Yield a dry fit: the lay-out without pins, then each round: its pins in order, its looks one by one.

    The last page asks for the sign-off, and names what was found.
    """
    flow = (fit.flow,) if fit.flow else ()
    yield WalkPage(
        title=_say("Lay it out without pins"),
        lines=(*(row.text for row in fit.lay_out), *flow),
        about=tuple(row.part for row in fit.lay_out),
    )
    for on in fit.rounds:
        clips = (_say("By hand or with a clip: {0}").format(clip.name) for clip in on.clips)
        yield WalkPage(
            title=unbroken(on.title),
            lines=(*_sizes(on.pins), *map(_pin_text, on.pins), *clips),
            about=tuple(pin.joint for pin in on.pins),
            numbers=tuple((pin.joint, pin.number) for pin in on.pins),
        )
        for look in on.looks:
            where = _say("On the wearer.") if look.on_wearer else _say("On the bench.")
            yield WalkPage(
                title=unbroken(look.text),
                lines=(where,),
                about=look.about,
                look=look.id,
                ticks=look.step,
            )
    yield WalkPage(title=fit.title, lines=tuple(_end_lines(found)), is_last=True)


def _end_lines(found: tuple[str, ...]) -> Iterator[str]:
    if not found:
        yield _say("Is all of it as it should be? Done signs it off, and opens what waits for it.")
        return
    yield _say("Found, and kept with the fit:")
    yield from (unbroken(f"\N{BULLET} {words}") for words in found)
    yield _say("For this piece Amiss finds what helps; F writes it into the next cut.")
    yield _say("Done signs the fit off as it is, and opens what waits for it.")


def _sizes(pins: tuple[PinRow, ...]) -> Iterator[str]:
    """Yield how many of which size to have ready; nothing where all are of one."""
    counts = Counter(pin.pin_name for pin in pins if not pin.is_extra)
    if len(counts) > 1:
        told = ", ".join(f"{count} × {name}" for name, count in sorted(counts.items()))
        yield unbroken(_say("Have ready: {0}.").format(told))


def _pin_text(pin: PinRow) -> str:
    spare = _say(" (may be left out)") if pin.is_extra else ""
    return unbroken(f"{pin.number}. {pin.name}: {pin.pin_name}{spare}")


class Walk:
    """Where one stands in a walk."""

    def __init__(self, step: str, pages: Iterable[WalkPage]) -> None:
        self.step = step
        self.pages = tuple(pages)
        self.at = 0

    @property
    def words(self) -> str:
        """Where one stands among the pages."""
        return _say("page {0} of {1}").format(self.at + 1, len(self.pages))

    @property
    def share(self) -> float:
        """How much of it lies behind."""
        return self.at / len(self.pages)

    @property
    def page(self) -> WalkPage:
        """The page in hand."""
        return self.pages[self.at]

    @property
    def ticks(self) -> tuple[str, ...]:
        """The steps that are done by what was gone through, beside the walk's own."""
        return tuple(page.ticks for page in self.pages[: self.at] if page.ticks)

    def on(self) -> bool:
        """Go to the next page; tell whether there was one."""
        self.at = min(self.at + 1, len(self.pages))
        is_there = self.at < len(self.pages)
        self.at = min(self.at, len(self.pages) - 1)
        return is_there

    def back(self) -> bool:
        """Go to the page before; tell whether there was one."""
        was = self.at
        self.at = max(0, was - 1)
        return was > 0


def _say(text: str) -> str:
    return QCoreApplication.translate("bench_walk", text)
