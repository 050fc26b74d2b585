"""Which steps an exercise may be of: those of the part or piece that is asked for."""

from armorplan.app.derived import Derived
from armorplan.practice.drill import Asked
from armorplan.practice.levels import topics


def steps_of_part(derived: Derived, asked: Asked) -> frozenset[str] | None:
    """Return the steps of the part or row that is asked for; ``None`` where none is."""
    if not asked.part:
        return None
    found = topics(derived.assembly, derived.work, asked)
    return frozenset(step for topic in found for step in topic.steps)


def steps_about(derived: Derived, asked: Asked) -> frozenset[str]:
    """Return the steps of the part or row that is asked for; of the piece; or all of them."""
    of_part = steps_of_part(derived, asked)
    if of_part is not None:
        return of_part
    return frozenset(s.id for s in derived.work.steps if asked.piece in ("", s.piece))
