"""What of a build waits for what, as a day is planned: order, waits and windows between its steps."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.drills.last_made import keeping_last
from armorplan.relations.model import Apart, Before
from armorplan.steps.model import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """Somebody does ``then`` so many minutes after the end of ``first``.

    Attributes:
        least_min: at least; 0: at once, only not before.
        most_min: at the most; ``None``: at any time after.
        relation: what asks for it; behind a drying that which waits for the drying.
        waits: the drying between them; empty where none is a step of its own.
    """

    first: str
    then: str
    least_min: int
    most_min: int | None
    relation: Before
    waits: str = ""

    @property
    def is_wait(self) -> bool:
        """Whether time has to pass between the two."""
        return self.least_min > 0 or self.most_min is not None


class DayLinks:
    """The binding 'before' relations of a build that has an order, with what follows from them."""

    def __init__(self, derived: Derived) -> None:
        self._work = derived.work
        self._number = dict(derived.place)
        self._order = derived.order
        self._out: dict[str, list[Before]] = {}
        self._others: set[str] = set()
        self._partners: dict[str, set[str]] = {}
        for relation in derived.index.relations:
            if not relation.reason.binds or isinstance(relation, Apart):
                continue
            if isinstance(relation, Before):
                self._out.setdefault(relation.first, []).append(relation)
                self._pair_up(relation)
            else:
                self._others |= relation.of
                self._others |= {getattr(relation, name, "") for name in ("first", "then")}
        self._below = self._reached()
        self._above = self._turned()
        self._from: dict[str, tuple[Link, ...]] = {}

    def _pair_up(self, relation: Before) -> None:
        pair = (relation.first, relation.then)
        if relation.max_lag_min is not None and all(self._work.step(s).attended for s in pair):
            self._partners.setdefault(pair[0], set()).add(pair[1])
            self._partners.setdefault(pair[1], set()).add(pair[0])

    def partners(self, step: str) -> frozenset[str]:
        """Return what somebody has to do within a window before or after a step."""
        return frozenset(self._partners.get(step, ()))

    def _reached(self) -> list[int]:
        """Return by place the places of all that comes after a step, as bits."""
        below = [0] * len(self._order)
        for at in reversed(range(len(self._order))):
            for relation in self._out.get(self._order[at], ()):
                then = self._number[relation.then]
                below[at] |= 1 << then | below[then]
        return below

    def _turned(self) -> list[int]:
        above = [0] * len(self._order)
        for at in range(len(self._order)):
            for relation in self._out.get(self._order[at], ()):
                above[self._number[relation.then]] |= 1 << at | above[at]
        return above

    def is_plain(self, step: str) -> bool:
        """Tell whether nothing but 'before' relations binds a step."""
        return step not in self._others

    def is_apart(self, step: str, others: Iterable[str]) -> bool:
        """Tell whether a step may be done before and after all of these."""
        at = self._number[step]
        tied = self._below[at] | self._above[at] | 1 << at
        return not any(tied >> self._number[other] & 1 for other in others)

    def between(self, steps: Iterable[str]) -> tuple[str, ...]:
        """Return what somebody has to do after one of these steps and before another of them."""
        chosen = [self._number[step] for step in steps]
        below = above = mask = 0
        for at in chosen:
            below |= self._below[at]
            above |= self._above[at]
            mask |= 1 << at
        inside = below & above & ~mask
        found = (name for at, name in enumerate(self._order) if inside >> at & 1)
        return tuple(name for name in found if self._work.step(name).attended)

    def before(self, steps: Iterable[str]) -> tuple[str, ...]:
        """Return all that is done before these steps are begun, in order.

        Not these themselves, nor what comes after one of them and before another.
        """
        above = later = 0
        for at in (self._number[step] for step in steps):
            above |= self._above[at]
            later |= self._below[at] | 1 << at
        return tuple(n for at, n in enumerate(self._order) if (above & ~later) >> at & 1)

    def among(self, steps: Iterable[str]) -> tuple[Link, ...]:
        """Return one link for each pair of these steps, as tight as all that asks for it together."""
        chosen = set(steps)
        return tuple(
            link
            for step in sorted(chosen, key=self._number.__getitem__)
            for link in self.after(step)
            if link.then in chosen
        )

    def after(self, step: str) -> tuple[Link, ...]:
        """Return what somebody does after a step, nothing attended between, in order."""
        if step not in self._from:
            found: dict[str, Link] = {}
            for link in self._onward(step, step, 0, ""):
                known = found.get(link.then)
                found[link.then] = _tighter(known, link) if known else link
            self._from[step] = tuple(sorted(found.values(), key=lambda f: self._number[f.then]))
        return self._from[step]

    def _onward(self, first: str, at: str, waited_min: int, waits: str) -> Iterator[Link]:
        for relation in self._out.get(at, ()):
            then = self._work.step(relation.then)
            least = waited_min + relation.lag_min
            if then.attended:
                yield Link(
                    first=first,
                    then=then.id,
                    least_min=least,
                    most_min=None if waits else relation.max_lag_min,
                    relation=relation,
                    waits=waits,
                )
            else:
                yield from self._onward(first, then.id, least + then.minutes, waits or then.id)

    def waits(self, steps: Iterable[Step], *, most_min: int) -> tuple[Link, ...]:
        """Return the waits between these steps that are over within so many minutes."""
        chosen = {step.id for step in steps if step.attended}
        return tuple(
            link for link in self.among(chosen) if link.is_wait and link.least_min <= most_min
        )


@keeping_last
def links_of(derived: Derived) -> DayLinks:
    """Return what of a build waits for what."""
    return DayLinks(derived)


def _tighter(one: Link, other: Link) -> Link:
    limits = [link.most_min for link in (one, other) if link.most_min is not None]
    telling = max(one, other, key=lambda link: (link.least_min, link.most_min is not None))
    return Link(
        first=one.first,
        then=one.then,
        least_min=telling.least_min,
        most_min=min(limits, default=None),
        relation=telling.relation,
        waits=telling.waits,
    )
