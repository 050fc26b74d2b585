"""How long people who come for others' work wait: the wearer between marks and fits."""

from collections.abc import Iterator, Mapping, Sequence

from armorplan.schedule.activity import Window
from armorplan.schedule.problem import Placed, Problem

Lies = Mapping[str, Placed]


class Visits:
    """The visits of those who only ever have to be there as well."""

    def __init__(self, problem: Problem) -> None:
        works = {who for activity in problem.activities for who in activity.people}
        self._named: dict[str, list[str]] = {}
        for activity in problem.activities:
            for who in activity.also:
                if who not in works:
                    self._named.setdefault(who, []).append(activity.id)
        self._windows: dict[str, Sequence[Window]] = {w.id: w.windows for w in problem.workers}

    def waiting_min(self, lies: Lies) -> int:
        """Return for how many minutes they stand about in all, from their first step to their last."""
        return sum(waited_min(visit) for _, visit in self.visits(lies))

    def visits(self, lies: Lies) -> Iterator[tuple[str, list[Placed]]]:
        """Yield who comes and what is done, in order; a visit is what lies in one of their stretches."""
        for who, names in sorted(self._named.items()):
            laid = [lies[i] for i in names if i in lies]
            mine = sorted(laid, key=lambda p: (p.start_min, p.end_min))
            for begin, end in self._windows.get(who, ()):
                visit = [p for p in mine if begin <= p.start_min and p.end_min <= end]
                if visit:
                    yield who, visit


def waited_min(visit: Sequence[Placed]) -> int:
    """Return the minutes of a visit in which nothing is done."""
    span = max(p.end_min for p in visit) - min(p.start_min for p in visit)
    return span - sum(p.end_min - p.start_min for p in visit)
