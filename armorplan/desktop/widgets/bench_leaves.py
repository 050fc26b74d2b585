"""Opens what lies over the bench view for a while: all there is to read, the fitting, what is amiss."""

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from armorplan.app.fit_findings import FitFinding, finding_text
from armorplan.app.fit_looks import Look
from armorplan.desktop.bench_asking import AskingLeaf
from armorplan.desktop.bench_commits import BenchCommits
from armorplan.desktop.bench_desk import BenchDesk
from armorplan.desktop.bench_fits import BenchFits
from armorplan.desktop.bench_leaf import PanelLeaf, ReadingLeaf
from armorplan.desktop.bench_setting import SettingLeaf
from armorplan.desktop.bench_walk import Fits, Walk, paged, reading_pages
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.dry_fit_talk import talk_at
from armorplan.desktop.settings import Settings
from armorplan.desktop.widgets.bench_panels import Asks, BenchPanels
from armorplan.desktop.widgets.bench_sight import screen_facts


class BenchLeaves(QObject):
    """One leaf at a time; closing it gives the verbs, and the keyboard, back to the step.

    ``widened`` says that the view is to have the whole screen, or no longer.
    """

    widened = Signal()

    def __init__(
        self, bridge: Bridge, desk: BenchDesk, settings: Settings, fits: Fits, view: QWidget
    ) -> None:
        """Take what tells whether a page can be read at full size, too."""
        super().__init__(view)
        self._bridge, self._desk, self._settings = bridge, desk, settings
        self._fits, self._view = fits, view
        self.panels = BenchPanels(bridge, desk, settings, view)
        self.panels.left.connect(self.close)

    def close(self) -> None:
        """Show the step again."""
        self.panels.close()
        self._view.setFocus()
        self._desk.open_leaf(None)

    def read(self, commits: BenchCommits) -> None:
        """Read all there is of the step in hand, or go back to it."""
        card = self._desk.card
        if self._desk.leaf is not None or card is None:
            self.close()
            return
        closing = commits.closing(card)
        more = (closing.text, *closing.more) if closing else ()
        pages = (p for whole in reading_pages(card, more) for p in paged(whole, self._fits))
        walk = Walk(card.step, pages)
        self._desk.open_leaf(ReadingLeaf(walk, self.close, self._desk.turn))

    def fit(self) -> None:
        """Fit the view to the bench, or go back to the step."""
        if self._desk.leaf is not None:
            self.close()
            return

        leaf = SettingLeaf(
            self._settings,
            lambda: screen_facts(self._view, self._settings),
            close=self.close,
            turned=self._desk.turn,
            widened=self.widened.emit,
        )
        self._desk.open_leaf(leaf)

    def amiss(self, fits: BenchFits) -> None:
        """Ask what went wrong; at a look of a dry fit, what was found there."""
        look = fits.look_of(self._desk.card)
        if look is None:
            self.ask(Asks.AMISS)
        else:
            self._ask_found(look, fits)

    def ask(self, asks: Asks) -> None:
        """Let a panel ask what it asks; where something lies over the step already, go back to it."""
        if self._desk.leaf is None:
            panel = self.panels.open(asks)
            self._desk.open_leaf(PanelLeaf(panel, self.close, panel.go_on.isEnabled))
        else:
            self.close()

    def _ask_found(self, look: Look, fits: BenchFits) -> None:
        talk = talk_at(look, fits.seams_of(self._desk.card), self._bridge.session)
        leaf = AskingLeaf(
            talk, look.about, told=self._keep, close=self.close, turned=self._desk.turn
        )
        self._desk.open_leaf(leaf)

    def _keep(self, found: FitFinding) -> None:
        """Keep what was found with the build: it becomes a correction of the next cut."""
        card = self._desk.card
        if card is not None:
            said = self._bridge.session.way_back.found(card.step, finding_text(found))
            self._bridge.tell(said)
