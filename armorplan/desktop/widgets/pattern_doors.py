"""The ways from the bench to the windows in which a maker works at a pattern of their own."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.bring_core import BroughtIn
from armorplan.desktop.corrections_desk import PatternCorrections
from armorplan.desktop.draft_desk import DraftReader
from armorplan.desktop.opening import Opener
from armorplan.desktop.widgets.bring_door import BringDoor
from armorplan.desktop.widgets.corrections_door import CorrectionsDoor
from armorplan.desktop.widgets.open_asking import OpenAsking
from armorplan.desktop.widgets.wearer_door import WearerDoor
from armorplan.desktop.widgets.window_actions import Slot
from armorplan.store.places import own_wearers_path
from armorplan.workshop.shelf import Shelf


class PatternDoors(QObject):
    """Holds one door a window; each opens it once and brings it to the front after that."""

    def __init__(
        self,
        bridge: Bridge,
        opener: Opener,
        shelf: Callable[[], Shelf] | None,
        drafts: DraftReader | None,
        window: QWidget,
    ) -> None:
        super().__init__(window)
        self._bridge = bridge
        self.asking = OpenAsking(opener, window)
        self.bring = BringDoor(bridge, opener, BroughtIn(shelf), window) if shelf else None
        self.asking.drawn.connect(self._bring)
        own = (own_wearers_path(), window)
        self.wearer = WearerDoor(bridge, opener, shelf, drafts, own) if shelf and drafts else None
        taught = PatternCorrections(drafts) if drafts else None
        self.corrections = CorrectionsDoor(bridge, taught, window) if taught else None

    def slots(self) -> dict[str, Slot]:
        """Return what the actions of opening and of one's own pattern do, by their ids."""
        return {
            "open_folder": self.asking.ask_folder,
            "open_drawing": self.asking.ask_drawing,
            "open_shop": self.asking.ask_shop,
            "bring_in": self._bring,
            "fit_to_wearer": self._fit,
            "show_corrections": self._correct,
        }

    def _bring(self, drawing: Path | None = None) -> None:
        """Show where a drawing is brought in; read one that was dropped."""
        if self.bring is None:
            self._bridge.said.emit(self.tr("There are no catalogues here to bring it in with."))
        elif isinstance(drawing, Path):
            self.bring.bring(drawing)
        else:
            self.bring.show_page()

    def _fit(self) -> None:
        """Show where the pattern at the bench is fitted to a wearer."""
        if self.wearer is None:
            self._bridge.said.emit(self.tr("There are no patterns here to fit."))
        else:
            self.wearer.show_page()

    def _correct(self) -> None:
        """Show what dry fits ask of the pattern at the bench, and its versions."""
        if self.corrections is None:
            self._bridge.said.emit(self.tr("There are no patterns here to correct."))
        else:
            self.corrections.show_page()

    def close(self) -> None:
        """Close the windows and wait for what they have begun."""
        if self.bring is not None:
            self.bring.close()
        if self.wearer is not None:
            self.wearer.close()
        if self.corrections is not None:
            self.corrections.close()
