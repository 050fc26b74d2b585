"""Pages that stand beside the bench in windows of their own: keys, help, strip, tool, air."""

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QDialog, QWidget

from armorplan.app.next_version import NextVersion
from armorplan.app.wishes import Wishes
from armorplan.desktop.air_desk import AirDesk
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.draft_desk import DraftReader
from armorplan.desktop.next_version_desk import NextVersionDesk
from armorplan.desktop.odds_desk import OddsDesk
from armorplan.desktop.settings import Settings
from armorplan.desktop.strip_fields import StripBench
from armorplan.desktop.trial_desk import TrialBench, TrialDesk
from armorplan.desktop.widgets.air_page import AirPage
from armorplan.desktop.widgets.away_panel import AwayPanel
from armorplan.desktop.widgets.bringing_up import bring_up
from armorplan.desktop.widgets.builds_page import BuildsPage
from armorplan.desktop.widgets.cut_panel import CutPanel
from armorplan.desktop.widgets.drill_answer_pieces import real_pieces
from armorplan.desktop.widgets.drill_page import PracticePanel
from armorplan.desktop.widgets.dry_fit_panel import DryFitPanel
from armorplan.desktop.widgets.help_page import HelpView
from armorplan.desktop.widgets.hindsight_panel import HindsightPanel
from armorplan.desktop.widgets.keepsake_panel import KeepsakePanel
from armorplan.desktop.widgets.keys_page import KeysPage
from armorplan.desktop.widgets.panel_page import Panel, PanelPage
from armorplan.desktop.widgets.printer_panel import PrinterPanel
from armorplan.desktop.widgets.side_page import SidePage
from armorplan.desktop.widgets.strip_page import StripPage
from armorplan.desktop.widgets.trial_page import TrialPage
from armorplan.desktop.widgets.way_back_panel import WayBackPanel
from armorplan.desktop.wish_desk import WishDesk


class Benches(NamedTuple):
    """What pages work with; a page whose bench is missing says so."""

    strips: StripBench | None
    trials: TrialBench | None
    airs: AirDesk | None = None
    wishes: Wishes | None = None
    drafts: DraftReader | None = None
    settings: Settings | None = None


class WindowPages(QObject):
    """Opens each page once, and brings it to the front where it is open already."""

    def __init__(self, bridge: Bridge, log_path: Path, benches: Benches, parent: QWidget) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._strips = benches.strips
        self._settings = benches.settings
        self._trials = TrialDesk(bridge, benches.trials, self) if benches.trials else None
        self._airs = benches.airs
        self._wishes = WishDesk(bridge, benches.wishes, self) if benches.wishes else None
        self._odds = OddsDesk(self)
        bridge.solver = benches.wishes.solver if benches.wishes else None
        # Panels find it at the bridge, here and in the bench view.
        reader = benches.drafts
        self._pattern = NextVersionDesk(bridge, NextVersion(reader)) if reader else None
        self._window = parent
        self._log_path = log_path
        self._open: dict[str, QDialog] = {}
        bridge.help_wanted.connect(self.show_help_at)

    def show_keys(self) -> None:
        """Show the page of keys."""
        self._front("keys", self._open.get("keys") or KeysPage(self._log_path, self._window))

    def show_strip(self) -> None:
        """Show the page of the test strip."""
        page = self._open.get("strip")
        if page is None and self._strips is not None:
            page = StripPage(self._strips, self._window)
        if page is None:
            self._bridge.said.emit(self.tr("There are no catalogues here to keep a strip in."))
        else:
            self._front("strip", page)

    def show_trial(self, step: str = "") -> None:
        """Show the page of a tool that was tried, at a step, the one in hand, or any joint."""
        chosen = step or next(iter(self._bridge.selection.steps), "")
        if self._trials is None:
            self._bridge.said.emit(self.tr("There are no catalogues here to keep a reach in."))
        else:
            page = self._open.get("trial") or TrialPage(self._trials, self._window)
            self._front("trial", page)
            self._trials.read(chosen)

    def show_air(self) -> None:
        """Show the page of the shop's air."""
        if self._airs is None:
            self._bridge.said.emit(self.tr("There is no workshop here to keep an air in."))
        else:
            self._front(
                "air", self._open.get("air") or AirPage(self._airs, self._bridge, self._window)
            )
            self._airs.read()

    def show_what_if(self) -> None:
        """Show the page of plans side by side."""
        if self._wishes is None:
            self._bridge.said.emit(self.tr("There is nothing here that could reckon it."))
            return
        page = self._open.get("what_if")
        self._front("what_if", page or SidePage(self._wishes, self._bridge, self._window))

    def show_way_back(self) -> None:
        """Ask what went wrong at what is chosen."""
        self._panel("way_back", WayBackPanel, self.tr("Way back"), (960, 680))

    def show_hindsight(self) -> None:
        """Ask before which step the chosen one should have come."""
        self._panel("hindsight", HindsightPanel, self.tr("Earlier next time"), (620, 460))

    def show_dry_fit(self) -> None:
        """Go through the dry fit of what is chosen."""
        self._panel("dry_fit", DryFitPanel, self.tr("Dry fit"), (1080, 720))

    def show_away(self) -> None:
        """Ask who is away, and until when."""
        self._panel("away", AwayPanel, self.tr("Somebody is away"), (560, 520))

    def show_cutting(self) -> None:
        """Show what is cut, and how it lies on a bed."""

        def make(bridge: Bridge) -> Panel:
            return CutPanel(bridge, self._settings)

        self._panel("cutting", make, self.tr("Cutting"), (1120, 720))

    def show_printer(self) -> None:
        """Show how the maker's printers draw."""
        self._panel("printer", PrinterPanel, self.tr("Scale of the printer"), (620, 460))

    def show_keepsakes(self) -> None:
        """Show what is kept of what is chosen."""
        title = self.tr("Notes, measurements and photos")
        self._panel("keepsakes", KeepsakePanel, title, (720, 620))

    def show_practice(self) -> None:
        """Set exercises of the build, tell how far one is, and what is signed off."""

        def make(bridge: Bridge) -> Panel:
            return PracticePanel(bridge, pieces=real_pieces(self._settings))

        self._panel("practice", make, self.tr("Practice"), (1180, 820))
        # Opened again it goes on with whoever practised, what was chosen and what was asked.
        self._open["practice"].setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, on=False)

    def _panel(
        self, name: str, make: Callable[[Bridge], Panel], title: str, size_px: tuple[int, int]
    ) -> None:
        """Show a panel in a window of its own, at what is chosen."""
        page = self._open.get(name) or PanelPage(make(self._bridge), title, size_px, self._window)
        self._front(name, page)
        if isinstance(page, PanelPage):
            page.panel.begin()

    def show_builds(self) -> None:
        """Show the page of the builds in hand."""
        page = self._open.get("builds") or BuildsPage(self._bridge, self._odds, self._window)
        self._front("builds", page)

    def end_jobs(self) -> None:
        """Wait for what is still being kept."""
        self._odds.close()
        if self._pattern is not None:
            self._pattern.close()
        for page in self._open.values():
            if isinstance(page, PanelPage):
                page.panel.close_jobs()
        if self._airs is not None:
            self._airs.close()
        if self._trials is not None:
            self._trials.close()
        if self._wishes is not None:
            self._wishes.close()

    def show_help(self) -> None:
        """Show the help where it was left."""
        self._front("help", self._help())

    def show_help_at(self, page_id: str) -> None:
        """Show a page of the help."""
        page = self._help()
        page.open_at(page_id)
        self._front("help", page)

    def _help(self) -> HelpView:
        page = self._open.get("help")
        return page if isinstance(page, HelpView) else HelpView(self._window)

    def _front(self, name: str, page: QDialog) -> None:
        if name not in self._open:
            self._open[name] = page
            page.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
            page.destroyed.connect(lambda: self._open.pop(name, None))
        bring_up(page)
