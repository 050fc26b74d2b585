"""What a maker is told of the wearer: girths a strap closes round, what carries the weight."""

from collections.abc import Container, Iterator

from armorplan.assembly.model import Side
from armorplan.pattern.parts import MadeOn
from armorplan.pattern.pattern import Pattern
from armorplan.steps.scene import Group


def girth_words(pattern: Pattern, parts: Container[str]) -> Iterator[str]:
    """Yield for each strap place with one of these parts the girths in mm it closes round."""
    for place in pattern.strap_places:
        if place.strap in parts or place.meets in parts:
            least_mm, most_mm = place.girth_mm
            yield f"{place.name[:1].upper()}{place.name[1:]}: closes {least_mm:g}–{most_mm:g} mm over the padding."


def hanging_words(group: Group) -> Iterator[str]:
    """Yield what each piece of a group is hung from before it is tried on."""
    pattern = group.scene.assembly.pattern
    pieces = {group.piece}
    if group.is_harness:
        pieces = {p for h in pattern.harnesses if h.id == group.piece for p in h.pieces}
    for hung in pattern.suspensions:
        here = hung.made_on is MadeOn.BOTH or group.side in (Side.SINGLE, hung.made_on.value)
        if hung.piece in pieces and here:
            yield f"Hang it from {hung.hangs_from} by the {pattern.part(hung.part).name} first."
