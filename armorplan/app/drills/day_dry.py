"""Which steps may share a day: nothing wet is handled in it, and nothing usual is put off into it.

No relation says that nobody punches wet leather: the build's own order never comes to it. A day puts
other steps off than that order does, so it is made of steps that relations keep apart from each other.
"""

from collections.abc import Set as AbstractSet

from armorplan.app.derived import Derived
from armorplan.app.drills.day_links import links_of
from armorplan.app.drills.wet_parts import wettings
from armorplan.relations.model import Before


class DryDays:
    """What of a build is wetted and handled, and what is usually done before what."""

    def __init__(self, derived: Derived) -> None:
        self._links = links_of(derived)
        self._wetted = {one.wet: one for one in wettings(derived.work)}
        self._usual: dict[str, set[str]] = {}
        for relation in derived.index.relations:
            if not isinstance(relation, Before) or relation in derived.not_kept:
                continue
            if not relation.reason.overruled:
                self._usual.setdefault(relation.first, set()).add(relation.then)

    def keeps_dry(self, steps: AbstractSet[str]) -> bool:
        """Tell whether relations keep each step from handling what another of these has wetted."""
        return all(
            not self._links.is_apart(step, (wet,))
            for wet in steps & self._wetted.keys()
            for step in steps & self._wetted[wet].handling
        )

    def may_follow(self, steps: AbstractSet[str], done: AbstractSet[str]) -> bool:
        """Tell whether steps can be left for a day before which these are done.

        Nothing that they handle is wet still, and none of them is usually done before one of those.
        """
        wet = (self._wetted[name] for name in done & self._wetted.keys())
        is_dry = all(one.dry in done or steps.isdisjoint(one.handling) for one in wet)
        return is_dry and all(done.isdisjoint(self._usual.get(step, ())) for step in steps)
