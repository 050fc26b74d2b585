"""Reckons and draws one drying off the window's thread."""

from dataclasses import dataclass, replace
from datetime import datetime

from PySide6.QtCore import QObject, Signal

from armorplan.app.drying_choices import DryingChoice, WhatIf
from armorplan.app.drying_picture import figure_of
from armorplan.app.drying_rows import DryingPage, change_words, drying_page, page_if
from armorplan.app.past_air import going_over
from armorplan.desktop.drying_plot import DryingPlot, PlotLook, plot_drying
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.workshop.air import Room
from armorplan.workshop.shop import Person


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingAsked:
    """Which drying is to be seen, in which room, what is asked of it, and how it is drawn.

    ``told`` is the room as it was told, without the air of before, which nothing changes any more;
    ``now_at`` the present, ``None`` where nothing is asked; ``people`` the shop's.
    """

    choice: DryingChoice
    room: Room
    what_if: WhatIf
    look: PlotLook
    told: Room
    now_at: datetime | None = None
    people: tuple[Person, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingShown:
    """A drying, the same as it is asked for, what that changes in words, and the picture of both.

    ``plot`` is ``None`` where the picture is still to come.
    """

    asked: DryingAsked
    page: DryingPage
    other: DryingPage | None
    change: str
    plot: DryingPlot | None = None


def reckoned(asked: DryingAsked) -> DryingShown:
    """Return what is said of a drying; some 10 ms."""
    page = drying_page(asked.choice, asked.room)
    other = page_if(page, asked.what_if, _room_if(asked)) if asked.what_if.asks else None
    if other is not None and other.until_at > page.until_at:
        page = drying_page(asked.choice, asked.room, until_at=other.until_at)
    return DryingShown(
        asked=asked,
        page=page,
        other=other,
        change=change_words(page, other) if other else "",
    )


def _room_if(asked: DryingAsked) -> Room:
    """Return the room with the air that is asked for: from now on for what dries already."""
    room = asked.what_if.room(asked.told)
    if asked.now_at is None or asked.choice.start_at >= asked.now_at or not asked.what_if.asks_air:
        return room if asked.what_if.asks_air else asked.room
    return going_over(asked.room, room, asked.now_at)


def drawn(shown: DryingShown) -> DryingShown:
    """Return the same with its picture; 100 to 250 ms, the first time some seconds."""
    figure = figure_of(shown.page, shown.other, people=shown.asked.people)
    return replace(shown, plot=plot_drying(figure, shown.asked.look))


class DryingDesk(QObject):
    """Asks for one drying at a time.

    ``shown`` carries a ``DryingShown``, first without and then with its picture; ``failed`` why
    there is none.
    """

    shown = Signal(object)
    failed = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._asked: DryingAsked | None = None
        self._runner = Runner(self)
        self._runner.better.connect(self.shown)
        self._runner.answered.connect(self.shown)
        self._runner.failed.connect(self._tell)

    @property
    def is_busy(self) -> bool:
        """Whether something is being reckoned."""
        return self._runner.is_busy

    def ask(self, asked: DryingAsked) -> None:
        """Have a drying reckoned and drawn; nothing is done where it was asked just so before."""
        if asked == self._asked:
            return
        self._asked = asked

        def work(report: Report, should_stop: ShouldStop) -> object:
            told = reckoned(asked)
            report(told)
            # Many a job is overtaken before it draws: a page that is made wider and wider.
            return told if should_stop() else drawn(told)

        self._runner.ask(work)

    def _tell(self, error: Exception) -> None:
        self._asked = None
        self.failed.emit(str(error) or type(error).__name__)

    def close(self) -> None:
        """Wait for what is under way."""
        self._runner.close()
