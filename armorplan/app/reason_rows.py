"""Why a step stands where it stands: its relations as lines in words."""

from collections.abc import Callable, Iterable
from zoneinfo import ZoneInfo

from armorplan.app.bench_states import BenchStates
from armorplan.app.derived import Derived
from armorplan.app.rows import Why, WhyLine
from armorplan.ledger.state import LedgerState
from armorplan.relations.index import RelationIndex
from armorplan.relations.model import Quantity


def _number_words(number: Quantity) -> str:
    return f"{number.name} {number.value:g} {number.unit}"


def _single(index: RelationIndex, relations: Iterable[int]) -> Iterable[int]:
    """Yield the binding relations with one member: those that follow from one another."""
    return (at for at in relations if index.binds[at] and len(index.members[at]) == 1)


def _reached(starts: Iterable[int], onward: Callable[[int], Iterable[int]]) -> set[int]:
    """Return the steps reached by at least one move from the starts."""
    found: set[int] = set()
    spread = list(starts)
    while spread:
        for step in onward(spread.pop()):
            if step not in found:
                found.add(step)
                spread.append(step)
    return found


class Reasons:
    """Answers for one moment of one build."""

    def __init__(self, derived: Derived, states: BenchStates, ledger: LedgerState) -> None:
        self._derived = derived
        self._index = derived.index
        self._states = states
        self._ledger = ledger
        self._done = frozenset(ledger.done_order)
        self._place = derived.place

    def why(self, step_id: str) -> Why:
        """Return why a step stands where it stands; unmet and nearest reasons first."""
        index, step = self._index, self._derived.work.step(step_id)
        number = index.number[step_id]
        before = {index.firsts[at] for at in _single(index, index.by_member[number])}
        after = {index.members[at][0] for at in _single(index, index.by_first[number])}
        implied_before = _reached(before, self._earlier)
        implied_after = _reached(after, self._later)
        needs = [
            self._line(at, [index.firsts[at]], implied_before) for at in index.by_member[number]
        ]
        holds_up = [
            self._line(at, list(index.members[at]), implied_after) for at in index.by_first[number]
        ]
        return Why(
            step=step_id,
            title=step.title,
            state=self._states.of(step_id),
            needs=self._sorted(needs, latest_first=True),
            holds_up=self._sorted(holds_up, latest_first=False),
            detail="\n".join([step.detail, *self._notes(step_id)]).strip(),
            cautions=step.cautions,
        )

    def _notes(self, step: str) -> Iterable[str]:
        """Yield what was noted at the bench, with the shop's time of it."""
        zone = ZoneInfo(self._derived.shop.zone)
        for note in self._ledger.record(step).notes:
            yield f"Note, {note.at.astimezone(zone):%a %d %b %H:%M}: {note.text}"

    def _earlier(self, step: int) -> Iterable[int]:
        index = self._index
        return (index.firsts[at] for at in _single(index, index.by_member[step]))

    def _later(self, step: int) -> Iterable[int]:
        index = self._index
        return (index.members[at][0] for at in _single(index, index.by_first[step]))

    def _sorted(self, lines: list[WhyLine], *, latest_first: bool) -> tuple[WhyLine, ...]:
        sign = -1 if latest_first else 1
        key = lambda line: (line.met, line.also, sign * self._place.get(line.other, 0))  # noqa: E731
        return tuple(sorted(lines, key=key))

    def _line(self, at: int, others: list[int], implied: set[int]) -> WhyLine:
        index, relation = self._index, self._index.relations[at]
        ids = sorted((index.steps[o] for o in others), key=lambda s: self._place.get(s, 0))
        reason = relation.reason
        return WhyLine(
            rule=reason.rule,
            # Of several, the relation is about the one that comes last.
            other=ids[-1],
            other_title=", or ".join(self._derived.work.step(s).title for s in ids),
            met=relation.first in self._done,
            text=reason.text,
            force=reason.force,
            source=reason.source,
            numbers=tuple(_number_words(number) for number in reason.numbers),
            also=len(others) == 1 and others[0] in implied,
        )
