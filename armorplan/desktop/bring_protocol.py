"""What the window asks of bringing in a drawing, and how what goes wrong there is told."""

from pathlib import Path
from typing import Protocol

from armorplan.app.bringing.model import Bringing
from armorplan.desktop.bring_kept import Begun
from armorplan.desktop.bring_view import BringView
from armorplan.desktop.jobs import ShouldStop
from armorplan.kernel.errors import ArmorplanError, UnreadableError
from armorplan.kernel.findings import Finding, Severity


class BringCore(Protocol):
    """What reads a drawing, reckons what is asked of it, and writes the pattern; in any thread."""

    def read(self, begun: Begun, should_stop: ShouldStop) -> Bringing:
        """Read a drawing with the answers kept of it; UnreadableError where it cannot be read."""
        ...

    def glimpse(self, bringing: Bringing, should_stop: ShouldStop) -> BringView:
        """Return its lines, and what is asked of them, before what they make together is sought."""
        ...

    def look(self, bringing: Bringing, should_stop: ShouldStop) -> BringView:
        """Return what the answers make of it, and what is asked."""
        ...

    def write(self, bringing: Bringing, file: Path, folder: Path) -> tuple[str, ...]:
        """Write the pattern into a new or empty folder; return what it does not say yet.

        ArmorplanError where it cannot be written.
        """
        ...


def findings_of(error: Exception) -> tuple[Finding, ...]:
    """Return what to tell of an error, as findings."""
    if isinstance(error, UnreadableError) and error.findings:
        return error.findings
    text = str(error) if isinstance(error, ArmorplanError) else f"It went wrong: {error}."
    return (
        Finding(
            code="not-brought-in",
            severity=Severity.ERROR,
            text=text,
            remedy="Nothing was changed.",
        ),
    )
