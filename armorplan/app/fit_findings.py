"""What was found at a dry fit: told as JSON text for the ledger, and read from it again."""

import json
from dataclasses import asdict, dataclass, fields
from enum import StrEnum

from armorplan.kernel.errors import ArmorplanError
from armorplan.ledger.events import EventKind
from armorplan.ledger.state import LedgerState
from armorplan.ledger.told import Told

FARTHEST_MM = 200.0
"""No part of armour is out by more at a fit; what says so is mistyped."""


class FoundKind(StrEnum):
    """What can be wrong at a fit."""

    GAP = "gap"
    OVERLAP = "overlap"
    PINCHES = "pinches"
    SHORT = "short"
    LONG = "long"
    TURNED = "turned"
    NOT_ALONE = "not-alone"


_WORDS = {
    FoundKind.GAP: "a gap",
    FoundKind.OVERLAP: "too much overlap",
    FoundKind.PINCHES: "pinches",
    FoundKind.SHORT: "too short",
    FoundKind.LONG: "too long",
    FoundKind.TURNED: "turned, or of the wrong hand",
    FoundKind.NOT_ALONE: "the wearer cannot fasten it alone",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class FitFinding:
    """Something found at a look.

    Attributes:
        look: id of the look.
        about: sided id of the joint, seam or part it was found at.
        mm: how far off; 0: not measured, or not a matter of mm.
        note: what the maker says of it.
    """

    look: str
    about: str
    kind: FoundKind
    mm: float = 0.0
    note: str = ""


def found_words(found: FitFinding) -> str:
    """Say what was found: 'a gap of 4 mm', 'too short by 3 mm'."""
    lengthwise = found.kind in (FoundKind.SHORT, FoundKind.LONG)
    size = f" {'by' if lengthwise else 'of'} {found.mm:g} mm" if found.mm else ""
    return f"{_WORDS[found.kind]}{size}"


def finding_text(found: FitFinding) -> str:
    """Return a finding as the ledger keeps it."""
    return json.dumps(asdict(found), ensure_ascii=False, sort_keys=True)


def finding_from(text: str) -> FitFinding:
    """Return the finding that a text tells.

    Raises:
        ArmorplanError: it tells none.
    """
    try:
        told = json.loads(text)
        known = {
            field.name: told[field.name] for field in fields(FitFinding) if field.name in told
        }
        found = FitFinding(
            **{**known, "kind": FoundKind(told["kind"]), "mm": float(told.get("mm", 0))}
        )
    except (ValueError, TypeError, KeyError) as error:
        message = f"This is no finding of a fit: {text[:80]}"
        raise ArmorplanError(message) from error
    if not (found.about and 0 <= found.mm <= FARTHEST_MM):
        message = f"A finding names what it is about, and 0 to {FARTHEST_MM:g} mm: {text[:80]}"
        raise ArmorplanError(message)
    return found


def found_in(ledger: LedgerState) -> tuple[tuple[str, FitFinding], ...]:
    """Return the findings of a build, each with the id of its dry-fit step.

    What a newer program told in another form is left out.
    """
    return tuple((told.step, found) for told, found in told_in(ledger))


def told_in(ledger: LedgerState) -> tuple[tuple[Told, FitFinding], ...]:
    """Return the findings of a build with how each was told."""
    told = ((one, _read(one.text)) for one in ledger.said(EventKind.FOUND))
    return tuple((one, found) for one, found in told if found is not None)


def _read(text: str) -> FitFinding | None:
    try:
        return finding_from(text)
    except ArmorplanError:
        return None
