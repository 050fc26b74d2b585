"""The reason that decides, told so that it is not true: of another cover, or of a depth that is reached.

Only where the picture or the sentence itself shows it: what nobody can tell is no question.
"""

import re
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.geometry.reach.words import unlike_mm
from armorplan.geometry.told import begun
from armorplan.practice.drill import Because, Drill
from armorplan.rules.reaching import NEEDS
from armorplan.steps.naming import lowered, part_name

_NEAR_BY = 0.8
_LIES_ON = " lies on the head of "


@dataclass(frozen=True, slots=True, kw_only=True)
class Untrue:
    """A reason that is not true, and the sentence that says so with the true number."""

    text: str
    why_not: str


def untrue(derived: Derived, drill: Drill, because: Because) -> Untrue | None:
    """Return a reason that is not true of this piece; ``None`` where none can be made of it."""
    return _too_near(because) or _other_cover(derived, drill, because)


def _other_cover(derived: Derived, drill: Drill, because: Because) -> Untrue | None:
    """Return of a head that something covers: that another part of the exercise does."""
    true, lies_on, rest = because.text.partition(_LIES_ON)
    if not lies_on:
        return None
    known = {relation.reason.text for relation in derived.index.relations}
    own = {part for step in because.steps[:1] for part in derived.work.step(step).parts}
    for part in drill.parts:
        name = begun(part_name(derived.assembly, part))
        text = f"{name}{lies_on}{rest}"
        covers = any(one.startswith(f"{name}{lies_on}{rest.split(' (')[0]}") for one in known)
        if part not in own and name != true and not covers:
            why = f"'{name}{lies_on.rstrip()} …' is not true: {lowered(true)} does."
            return Untrue(text=text, why_not=why)
    return None


def _too_near(because: Because) -> Untrue | None:
    """Return of what no tool gets to: so near that the longest would; ``None`` of all else."""
    numbers = {number.name: number.value for number in because.exact}
    least_mm, reach_mm = numbers.get(NEEDS), numbers.get("reach")
    if least_mm is None or reach_mm is None or "costs more" in numbers or least_mm <= reach_mm:
        return None
    least, reach = unlike_mm(least_mm, reach_mm)
    near = f"{max(_NEAR_BY * reach_mm, 1.0):.0f}"
    why = (
        f"'At least {near} mm' is not true: a straight tool has to get in at least {least} mm here. "
        f"Were it {near} mm, one of {reach} mm would get there, and this joint could wait."
    )
    pattern = rf"(?<![\d.]){re.escape(least)}(?![\d.]*\d)"
    text, count = re.subn(pattern, near, because.text)
    return Untrue(text=text, why_not=why) if count else None
