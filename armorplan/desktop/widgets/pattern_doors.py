"""The ways from the bench to the windows in which a maker works at a pattern of their own."""

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.opening import Opener
from armorplan.desktop.widgets.open_asking import OpenAsking
from armorplan.desktop.widgets.window_actions import Slot


class PatternDoors(QObject):
    """Holds one door a window; each opens it once and brings it to the front after that."""

    def __init__(self, bridge: Bridge, opener: Opener, window: QWidget) -> None:
        super().__init__(window)
        self.asking = OpenAsking(opener, window)

    def slots(self) -> dict[str, Slot]:
        """Return what the actions of opening and of one's own pattern do, by their ids."""
        return {
            "open_folder": self.asking.ask_folder,
            "open_drawing": self.asking.ask_drawing,
            "open_shop": self.asking.ask_shop,
        }

    def close(self) -> None:
        """Close the windows and wait for what they have begun."""
