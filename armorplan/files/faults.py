"""Collects the findings of one reading, so that every fault is told at once."""

from collections.abc import Collection
from difflib import get_close_matches

from armorplan.kernel.findings import Finding, Place, Severity

_SHOWN_CHARS = 60
_GUESSES = 30
"""Nearest names are looked for this often in one reading; the search is slow on long lists."""
_GUESS_AMONG = 2_000


def brief(text: str) -> str:
    """Return the text short enough for a message, line breaks and control marks shown plainly."""
    plain = "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text[:1000])
    return plain if len(plain) <= _SHOWN_CHARS else f"{plain[: _SHOWN_CHARS - 1]}…"


_RANK = {severity: rank for rank, severity in enumerate(Severity)}


def finding_order(finding: Finding) -> tuple[int, bool, str, int]:
    """Sort findings as a maker mends them: errors first, then by file, TOML first, and line."""
    place = finding.place or Place(file="")
    return (
        _RANK[finding.severity],
        not place.file.endswith(".toml"),
        place.file,
        place.line or 0,
    )


class Faults:
    """The findings so far, in the order they were met."""

    def __init__(self) -> None:
        self._findings: dict[Finding, None] = {}
        self._guesses = _GUESSES

    def put(self, *findings: Finding) -> None:
        """Add findings made elsewhere; one that is already there is not told twice."""
        self._findings.update(dict.fromkeys(findings))

    def error(
        self, code: str, text: str, *, mend: str, place: Place, about: tuple[str, ...] = ()
    ) -> None:
        """Add a fault that keeps the file from being used."""
        self._add(Severity.ERROR, (code, text, mend), place=place, about=about)

    def warning(
        self, code: str, text: str, *, mend: str, place: Place, about: tuple[str, ...] = ()
    ) -> None:
        """Add something that is probably not meant."""
        self._add(Severity.WARNING, (code, text, mend), place=place, about=about)

    def note(
        self, code: str, text: str, *, mend: str, place: Place, about: tuple[str, ...] = ()
    ) -> None:
        """Add something worth knowing that may well be meant."""
        self._add(Severity.NOTE, (code, text, mend), place=place, about=about)

    def _add(
        self,
        severity: Severity,
        words: tuple[str, str, str],
        *,
        place: Place,
        about: tuple[str, ...],
    ) -> None:
        code, text, mend = words
        self.put(
            Finding(code=code, severity=severity, text=text, remedy=mend, about=about, place=place)
        )

    def nearest(self, word: str, known: Collection[str]) -> str | None:
        """Return the known name most like the word, or ``None``; bounded in work."""
        if self._guesses == 0 or len(word) > _SHOWN_CHARS or len(known) > _GUESS_AMONG:
            return None
        self._guesses -= 1
        return next(iter(get_close_matches(word, sorted(known), n=1)), None)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All findings, in the order a maker mends them."""
        return tuple(sorted(self._findings, key=finding_order))
