"""The number of an exercise: with its kind, level and piece it makes the very same one again.

Most exercises are made for no reason in particular: their number is their seed. One that was chosen
for a reason has to be made for that again, so its number tells which: the reason's place in a list,
times ``NUMBERED``, and the seed. Nobody reads the reason off it, and it is one whole number to write
down.
"""

from dataclasses import replace

from armorplan.app.derived import Derived
from armorplan.app.mending import WAY_BACK
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import NUMBERED, Asked
from armorplan.practice.reason_names import REASON_NAMES
from armorplan.relations.model import OWN
from armorplan.rules.registry import all_rules


def number_of(derived: Derived, asked: Asked) -> int:
    """Return the number of an exercise of a build."""
    seed = asked.seed % NUMBERED
    if not asked.focus:
        return seed
    reasons = _reasons(derived)
    # A reason that this build no longer tells steers nothing either.
    return NUMBERED * (reasons.index(asked.focus) + 1) + seed if asked.focus in reasons else seed


def numbered(derived: Derived, number: int, like: Asked) -> Asked:
    """Return what is asked by a number, of the kind, level, piece and part of another exercise.

    Raises:
        ArmorplanError: this build has no exercise of such a number.
    """
    at, seed = divmod(number, NUMBERED)
    reasons = _reasons(derived)
    if not 0 <= at <= len(reasons):
        raise ArmorplanError(
            f"There is no exercise {number} of this build. Type the number as it was shown, or one "
            f"from 0 to {NUMBERED - 1}."
        )
    return replace(like, seed=seed, focus=reasons[at - 1] if at else "")


def _reasons(derived: Derived) -> tuple[str, ...]:
    """Return all that an exercise may be made for: of every build the same, then its maker's own."""
    own = {relation.reason.rule for relation in derived.relations}
    known = (*sorted(rule.code for rule in all_rules()), *REASON_NAMES, WAY_BACK)
    return (*dict.fromkeys(known), *sorted(rule for rule in own if rule.startswith(OWN)))
