"""Which demands of a problem concern an activity."""

from armorplan.schedule.problem import EndsBeforeLast, Lag, Problem


class Links:
    """Look-ups of lags and 'ends before the last of' by the activities they name."""

    def __init__(self, problem: Problem) -> None:
        self._into: dict[str, list[Lag]] = {}
        self._out_of: dict[str, list[Lag]] = {}
        self._first: dict[str, list[EndsBeforeLast]] = {}
        self._last: dict[str, list[EndsBeforeLast]] = {}
        for lag in problem.lags:
            self._out_of.setdefault(lag.first, []).append(lag)
            self._into.setdefault(lag.then, []).append(lag)
        for rule in problem.before_last:
            self._first.setdefault(rule.first, []).append(rule)
            for member in rule.of:
                self._last.setdefault(member, []).append(rule)

    def into(self, name: str) -> list[Lag]:
        """Return the lags that end at an activity."""
        return self._into.get(name, [])

    def out_of(self, name: str) -> list[Lag]:
        """Return the lags that begin at an activity."""
        return self._out_of.get(name, [])

    def first_in(self, name: str) -> list[EndsBeforeLast]:
        """Return the rules by which it ends before the last of others."""
        return self._first.get(name, [])

    def last_in(self, name: str) -> list[EndsBeforeLast]:
        """Return the rules by which it may be the last."""
        return self._last.get(name, [])

    def around(self, name: str) -> list[str]:
        """Return the activities that share a demand with it."""
        found = [lag.then for lag in self.out_of(name)] + [lag.first for lag in self.into(name)]
        return found + [i for rule in self.first_in(name) for i in sorted(rule.of)]
