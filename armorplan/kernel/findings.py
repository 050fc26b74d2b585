"""A maker's mistake, found anywhere, is one kind of value: a Finding."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """How much a finding matters."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where in the maker's files something stands.

    ``key`` is the dotted path inside a TOML file (``parts.petal_mid.thickness_mm``) or the id of
    an SVG element; ``line`` counts from 1.
    """

    file: str
    line: int | None = None
    key: str | None = None

    def __str__(self) -> str:
        """Write the place as ``file:line (key)``."""
        spot = self.file if self.line is None else f"{self.file}:{self.line}"
        return spot if self.key is None else f"{spot} ({self.key})"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing found: what is wrong, with its numbers, and how to mend it.

    Attributes:
        code: a stable slug such as ``hole-outside-part``; never reused for something else.
        severity: error, warning or note.
        text: one sentence that says what is wrong, with the numbers in it.
        remedy: one sentence that says what would be fine, or what to do.
        about: ids of parts, holes, joints or steps it concerns.
        place: file, line and key, where there is one.
    """

    code: str
    severity: Severity
    text: str
    remedy: str
    about: tuple[str, ...] = ()
    place: Place | None = None

    def __str__(self) -> str:
        """Write the finding as one line for a person."""
        head = f"{self.place}: " if self.place and str(self.place) else ""
        return f"{head}{self.severity}: {self.text} {self.remedy} [{self.code}]"


def gravest(severities: Iterable[Severity]) -> Severity | None:
    """Return the gravest; ``None`` of none."""
    return min(severities, key=tuple(Severity).index, default=None)


def rank(severity: Severity | None) -> int:
    """Return a severity's place in a list that begins with the gravest; what is sound comes last."""
    return len(Severity) if severity is None else tuple(Severity).index(severity)


def gravest_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings with errors first and notes last, else in their order."""
    return tuple(sorted(findings, key=lambda finding: rank(finding.severity)))


def has_errors(findings: Iterable[Finding]) -> bool:
    """Tell whether any finding is an error."""
    return any(f.severity is Severity.ERROR for f in findings)
