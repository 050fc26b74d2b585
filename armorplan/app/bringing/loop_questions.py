"""Keepers whose two ends meet: one fastener through both holes closes the loop."""

from collections.abc import Mapping, Sequence
from math import dist

from armorplan.app.bringing.asking import Asking, choices, counted, listed
from armorplan.app.bringing.model import Question, QuestionKind
from armorplan.app.bringing.rows_taken import Row
from armorplan.app.bringing.splitting import Single, asked_of_all
from armorplan.geometry.areas import rectangle_mm
from armorplan.geometry.matching.model import Meeting, RowMatch
from armorplan.pattern.parts import Part, PartKind

MEET, FREE = "meet", "free"
_ENDS = 2
_ALIKE_MM = 0.3
_APART = 0.6
"""Two holes that lie further apart than this share of a keeper's length lie at its ends."""


def asked_loops(
    asking: Asking, rows: Sequence[Row], parts: Mapping[str, Part], names: Mapping[str, str]
) -> list[Row]:
    """Ask whether the ends of keepers with a hole at each end meet; return those that do."""
    used = {hole for row in rows for pair in row.pairs for hole in pair}
    loops = [match for part in parts.values() if (match := _loop(part, used)) is not None]
    if not loops:
        return []
    question = Question(
        id="loops",
        kind=QuestionKind.THREADS,
        text=f"{counted(len(loops), 'keeper')} with a hole at each end: "
        f"{listed([names[loop.first] for loop in loops])}. Do the two ends meet on one fastener?",
        choices=choices((MEET, "The ends meet"), (FREE, "Their holes stay free")),
        suggested=MEET,
        shapes=tuple(loop.first for loop in loops),
        settles=len(loops),
    )
    told = [
        Single(
            key=loop.first,
            text=f"Do the two ends of {names[loop.first]} meet on one fastener?",
            shapes=(loop.first,),
        )
        for loop in loops
    ]
    taken = asked_of_all(asking, question, told)
    return [Row(match=loop, outer=loop.first) for loop in loops if taken[loop.first] == MEET]


def _loop(part: Part, used: set[str]) -> RowMatch | None:
    """Return the two ends of a keeper as a match, where both have a hole that nothing uses."""
    free = [hole for hole in part.holes if hole.id not in used]
    if part.kind is not PartKind.KEEPER or len(free) != _ENDS:
        return None
    one, other = free
    far_mm = dist(one.centre, other.centre)
    are_alike = abs(one.diameter_mm - other.diameter_mm) <= _ALIKE_MM
    if not are_alike or far_mm < _APART * rectangle_mm(part.outline)[0]:
        return None
    return RowMatch(
        first=part.id,
        second=part.id,
        pairs=((one.id, other.id),),
        meeting=Meeting.HOLE,
        residual_mm=0.0,
        likely=1.0,
    )
