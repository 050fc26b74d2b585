"""Steps as a maker names them: by kind and subject, with no build, piece or side in the name."""

from collections.abc import Iterable
from difflib import get_close_matches

from armorplan.assembly.model import Side
from armorplan.rules.facts import Facts
from armorplan.steps.model import Step
from armorplan.steps.naming import kind_slug, plain_subject

ALL = "*"
SEAM = "seam"
_OFFERED = 3


def step_name(step: Step) -> str:
    """Return what a maker calls a step: ``rivet/row_1`` for the one on the left and on the right."""
    return f"{kind_slug(step.kind)}/{plain_subject(step)}"


class StepNames:
    """Finds the steps of one build by the names a maker writes."""

    def __init__(self, facts: Facts) -> None:
        self._work = facts.work
        self._named: dict[str, list[Step]] = {}
        for step in facts.work.steps:
            self._named.setdefault(step_name(step), []).append(step)
        for seam in facts.assembly.seams:
            row = (facts.work.setting(joint) for joint in seam.joints)
            self._named.setdefault(f"{SEAM}/{seam.seam.id}", []).extend(s for s in row if s)

    def steps(self, name: str) -> tuple[Step, ...]:
        """Return the steps of a name, all of a kind for ``rivet/*``; empty where none has it."""
        kind, _, subject = name.partition("/")
        if subject != ALL:
            return tuple(self._named.get(name, ()))
        if kind == SEAM:
            seams = (found for known, found in self._named.items() if known.startswith(f"{SEAM}/"))
            return tuple(step for found in seams for step in found)
        return tuple(step for step in self._work.steps if kind_slug(step.kind) == kind)

    def with_drying(self, name: str) -> frozenset[str]:
        """Return the ids of a name's steps and of the dryings that follow them."""
        found = {step.id for step in self.steps(name)}
        dryings = (self._work.drying_of(step) for step in found)
        return frozenset(found | {dry.id for dry in dryings if dry})

    def nearest(self, name: str) -> tuple[str, ...]:
        """Return known names most like this one, the most alike first."""
        known = sorted({*self._named, *(f"{n.partition('/')[0]}/{ALL}" for n in self._named)})
        return tuple(get_close_matches(name, known, n=_OFFERED))


def on_side(steps: Iterable[Step], side: Side) -> tuple[Step, ...]:
    """Return the steps worked on a side, and those that have none."""
    return tuple(step for step in steps if step.side in (side, Side.SINGLE))
