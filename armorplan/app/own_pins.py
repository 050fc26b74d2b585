"""How many pins a maker has: said in the window, kept in the maker's own pins, and read from there."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from armorplan.app.own_catalogue import keep_decided, keep_values
from armorplan.files.catalogue import PINS_FILE
from armorplan.kernel.errors import ArmorplanError
from armorplan.workshop.pins import PinEntry, are_counted
from armorplan.workshop.shelf import Shelf


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnPins:
    """Fulfils ``bridge.PinBench``; may be asked in any thread.

    Attributes:
        folder: of the maker's own catalogues.
        shelf: reads the shelf as it is now.
    """

    folder: Path
    shelf: Callable[[], Shelf]

    def held(self) -> tuple[PinEntry, ...]:
        """Return the sizes of pins, and how many of each are owned.

        Raises:
            UnreadableError: the own catalogues have faults.
        """
        return self.shelf().pins

    def keep(self, pin: str, owned: int) -> str:
        """Write how many pins of a size there are, and say so; all else in the file stays.

        Raises:
            UnreadableError: the own catalogues have faults; nothing is written.
            ArmorplanError: there is no such size, or the file cannot be written.
        """
        held = self.held()
        size = next((one for one in held if one.id == pin), None)
        if size is None:
            message = f"There is no size of pin '{pin}' any more. Nothing was kept."
            raise ArmorplanError(message)
        keep_values(self.folder, PINS_FILE, pin, {"owned": owned})
        first = "" if are_counted(held) else " Sizes of which you say no number count as none."
        return f"Kept: {owned or 'none'} of {size.name}.{first}"

    def forget(self) -> str:
        """Take all numbers out again, so that as many as wanted are reckoned with, and say so.

        Raises:
            UnreadableError: the own catalogues have faults; nothing is written.
            ArmorplanError: the file cannot be written.
        """
        for size in self.held():
            if size.owned is not None:
                keep_decided(self.folder, PINS_FILE, size.id, lambda: {"owned": None})
        return "Kept: as many pins of each size as are wanted."
