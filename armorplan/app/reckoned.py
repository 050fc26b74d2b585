"""What steps were reckoned to take by the catalogue, kept with their ticks to learn from."""

from collections.abc import Iterable

from armorplan.app.derived import Derived
from armorplan.ledger.hands import Reckoned, reckoned_text
from armorplan.pattern.choosing import cut_by_machine
from armorplan.steps.model import Step, StepKind
from armorplan.steps.scene import BY_MACHINE
from armorplan.workshop.learned_hands import hand_factor, hands_kind


def reckoned_texts(derived: Derived, steps: Iterable[str]) -> dict[str, str]:
    """Return by step the text of its tick, for steps whose minutes can be learned."""
    found: dict[str, str] = {}
    known = _learnable(derived)
    for step_id in steps:
        step = derived.work.step(step_id)
        kind = learned_kind(derived, step)
        if kind in known:
            minutes = derived.exact_min(step) / hand_factor(derived.shop.hands, kind)
            found[step_id] = reckoned_text(Reckoned(kind=kind, minutes=round(minutes, 3)))
    return found


def learned_kind(derived: Derived, step: Step) -> str:
    """Return the name that a step's minutes are learned by; empty where hands do not set them."""
    if not step.attended or step.every_min:
        return ""
    machine = step.kind is StepKind.CUT and cut_by_machine(derived.pattern)
    return BY_MACHINE if machine else step.kind.value


def _learnable(derived: Derived) -> frozenset[str]:
    durations = (entry.kind for entry in derived.shelf.durations)
    coats = (hands_kind(entry) for entry in derived.shelf.treatments)
    return frozenset((*durations, *coats)) - {"", StepKind.WATCH.value}
