"""The few exceptions of Armorplan; expected trouble is a Finding, not an exception."""

from armorplan.kernel.findings import Finding


class ArmorplanError(Exception):
    """Base of all errors a maker may see; its text is one clear message."""


class UnreadableError(ArmorplanError):
    """A file or folder that cannot be read at all, with the findings that say why."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        self.findings = findings
        super().__init__("\n".join(str(f) for f in findings))


class FaultyPatternError(UnreadableError):
    """A pattern whose files can be read, but whose faults leave nothing to build."""


class WorkshopError(ArmorplanError):
    """The workshop file cannot be opened or written."""


class SolverLostError(ArmorplanError):
    """The solver's process died or did not answer; the serial plan still stands."""


class StoppedError(ArmorplanError):
    """Work was no longer wanted and ended before its time; nothing is kept of it."""

    def __init__(self) -> None:
        super().__init__("This was stopped before it was done.")
