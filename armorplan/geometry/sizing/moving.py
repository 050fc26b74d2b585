"""What moves with the limb, after a change of size: inner leathers and slots as long as the bend asks."""

from collections.abc import Mapping
from dataclasses import replace

from armorplan.geometry.sizing.drafted import Drafted, rounded, told_of
from armorplan.geometry.sizing.leathers import held_along
from armorplan.geometry.sizing.model import Factors, Sized
from armorplan.geometry.sizing.slides import slid
from armorplan.geometry.sizing.stretches import Lengthening
from armorplan.pattern.parts import Hole, Part
from armorplan.pattern.pattern import Pattern


def with_moving(before: Pattern, made: Drafted, factors: Mapping[str, Factors]) -> Drafted:
    """Return a pattern whose inner leathers and slots let the limb bend as far as it was drawn to."""
    made = _with_leathers(before, made, factors)
    return replace(made, sized=_with_slots(made.sized, slid(before, made.sized.pattern)))


def _with_leathers(before: Pattern, made: Drafted, factors: Mapping[str, Factors]) -> Drafted:
    """Return a pattern with inner leathers as long between their rivets as the bend asks now."""
    grown = held_along(before, made.sized.pattern, factors)
    if not grown:
        return made
    parts = tuple(
        _along(before.part(part.id), grown[part.id]) if part.id in grown else part
        for part in made.sized.pattern.parts
    )
    pattern = replace(made.sized.pattern, parts=parts)
    told = [one for one in made.sized.parts if one.part not in grown]
    told += [told_of(before.part(one), pattern.part(one), factors[one]) for one in grown]
    holes = {hole.id: hole for part in parts for hole in part.holes}
    sized_now = replace(made.sized, pattern=pattern, parts=tuple(told), holes=holes)
    return Drafted(sized=sized_now, stretches={**made.stretches, **grown})


def _along(part: Part, stretch: Lengthening) -> Part:
    holes = tuple(replace(h, centre=rounded(stretch.at(h.centre))) for h in part.holes)
    outline = tuple(rounded(stretch.at(corner)) for corner in part.outline)
    return replace(part, outline=outline, holes=holes)


def _with_slots(made: Sized, slots: Mapping[str, Hole]) -> Sized:
    """Return a pattern with slots as long as the bend asks now."""
    parts = tuple(
        replace(part, holes=tuple(slots.get(hole.id, hole) for hole in part.holes))
        for part in made.pattern.parts
    )
    return replace(made, pattern=replace(made.pattern, parts=parts), holes={**made.holes, **slots})
