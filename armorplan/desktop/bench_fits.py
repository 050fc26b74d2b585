"""Dry fits in the bench view: reckoned beside the window, gone through page by page."""

from PySide6.QtCore import QObject, Signal

from armorplan.app.bench_card import BenchCard
from armorplan.app.dry_fit_rows import DryFitPlan, PieceFit
from armorplan.app.fit_looks import Look
from armorplan.desktop.bench_walk import Fits, Walk, fit_pages, paged
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.dry_fit_desk import DryFitDesk
from armorplan.desktop.next_version_desk import next_version_desk
from armorplan.steps.model import StepKind


class BenchFits(QObject):
    """Holds where one stands in each fit of the build. ``planned`` says that one can be gone through."""

    planned = Signal()

    def __init__(self, bridge: Bridge, fits: Fits, parent: QObject) -> None:
        """Take what tells whether a page can be read at full size."""
        super().__init__(parent)
        self._bridge, self._fits = bridge, fits
        self._plan: DryFitPlan | None = None
        self._walks: dict[str, tuple[tuple[PieceFit, tuple[str, ...]], Walk]] = {}
        self._is_asked = False
        self.desk = DryFitDesk(bridge, self)
        self.desk.planned.connect(self._take)
        bridge.opened.connect(self._forget)

    def walk_of(self, card: BenchCard | None) -> Walk | None:
        """Return where one stands in a step's fit; ``None``: it is none, is over, or not reckoned yet."""
        if card is None or card.kind != StepKind.DRY_FIT or card.is_over:
            return None
        if not self._is_asked:
            self._is_asked = True
            self.desk.ask()
        fit = self._plan.of(card.step) if self._plan else None
        return self._walk(card.step, fit) if fit else None

    def look_of(self, card: BenchCard | None) -> Look | None:
        """Return the look that is asked on the page in hand, or ``None``."""
        known = self._walks.get(card.step) if card else None
        if known is None:
            return None
        (fit, _), walk = known
        wanted = walk.page.look
        return next((one for on in fit.rounds for one in on.looks if one.id == wanted), None)

    def seams_of(self, card: BenchCard | None) -> dict[str, str]:
        """Return the names of the seams of a fit, by their ids."""
        known = self._walks.get(card.step) if card else None
        return dict(known[0][0].seams) if known else {}

    def _walk(self, step: str, fit: PieceFit) -> Walk:
        known, told = self._walks.get(step), (fit, self._found(step))
        if known is not None and known[0] == told:
            return known[1]
        pages = (page for whole in fit_pages(*told) for page in paged(whole, self._fits))
        walk = Walk(step, pages)
        if known is not None:
            # A better answer came, or something was found: what was gone through is the same.
            walk.at = min(known[1].at, len(walk.pages) - 1)
        self._walks[step] = told, walk
        return walk

    def _found(self, step: str) -> tuple[str, ...]:
        """Return in words what a fit showed up to now."""
        pattern = next_version_desk(self._bridge)
        return pattern.found(step) if pattern else ()

    def _take(self, plan: DryFitPlan) -> None:
        self._plan = plan
        self.planned.emit()

    def _forget(self) -> None:
        self._plan, self._is_asked = None, False
        self._walks.clear()

    def close(self) -> None:
        """Wait for what is still reckoned."""
        self.desk.close()
