"""Steps as a maker names them: by kind and subject, with no build, piece or side in the name."""

from collections.abc import Iterable
from difflib import get_close_matches

from armorplan.assembly.model import Side
from armorplan.pattern.wearing import CheckTime
from armorplan.rules.facts import Facts
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import kind_slug, plain_subject

ALL = "*"
SEAM = "seam"
_OFFERED = 3


def step_name(step: Step) -> str:
    """Return what a maker calls a step: ``rivet/row_1`` for the one on the left and on the right."""
    return f"{kind_slug(step.kind)}/{plain_subject(step)}"


class StepNames:
    """Finds the steps of one build by the names a maker writes.

    A name holds for both sides; with the side in it, as ids show it, it means that side's step. A
    treatment of several pieces is put on each by itself: its own name means all of them.
    """

    def __init__(self, facts: Facts) -> None:
        self._work = facts.work
        self._named: dict[str, list[Step]] = {}
        self._sided: dict[str, list[Step]] = {}
        spanning = _spanning(facts)
        for step in facts.work.steps:
            name, tail = step_name(step), "/".join(step.id.split("/")[-2:])
            self._named.setdefault(name, []).append(step)
            if tail != name:
                self._sided.setdefault(tail, []).append(step)
            for long, short in spanning.items():
                if f"{long}." in f"{name}.":
                    self._named.setdefault(name.replace(long, short, 1), []).append(step)
                    self._sided.setdefault(tail.replace(long, short, 1), []).append(step)
        for seam in facts.assembly.seams:
            row = [s for joint in seam.joints if (s := facts.work.setting(joint))]
            self._named.setdefault(f"{SEAM}/{seam.seam.id}", []).extend(row)
            if seam.id != seam.seam.id:
                self._sided[f"{SEAM}/{seam.id}"] = row

    def steps(self, name: str) -> tuple[Step, ...]:
        """Return the steps of a name, all of a kind for ``rivet/*``; empty where none has it."""
        kind, _, subject = name.partition("/")
        if subject != ALL:
            return tuple(self._named.get(name, self._sided.get(name, ())))
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


def _spanning(facts: Facts) -> dict[str, str]:
    """Return what the treatments of several pieces are called in ids, and in the pattern."""
    found = {}
    for sided in facts.assembly.treatments:
        short = f"/{sided.treatment.id}"
        long = f"{short}.{sided.piece}"
        if sided.id == sided.side.tag(long[1:]):
            found[long] = short
    return found


_ON_PAPER = (StepKind.MEASURE, StepKind.MOCK_UP)


def on_side(steps: Iterable[Step], side: Side) -> tuple[Step, ...]:
    """Return the steps worked on a side, and those that have none or are done once for a pair."""
    found = tuple(steps)
    here = tuple(step for step in found if step.side in (side, Side.SINGLE))
    return here or tuple(step for step in found if _for_both(step))


def _for_both(step: Step) -> bool:
    """Tell whether a step serves a pair: its print, its card, and what is looked for in card."""
    in_card = step.kind is StepKind.CHECK and step.tray.endswith(f":{CheckTime.MOCK_UP}")
    return in_card or step.kind in _ON_PAPER
