"""What was found at a look, asked one question at a time: what, where, how far off."""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace

from PySide6.QtCore import QCoreApplication

from armorplan.app.fit_looks import Look
from armorplan.desktop.way_back_talk import MM, NOT_KNOWN, USUAL_MM, Choice, Screen

KINDS: Mapping[str, str] = {
    "gap": "A gap",
    "overlap": "They overlap too far",
    "pinches": "It pinches",
    "short": "Too short",
    "long": "Too long",
    "turned": "Turned, or of the wrong hand",
}
"""What can be found, by the word it is kept under."""
MEASURED = frozenset({"gap", "overlap", "short", "long"})
"""Of these it is asked how far."""


def _say(text: str) -> str:
    return QCoreApplication.translate("dry_fit", text)


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What was found at a look of a fit: at which seam or part, of which kind, by how many mm."""

    look: str
    about: str = ""
    kind: str = ""
    mm: float = 0.0


def found_text(found: Found) -> str:
    """Return a finding as the ledger keeps it: one line of JSON."""
    return json.dumps(asdict(found), ensure_ascii=False, sort_keys=True)


class DryFitTalk:
    """Asks until a finding is told."""

    def __init__(self, look: Look, places: tuple[Choice, ...]) -> None:
        """Take the look, and the seams and parts it is about, the likeliest first."""
        self._places = places
        self._told = Found(look=look.id)
        self._at_mm = False

    def screen(self) -> Screen:
        """Return what is asked now."""
        if not self._told.kind:
            choices = tuple(Choice(key=kind, text=_say(text)) for kind, text in KINDS.items())
            return Screen(heading=_say("What was found?"), choices=choices)
        if not self._told.about:
            return Screen(heading=_say("Where?"), choices=self._places)
        choices = tuple(
            Choice(
                key=mm, text=_say("{0} mm").format(mm) if mm != NOT_KNOWN else _say("Not known")
            )
            for mm in MM
        )
        return Screen(heading=_say("How far?"), choices=choices, at=MM.index(USUAL_MM))

    def take(self, key: str) -> Found | None:
        """Take an answer; return the finding once all of it is told."""
        if not self._told.kind:
            only = self._places[0].key if len(self._places) == 1 else ""
            self._told = replace(self._told, kind=key, about=only)
        elif not self._told.about:
            self._told = replace(self._told, about=key)
        else:
            return replace(self._told, mm=float(key))
        is_told = self._told.about and self._told.kind not in MEASURED
        return self._told if is_told else None

    def back(self) -> bool:
        """Go back to the question before; tell whether there was one."""
        if not self._told.kind:
            return False
        if self._told.about and len(self._places) > 1:
            self._told = replace(self._told, about="")
        else:
            self._told = replace(self._told, kind="", about="")
        return True


def places_of(look: Look, names: Mapping[str, str]) -> tuple[Choice, ...]:
    """Return the seams a look is about, then its parts, as a maker knows them.

    Args:
        look: the look.
        names: of seams and parts, by sided id; what has none is not offered.
    """
    found = dict.fromkeys((*look.seams, *look.about))
    return tuple(Choice(key=one, text=names[one]) for one in found if one in names)
