"""In which order the steps of a build stand on its bench sheet: by the clock, where it has one."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from itertools import groupby

from armorplan.app.derived import Derived
from armorplan.app.sheet_times import SheetTimes
from armorplan.app.trays import tray_title
from armorplan.relations.model import AfterAny, Before, BeforeAll, Together
from armorplan.steps.model import SETS_JOINT, Step

_Begun = tuple[datetime | None, int]


def sheet_order(derived: Derived, times: SheetTimes) -> tuple[Step, ...]:
    """Return the steps as a sheet tells them; without dates as the pattern's order has them.

    With dates each run begins no earlier than the one before it. Of one day work alike stands
    together, where nothing forbids it and no window closes meanwhile.
    """
    steps = tuple(map(derived.work.step, derived.order))
    if not times.lines:
        return steps
    order = _Order(derived, times)
    return tuple(step for stretch in order.stretches(steps) for step in order.gathered(stretch))


class _Order:
    """Puts the steps of one build in order."""

    def __init__(self, derived: Derived, times: SheetTimes) -> None:
        self._derived = derived
        self._times = times
        self._behind = _behind(derived)
        self._titles = {step.id: tray_title(derived, (step,)) for step in derived.work.steps}

    def stretches(self, steps: Sequence[Step]) -> Iterator[list[Step]]:
        """Yield steps by the clock: those of a day, or those that are done in one go.

        What has a window, what opens one, and what sets joints stands alone: nothing is moved
        across it. Reach and the least effort hang on the order of joints.
        """
        begun = self._begun(steps)
        bound = self._bound()

        def held(step: Step) -> tuple[str, object]:
            if step.id in bound:
                return "in one go", bound[step.id]
            if step.kind in SETS_JOINT or self._times.window(step):
                return "at its hour", step.id
            at, _ = begun[step.id]
            return "on its day", at.astimezone(self._times.zone).date() if at else None

        by_clock = sorted(steps, key=lambda step: _at(begun[step.id]))
        for _, stretch in groupby(by_clock, key=held):
            yield list(stretch)

    def gathered(self, steps: Sequence[Step]) -> Iterator[Step]:
        """Yield the steps of a stretch: the earliest, then what may stand with it in one run."""
        waiting = {step.id: step for step in steps}
        titles = self._titles
        while waiting:
            title = titles[next(iter(waiting))]
            passed: set[str] = set()
            for step in tuple(waiting.values()):
                if titles[step.id] == title and passed.isdisjoint(self._behind.get(step.id, ())):
                    yield waiting.pop(step.id)
                else:
                    passed.add(step.id)

    def _bound(self) -> dict[str, object]:
        """Return with what a step stands: by itself what opens a window, works done in one go."""
        found: dict[str, object] = {}
        for relation in self._derived.relations:
            if isinstance(relation, Together) and len({self._titles[x] for x in relation.of}) > 1:
                found |= dict.fromkeys(relation.of, relation.of)
        opening = (wait.first for wait in self._derived.waits if wait.max_lag_min is not None)
        return found | {first: first for first in opening}

    def _begun(self, steps: Sequence[Step]) -> dict[str, _Begun]:
        """Return when each step begins and its place in the order.

        What the plan does not hold stands right behind what has to come before it.
        """
        found: dict[str, _Begun] = {}
        for place, step in enumerate(steps):
            lines = self._times.of(step)
            firsts = (found.get(before, (None, 0))[0] for before in self._behind.get(step.id, ()))
            known = [first for first in firsts if first is not None]
            at = lines[0].start_at if lines else max(known, default=None)
            found[step.id] = (at, place)
        return found


def _at(begun: _Begun) -> tuple[bool, float, int]:
    """Return a key: what began before the plan comes first."""
    at, place = begun
    return at is not None, at.timestamp() if at else 0.0, place


def _behind(derived: Derived) -> dict[str, set[str]]:
    """Return by step what it never passes on the sheet, though a looser reading might let it."""
    found: dict[str, set[str]] = {}
    for relation in derived.relations:
        if isinstance(relation, Before):
            found.setdefault(relation.then, set()).add(relation.first)
        elif isinstance(relation, BeforeAll):
            for member in relation.of - {relation.first}:
                found.setdefault(member, set()).add(relation.first)
        elif isinstance(relation, AfterAny):
            found.setdefault(relation.then, set()).update(relation.of)
    return found
