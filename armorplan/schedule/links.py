"""Which demands of a problem concern an activity."""

from armorplan.schedule.problem import EndsBeforeLast, Lag, Problem


class Links:
    """Look-ups of lags and 'ends before the last of' by the activities they name."""

    def __init__(self, problem: Problem) -> None:
        self._into: dict[str, list[Lag]] = {}
        self._out_of: dict[str, list[Lag]] = {}
        self._first: dict[str, list[EndsBeforeLast]] = {}
        self._last: dict[str, list[EndsBeforeLast]] = {}
        self._windows_into: dict[str, list[Lag]] = {}
        self._windows_out_of: dict[str, list[Lag]] = {}
        for lag in problem.lags:
            self._out_of.setdefault(lag.first, []).append(lag)
            self._into.setdefault(lag.then, []).append(lag)
            if lag.is_window:
                self._windows_out_of.setdefault(lag.first, []).append(lag)
                self._windows_into.setdefault(lag.then, []).append(lag)
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

    def windows_into(self, name: str) -> list[Lag]:
        """Return the lags that end at an activity and may be missed."""
        return self._windows_into.get(name, [])

    def windows_out_of(self, name: str) -> list[Lag]:
        """Return the lags that begin at an activity and may be missed."""
        return self._windows_out_of.get(name, [])

    def first_in(self, name: str) -> list[EndsBeforeLast]:
        """Return the rules by which it ends before the last of others."""
        return self._first.get(name, [])

    def last_in(self, name: str) -> list[EndsBeforeLast]:
        """Return the rules by which it may be the last."""
        return self._last.get(name, [])

    def moved_by(self, name: str) -> list[str]:
        """Return the activities that may have to be later when this one is."""
        found = [lag.then for lag in self.out_of(name)]
        found += [lag.first for lag in self.windows_into(name)]
        return found + [i for rule in self.first_in(name) for i in sorted(rule.of)]
