"""What is kept of a step or part in words, and of what something can be kept."""

from dataclasses import dataclass
from datetime import datetime, tzinfo

from PySide6.QtCore import QCoreApplication

from armorplan.app.rows import Selection
from armorplan.app.session_protocol import BenchSession
from armorplan.desktop.wording import clock_text
from armorplan.ledger.keepsakes import THE_BUILD, About, AboutKind, Keepsake, KeepsakeKind

UNITS = ("mm", "g", "°C", "%", "min")
"""Offered; any other word is kept as it is written."""
SIGNS = {KeepsakeKind.NOTE: "✎", KeepsakeKind.MEASUREMENT: "↔", KeepsakeKind.PHOTO: "▣"}
_KINDS = {
    KeepsakeKind.NOTE: "Note",
    KeepsakeKind.MEASUREMENT: "Measurement",
    KeepsakeKind.PHOTO: "Photo",
}
SHOWN = 3
"""So many are told at the step itself; the rest are counted."""


def _say(text: str) -> str:
    return QCoreApplication.translate("keepsakes", text)


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """Something that can be kept of, as a maker knows it."""

    about: About
    name: str


def subjects_of(session: BenchSession, selection: Selection) -> tuple[Subject, ...]:
    """Return of what something can be kept: the first chosen step, chosen parts, the whole build."""
    steps = tuple(
        Subject(about=step_about(step), name=session.why(step).title)
        for step in selection.steps[:1]
    )
    names = {part.id: part.name for part in session.diagram().parts}
    parts = tuple(
        Subject(about=About(kind=AboutKind.PART, id=part), name=names[part])
        for part in selection.parts
        if part in names
    )
    return (*steps, *parts, Subject(about=THE_BUILD, name=_say("The whole build")))


def step_about(step: str) -> About:
    """Return that something is kept of a step."""
    return About(kind=AboutKind.STEP, id=step)


def what_words(keepsake: Keepsake) -> str:
    """Say what is kept: the note, the number with its unit, what a photo shows."""
    if keepsake.value is None:
        return keepsake.text or _say(_KINDS[keepsake.kind])
    number = f"{keepsake.value:g} {keepsake.unit}".strip()
    return f"{keepsake.text}: {number}" if keepsake.text else number


def kept_words(keepsake: Keepsake, now: datetime, zone: tzinfo) -> str:
    """Say what is kept, of which kind, when it was kept and by whom."""
    when = clock_text(keepsake.at, now, zone)
    by = f"{when}, {keepsake.who}" if keepsake.who else when
    kind = f"{SIGNS[keepsake.kind]} {_say(_KINDS[keepsake.kind])}"
    what = what_words(keepsake)
    return f"{kind}, {by}" if what == _say(_KINDS[keepsake.kind]) else f"{kind}, {by}: {what}"


def at_step_words(kept: tuple[Keepsake, ...]) -> str:
    """Say at a step what is kept of it, the newest first; empty where nothing is."""
    if not kept:
        return ""
    newest = [f"{SIGNS[one.kind]} {what_words(one)}" for one in reversed(kept)][:SHOWN]
    more = len(kept) - len(newest)
    counted = [_say("and {0} more").format(more)] if more else []
    return _say("Kept here: {0}").format("; ".join((*newest, *counted)))


def number_of(text: str) -> float | None:
    """Return a typed number, with a point or a comma; ``None``: it is none."""
    try:
        return float(text.strip().replace(",", "."))
    except ValueError:
        return None
