"""What is punched after a coat or a wetting, for whatever reason, waits until that is dry.

Holes are usually punched before the first coat, which is free and easier. So it is looked at last,
when all that must be kept is known, the maker's own relations among them.
"""

from collections.abc import Iterator

from armorplan.relations.model import Before, BeforeAll, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.trade.dry_before_handling import punched_after_drying
from armorplan.steps.model import StepKind

_BY_ITSELF = frozenset({StepKind.GLUE, StepKind.OWN})
"""Of glue another rule tells; what an own step leaves wet, only its maker knows."""


def waits_to_be_punched(relations: tuple[Relation, ...], facts: Facts) -> Iterator[Relation]:
    """Yield the drying of what wets a part before a punching that has to come after the wetting."""
    nearest = _steps_before(relations)
    wet_ends = [pair for pair in facts.wet_ends() if pair[0].kind not in _BY_ITSELF]
    for punch in facts.work.of_kind(StepKind.PUNCH):
        earlier = _all_before(nearest, punch.id)
        for wet, dry in wet_ends:
            if wet.id in earlier and dry.id not in earlier:
                relation = punched_after_drying(facts, dry, punch)
                if relation is not None:
                    yield relation


def _steps_before(relations: tuple[Relation, ...]) -> dict[str, set[str]]:
    """Return the steps that must come before each step, as far as single relations say it."""
    found: dict[str, set[str]] = {}
    for relation in relations:
        if not relation.reason.binds:
            continue
        match relation:
            case Before(first=first, then=then):
                found.setdefault(then, set()).add(first)
            case BeforeAll(first=first, of=of) if len(of) == 1:
                found.setdefault(next(iter(of)), set()).add(first)
            case _:
                pass
    return found


def _all_before(nearest: dict[str, set[str]], step: str) -> set[str]:
    """Return all steps before one, near and far."""
    found, open_ends = set[str](), [step]
    while open_ends:
        for one in nearest.get(open_ends.pop(), ()):
            if one not in found:
                found.add(one)
                open_ends.append(one)
    return found
