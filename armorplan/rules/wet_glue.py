"""What comes after a glue, for whatever reason, waits until it has set.

Whether a rivet beside a glued face comes before the glue or after it is often free. So it is looked
at last, when all that must be kept is known, the maker's own relations among them.
"""

from collections.abc import Iterator

from armorplan.relations.model import Before, BeforeAll, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.trade.dry_before_handling import after_drying, last_after_drying
from armorplan.steps.model import Step, StepKind


def waits_for_glue(relations: tuple[Relation, ...], facts: Facts) -> Iterator[Relation]:
    """Yield the drying of each glue before what hammers, bends or handles its parts afterwards."""
    next_to = _next_steps(relations)
    for glue in facts.work.of_kind(StepKind.GLUE):
        dry = facts.work.drying_of(glue.id)
        if dry is None:
            continue
        handling = {step.id: step for step in facts.handles_glued(glue)}
        yield from _covering(relations, facts, (glue, dry), handling)
        told = next_to.get(dry.id, ())
        later = _reached(next_to, glue.id, beyond=dry.id)
        for step in handling.values():
            if step.id in later and step.id not in told:
                relation = after_drying(facts, glue, dry, step)
                if relation is not None:
                    yield relation


def _covering(
    relations: tuple[Relation, ...],
    facts: Facts,
    glued: tuple[Step, Step],
    handling: dict[str, Step],
) -> Iterator[Relation]:
    """Yield the drying before the last of the steps that lay a cover over the glue."""
    glue, dry = glued
    covers = (r for r in relations if isinstance(r, BeforeAll) and r.first == glue.id)
    for relation in covers:
        several = relation.reason.binds and len(relation.of) > 1
        if several and relation.of <= handling.keys():
            yield last_after_drying(facts, dry, glue, relation.of)


def _next_steps(relations: tuple[Relation, ...]) -> dict[str, set[str]]:
    """Return the steps that must come after each step, as far as single relations say it."""
    found: dict[str, set[str]] = {}
    for relation in relations:
        if not relation.reason.binds:
            continue
        match relation:
            case Before(first=first, then=then):
                found.setdefault(first, set()).add(then)
            case BeforeAll(first=first, of=of) if len(of) == 1:
                found.setdefault(first, set()).update(of)
            case _:
                pass
    return found


def _reached(next_to: dict[str, set[str]], start: str, *, beyond: str) -> set[str]:
    """Return all steps after one, without those that come only after its drying."""
    found, open_ends = set[str](), [start]
    while open_ends:
        for step in next_to.get(open_ends.pop(), ()):
            if step not in found and step != beyond:
                found.add(step)
                open_ends.append(step)
    return found
