"""What the form of the shop's air says of a fault and of a logger's file, as rich text."""

from html import escape

from armorplan.files.climate_csv import AirLog
from armorplan.kernel.findings import Finding


def fault_html(text: str) -> str:
    """Return a fault with its mark."""
    return f"<p><b>\N{HEAVY MULTIPLICATION X}</b> {escape(text)}</p>"


def fan_words(words: str, speed_m_s: float) -> str:
    """Return how air moves, with its speed."""
    return f"{words} ({speed_m_s:g} m/s)"


def lines(*texts: str) -> str:
    """Return texts below each other, without those that say nothing."""
    return "\n".join(text for text in texts if text)


def log_html(log: AirLog, words: str) -> str:
    """Return what the form says, and below it what was found in a file."""
    said = "".join(f"<p>{escape(line)}</p>" for line in words.splitlines() if line)
    found = "".join(_line(finding) for finding in log.findings)
    return f"{said}<ul>{found}</ul>" if found else said


def _line(finding: Finding) -> str:
    return f"<li>{escape(finding.text)} {escape(finding.remedy or '')}</li>"
