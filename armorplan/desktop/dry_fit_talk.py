"""What was found at a look, asked one question at a time: what, where, how far off."""

from collections.abc import Mapping

from PySide6.QtCore import QCoreApplication

from armorplan.app.fit_findings import FitFinding, FoundKind
from armorplan.app.fit_looks import Look, LookKind
from armorplan.app.rows import ChecklistRow, Grouping
from armorplan.app.session_protocol import BenchSession
from armorplan.desktop.checklist_rows import is_step
from armorplan.desktop.way_back_places import seam_of
from armorplan.desktop.way_back_talk import MM, USUAL_MM, Choice, Screen, mm_choices

_KINDS = {
    FoundKind.GAP: "A gap",
    FoundKind.OVERLAP: "They overlap too far",
    FoundKind.PINCHES: "It pinches",
    FoundKind.SHORT: "Too short",
    FoundKind.LONG: "Too long",
    FoundKind.TURNED: "Turned, or of the wrong hand",
    FoundKind.NOT_ALONE: "The wearer cannot fasten it alone",
}
MEASURED = frozenset((FoundKind.GAP, FoundKind.OVERLAP, FoundKind.SHORT, FoundKind.LONG))
"""Of these it is asked how far."""
WHOLE = "whole"
"""Stands for the whole of the piece, where a look is about nothing that has a name."""


def _say(text: str) -> str:
    return QCoreApplication.translate("dry_fit", text)


class DryFitTalk:
    """Asks until a finding is told."""

    def __init__(self, look: Look, places: tuple[Choice, ...]) -> None:
        """Take the look, and where it may have been found, the likeliest first."""
        self._look = look
        self._places = places or (Choice(key=WHOLE, text=_say("The whole of it")),)
        self._kind: FoundKind | None = None
        self._about = ""

    def screen(self) -> Screen:
        """Return what is asked now."""
        if self._kind is None:
            kinds = tuple(
                Choice(key=kind.value, text=_say(_KINDS[kind])) for kind in self._kinds()
            )
            return Screen(heading=_say("What was found?"), choices=kinds)
        if not self._about:
            return Screen(heading=_say("Where?"), choices=self._places)
        return Screen(heading=_say("How far?"), choices=mm_choices(), at=MM.index(USUAL_MM))

    def _kinds(self) -> tuple[FoundKind, ...]:
        """Return what may be wrong: that nobody fastens it alone is asked where that is looked at."""
        others = tuple(kind for kind in FoundKind if kind is not FoundKind.NOT_ALONE)
        is_asked = self._look.kind is LookKind.FASTEN
        return (FoundKind.NOT_ALONE, *others) if is_asked else others

    def take(self, key: str) -> FitFinding | None:
        """Take an answer; return the finding once all of it is told."""
        if self._kind is None:
            self._kind = FoundKind(key)
            self._about = self._places[0].key if len(self._places) == 1 else ""
        elif not self._about:
            self._about = key
        else:
            return self._told(float(key))
        is_told = self._about and self._kind not in MEASURED
        return self._told(0.0) if is_told else None

    def _told(self, mm: float) -> FitFinding:
        kind = self._kind or FoundKind.GAP
        return FitFinding(look=self._look.id, about=self._about, kind=kind, mm=mm)

    def back(self) -> bool:
        """Go back to the question before; tell whether there was one."""
        if self._kind is None:
            return False
        if self._about and len(self._places) > 1:
            self._about = ""
        else:
            self._kind, self._about = None, ""
        return True


def talk_at(look: Look, seams: Mapping[str, str], session: BenchSession) -> DryFitTalk:
    """Return what asks of a finding at a look; ``seams``: the names of those of its fit, by id."""
    names = {part.id: part.name for part in session.diagram().parts} | dict(seams)
    return DryFitTalk(look, places_of(look, names, session.checklist(Grouping.PIECE)))


def places_of(
    look: Look, names: Mapping[str, str], rows: tuple[ChecklistRow, ...]
) -> tuple[Choice, ...]:
    """Return where something may be found at a look: its seams, their joints one by one, its parts.

    Args:
        look: the look.
        names: of seams and parts, by sided id; what has none is not offered.
        rows: the checklist, whose trays say which joints a seam has.
    """
    joints = {joint: row.title for row in rows if is_step(row) for joint in row.joints[:1]}
    by_step = {row.id: row.joints[0] for row in rows if is_step(row) and row.joints}
    trays = {seam_of(row): row.steps for row in rows if seam_of(row)}
    singly = (by_step[s] for seam in look.seams for s in trays.get(seam, ()) if s in by_step)
    known = joints | dict(names)
    found = dict.fromkeys((*look.seams, *singly, *look.about))
    return tuple(Choice(key=one, text=known[one]) for one in found if one in known)
