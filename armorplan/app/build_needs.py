"""What one build needs, reckoned once for each tray: nothing at the bench changes it."""

from threading import Lock

from armorplan.app.derived import Derived
from armorplan.app.needs_rows import NeedsPage
from armorplan.app.needs_sections import needs_of, needs_page, tray_named
from armorplan.needs.model import Needs
from armorplan.sheets.needs_csv import needs_csv


class BuildNeeds:
    """Keeps the take-off of a build; may be asked from several threads."""

    def __init__(self) -> None:
        self._of: Derived | None = None
        self._kept: dict[str, Needs] = {}
        self._lock = Lock()

    def page(self, derived: Derived, tray: str) -> NeedsPage:
        """Return the take-off in words, for the tray with this id or the shop's first."""
        return needs_page(self._needs(derived, tray), derived.shop.trays)

    def csv(self, derived: Derived, tray: str) -> str:
        """Return the take-off as a table of figures."""
        return needs_csv(self._needs(derived, tray))

    def _needs(self, derived: Derived, tray: str) -> Needs:
        chosen = tray_named(derived.shop, tray)
        with self._lock:
            if self._of is not derived:
                self._of, self._kept = derived, {}
            if chosen.id not in self._kept:
                self._kept[chosen.id] = needs_of(derived, chosen)
            return self._kept[chosen.id]
