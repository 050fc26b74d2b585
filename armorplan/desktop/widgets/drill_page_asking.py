"""Which exercise is asked next: what is due, one by its number, or a sheet of them on paper."""

from collections.abc import Callable
from functools import partial
from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from armorplan.app.practice_asked import SheetAsked
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.practice_desk import Posed, Wanted
from armorplan.desktop.practice_words import looking_words, none_words
from armorplan.desktop.widgets.drill_answer import DrillPane
from armorplan.desktop.widgets.drill_answer_foot import At
from armorplan.desktop.widgets.drill_page_asked import AskedBar
from armorplan.desktop.widgets.drill_page_who import WhoField
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import Asked, Level


class Choosing(NamedTuple):
    """Where it is chosen who practises and what, and where the exercise is shown."""

    who: WhoField
    bar: AskedBar
    pane: DrillPane


class Asking(QObject):
    """Asks for exercises and shows them; ``said`` carries what is to be said of that.

    Args (of the maker):
        is_choosing: whether one is still choosing what to practise: the keyboard stays there then.
    """

    said = Signal(str)
    sheet_asked = Signal(object)

    def __init__(
        self, bridge: Bridge, where: Choosing, is_choosing: Callable[[], bool], parent: QObject
    ) -> None:
        super().__init__(parent)
        self._bridge, self._is_choosing = bridge, is_choosing
        self._who, self._bar, self._pane = where
        self._asked: Asked | None = None
        self.stays_above = False
        self._bar.wanted.connect(self.ask)
        self._bar.numbered.connect(self.ask_number)
        self._bar.sheet_wanted.connect(self.ask_sheet)
        self._pane.onward_wanted.connect(self.ask)
        self._pane.desk.posed.connect(self._pose)
        self._pane.desk.refused.connect(self._refuse)

    def forget(self) -> None:
        """Ask nothing: another build is shown."""
        self._asked = None
        self._show_number()
        self._pane.show_nothing("")

    def ask(self) -> None:
        """Ask for the exercise that is worth most now, of what is chosen."""
        if self._pane.at is At.JUDGING:
            self._pane.then(self.ask)
            return
        self._look()
        self._pane.desk.pose_next(
            Wanted(
                person=self._who.person,
                kind=self._bar.chosen_kind,
                level=self._bar.chosen_level,
                piece=self._bar.chosen_piece,
            )
        )

    def ask_sheet(self) -> None:
        """Save exercises like the one that is asked, of the kind that is chosen or of each in turn."""
        kind, asked = self._bar.chosen_kind, self._asked
        self.sheet_asked.emit(
            SheetAsked(
                kinds=(kind,) if kind else (),
                seed=asked.seed if asked else 1,
                level=self._bar.chosen_level or (asked.level if asked else Level.ROW),
                piece=self._bar.chosen_piece,
                person=self._who.name,
            )
        )

    def ask_number(self, number: int) -> None:
        """Ask for an exercise by its number: by nothing else than stands beside it.

        So it is the same one at every bench, on the command line and on paper.
        """
        asked = self._asked
        if asked is None or number < 0:
            return
        if self._pane.at is At.JUDGING:
            self._pane.then(partial(self.ask_number, number))
            return
        piece = self._bar.chosen_piece
        like = Asked(kind=asked.kind, seed=asked.seed, level=asked.level, piece=piece)
        try:
            wanted = self._bridge.session.practice.numbered(number, like)
        except ArmorplanError as error:
            self._show_number()
            self.said.emit(str(error))
            return
        if wanted != asked:
            self._look()
            self._pane.desk.pose(wanted)

    def _show_number(self) -> None:
        practice, asked = self._bridge.session.practice, self._asked
        self._bar.show_number(practice.number_of(asked) if asked else None)

    def _look(self) -> None:
        # Told before the answer goes: the keyboard falls back to what is above then.
        self.stays_above = self._is_choosing()
        self.said.emit(self._bridge.session.practice.why_not_kept)
        self._pane.show_nothing(looking_words(), is_looking=True)

    def _pose(self, posed: Posed | None) -> None:
        if posed is None:
            self._show_number()
            self._pane.show_nothing(none_words(self._bar.chosen_kind))
            return
        self._asked = posed.drill.asked
        self._show_number()
        self._pane.pose(posed, self._who.person, with_keys=not self.stays_above)

    def _refuse(self, why: str) -> None:
        """Say why there is no exercise, or why an answer could not be judged."""
        if self._pane.turn is None:
            self._pane.show_nothing(why)
        else:
            self._pane.refuse(why)
