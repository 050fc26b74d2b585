"""Gives findings that name a key of the pattern's text the line at which it stands."""

from collections.abc import Iterable
from dataclasses import replace

from armorplan.files.source import PATTERN_FILE, PatternFiles
from armorplan.files.tables import dotted
from armorplan.files.toml_lines import key_lines
from armorplan.kernel.findings import Finding


def with_lines(findings: Iterable[Finding], source: PatternFiles) -> tuple[Finding, ...]:
    """Return the findings, those about a key of ``pattern.toml`` with its line.

    Raises:
        UnreadableError: a file is not text.
    """
    given = tuple(findings)
    if not any(_lacks_line(finding) for finding in given):
        return given
    text = source.as_texts().get(PATTERN_FILE, "")
    lines = {dotted(path): line for path, line in key_lines(text).items()}
    return tuple(_placed(finding, lines) if _lacks_line(finding) else finding for finding in given)


def _lacks_line(finding: Finding) -> bool:
    place = finding.place
    return place is not None and place.file == PATTERN_FILE and place.line is None


def _placed(finding: Finding, lines: dict[str, int]) -> Finding:
    if finding.place is None or finding.place.key is None:
        return finding
    keys = finding.place.key.split(".")
    above = (".".join(keys[:count]) for count in range(len(keys), 0, -1))
    line = next((lines[key] for key in above if key in lines), None)
    return replace(finding, place=replace(finding.place, line=line))
