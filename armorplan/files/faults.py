"""Collects the findings of one reading, so that every fault is told at once."""

from collections.abc import Collection, Iterable
from difflib import get_close_matches

from armorplan.kernel.findings import Finding, Place, Severity

_SHOWN_CHARS = 60
_GUESSES = 30
"""Nearest names are looked for this often in one reading; the search is slow on long lists."""
_GUESS_AMONG = 2_000


_SHOWN_NAMES = 6
_LIKENESS = 0.4
"""Names less like a word than this stand by the alphabet in a list of what there is."""
_LEAST_CHARS = 3
"""A word shorter than this lies in too many names to tell which of them is meant."""


def listed(names: Iterable[str], *, most: int = _SHOWN_NAMES) -> str:
    """Return the first few names and how many more there are; 'none yet' where there is none."""
    known = list(names)
    few = ", ".join(brief(name) for name in known[:most])
    return f"{few} and {len(known) - most} more" if len(known) > most else few or "none yet"


def brief(text: str) -> str:
    """Return the text short enough for a message, line breaks and control marks shown plainly."""
    plain = "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text[:1000])
    return plain if len(plain) <= _SHOWN_CHARS else f"{plain[: _SHOWN_CHARS - 1]}…"


_RANK = {severity: rank for rank, severity in enumerate(Severity)}
_MENDED_FIRST = frozenset({"unknown-table"})
"""What a maker looks for below may only be missing because of these."""


def finding_order(finding: Finding) -> tuple[int, bool, bool, str, int]:
    """Sort findings as a maker mends them: errors first, then by file, TOML first, and line."""
    place = finding.place or Place(file="")
    return (
        _RANK[finding.severity],
        finding.code not in _MENDED_FIRST,
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
        """Return the known name most like the word, or ``None``; bounded in work.

        Where none is much like it, the shortest that begins with it or holds it, or is held by it.
        """
        if not self._may_guess(word, known):
            return None
        ordered = sorted(known)
        alike = get_close_matches(word, ordered, n=1)
        if alike or len(word) < _LEAST_CHARS:
            return next(iter(alike), None)
        around = [n for n in ordered if word in n or (len(n) >= _LEAST_CHARS and n in word)]
        return min(around, key=lambda n: (not n.startswith(word), len(n)), default=None)

    def nearest_first(self, word: str, known: Collection[str]) -> list[str]:
        """Return all known names, those most like the word first; bounded in work."""
        ordered = sorted(known)
        if not self._may_guess(word, known):
            return ordered
        alike = get_close_matches(word, ordered, n=_SHOWN_NAMES, cutoff=_LIKENESS)
        return [*alike, *(name for name in ordered if name not in alike)]

    def _may_guess(self, word: str, known: Collection[str]) -> bool:
        if self._guesses == 0 or len(word) > _SHOWN_CHARS or len(known) > _GUESS_AMONG:
            return False
        self._guesses -= 1
        return True

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All findings, in the order a maker mends them."""
        return tuple(sorted(self._findings, key=finding_order))
