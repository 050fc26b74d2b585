"""Why a step stands where it stands: its relations as lines in words."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from zoneinfo import ZoneInfo

from armorplan.app.bench_states import BenchStates
from armorplan.app.derived import Derived
from armorplan.app.outside_windows import window_words
from armorplan.app.rows import Why, WhyLine
from armorplan.kernel.units import about_words, span_words
from armorplan.ledger.state import LedgerState
from armorplan.relations.implying import stricter
from armorplan.relations.index import RelationIndex, is_plain, named_steps
from armorplan.relations.model import AfterAny, Apart, Force, Quantity, Relation, Together

_WHOLE_FROM = 10.0


def number_words(number: Quantity) -> str:
    """Return a number of a reason with its name and unit, as fine as it is good for.

    Minutes as they are said; what is 10 or more whole, what is less to a tenth.
    """
    if number.unit == "min":
        return f"{number.name} {about_words(number.value)}"
    fine = 0 if abs(number.value) >= _WHOLE_FROM else 1
    return f"{number.name} {round(number.value, fine):g} {number.unit}"


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
        self._unlike: dict[str, list[Relation]] = {}
        for relation in derived.index.relations:
            for step in () if is_plain(relation) else named_steps(relation):
                self._unlike.setdefault(step, []).append(relation)
        self._firsts: dict[int, tuple[int, ...]] = {}
        self._thens: dict[int, tuple[int, ...]] = {}

    def why(self, step_id: str) -> Why:
        """Return why a step stands where it stands; unmet and nearest reasons first."""
        index, step = self._index, self._derived.work.step(step_id)
        number = index.number[step_id]
        before = {index.firsts[at] for at in _single(index, index.by_member[number])}
        after = {index.members[at][0] for at in _single(index, index.by_first[number])}
        implied_before = _reached(before, self._earlier)
        implied_after = _reached(after, self._later)
        needs = [
            self._line(at, step_id, [index.firsts[at]], implied_before)
            for at in self._widest(
                at for at in index.by_member[number] if self._holds(at, step_id)
            )
        ]
        holds_up = [
            self._line(at, step_id, list(index.members[at]), implied_after)
            for at in self._widest(index.by_first[number])
        ]
        needs += self._other_needs(step_id)
        holds_up += self._waiting_for_any(step_id)
        return Why(
            step=step_id,
            title=step.title,
            state=self._states.of(step_id),
            needs=self._sorted(needs, latest_first=True),
            holds_up=self._sorted(holds_up, latest_first=False),
            detail="\n".join([step.detail, *self._window(step_id), *self._notes(step_id)]).strip(),
            cautions=step.cautions,
        )

    def _widest(self, places: Iterable[int]) -> list[int]:
        """Return relations without those that a wider one among them follows from."""
        every = list(places)
        left_out = stricter([self._index.relations[at] for at in every])
        return [relation for at, relation in enumerate(every) if at not in left_out]

    def _holds(self, at: int, step: str) -> bool:
        """Tell whether a relation keeps a step waiting: of several only the last has to wait.

        That is the last in the order chosen, or the one that is the last left to do.
        """
        index, place = self._index, self._place
        if len(index.members[at]) == 1 or step in self._done:
            return True
        if index.relations[at] in self._states.standing.waits_for.get(step, ()):
            return True
        members = (index.steps[member] for member in index.members[at])
        return step == max(members, key=lambda one: (place.get(one, 0), one))

    def _window(self, step: str) -> Iterable[str]:
        """Yield from when to when a step may begin, by the air of these hours, or what was missed."""
        window, states = self._states.windows.get(step), self._states
        if window is not None and self._derived.work.step(step).attended:
            yield window_words(window, states.as_of, self._derived.shop.zone)
        if step in states.soon_min:
            yield f"It was begun {span_words(states.soon_min[step])} before its window opened."

    def _notes(self, step: str) -> Iterable[str]:
        """Yield what was noted at the bench, with the shop's time of it."""
        zone, record = ZoneInfo(self._derived.shop.zone), self._ledger.record(step)
        if record.waived:
            yield f"Waived: {record.waived}"
        for note in record.notes:
            yield f"Note, {note.at.astimezone(zone):%a %d %b %H:%M}: {note.text}"

    def _earlier(self, step: int) -> Iterable[int]:
        found = self._firsts.get(step)
        if found is None:
            index = self._index
            found = tuple(index.firsts[at] for at in _single(index, index.by_member[step]))
            self._firsts[step] = found
        return found

    def _later(self, step: int) -> Iterable[int]:
        found = self._thens.get(step)
        if found is None:
            index = self._index
            found = tuple(index.members[at][0] for at in _single(index, index.by_first[step]))
            self._thens[step] = found
        return found

    def _sorted(self, lines: list[WhyLine], *, latest_first: bool) -> tuple[WhyLine, ...]:
        sign = -1 if latest_first else 1

        def key(line: WhyLine) -> tuple[bool, bool, bool, int]:
            steers = not Force(line.force).binds or line.overruled
            return line.met, line.also, steers, sign * self._place.get(line.other, 0)

        return tuple(sorted(lines, key=key))

    def _line(self, at: int, step: str, others: list[int], implied: set[int]) -> WhyLine:
        index = self._index
        ids = self._in_order(index.steps[o] for o in others)
        line = self._told(
            index.relations[at],
            # Of several, the relation is about the one that comes last.
            other=ids[-1] if ids else step,
            title=", or ".join(map(self._title, ids)),
            met=index.steps[index.firsts[at]] in self._done,
        )
        return replace(line, also=len(others) == 1 and others[0] in implied and not line.overruled)

    def _told(self, relation: Relation, *, other: str, title: str, met: bool) -> WhyLine:
        reason = relation.reason
        not_kept = self._derived.not_kept.get(relation, "")
        return WhyLine(
            rule=reason.rule,
            other=other,
            other_title=title,
            met=met or reason.overruled or bool(not_kept),
            text=" ".join(filter(None, (reason.text, reason.note))),
            force=reason.force,
            source=reason.source,
            numbers=tuple(number_words(number) for number in reason.numbers),
            exact=reason.numbers,
            overruled=reason.overruled,
            not_kept=not_kept,
        )

    def _other_needs(self, step: str) -> Iterator[WhyLine]:
        """Yield what a step needs by the relations that do not put one step before it."""
        about = [*self._unlike.get(step, ())]
        held_by = self._states.standing.waits_for.get(step, ())
        about += [r for r in held_by if step not in named_steps(r)]
        for relation in about:
            if isinstance(relation, AfterAny):
                if relation.then == step:
                    yield self._after_any(relation)
            elif isinstance(relation, Together | Apart):
                yield from self._side_by_side(relation, step, is_held=relation in held_by)
            else:
                # It holds another step that is done in one go with this one.
                first = relation.first
                title = self._title(first)
                yield self._told(relation, other=first, title=title, met=first in self._done)

    def _after_any(self, relation: AfterAny) -> WhyLine:
        others = self._in_order(relation.of - {relation.then}) or [relation.then]
        return self._told(
            relation,
            other=others[0],
            title=", or ".join(map(self._title, others)),
            met=not self._done.isdisjoint(others),
        )

    def _side_by_side(
        self, relation: Together | Apart, step: str, *, is_held: bool
    ) -> Iterator[WhyLine]:
        others = self._in_order(relation.of - {step})
        left = [other for other in others if other not in self._done]
        word = "not at the same time as" if isinstance(relation, Apart) else "in one go with"
        if step not in relation.of:
            word = "not between"
        titles = ", ".join(map(self._title, others))
        met = not is_held and (not left or isinstance(relation, Apart))
        for other in (left or others)[:1]:
            yield self._told(relation, other=other, title=f"{word} {titles}", met=met)

    def _waiting_for_any(self, step: str) -> Iterator[WhyLine]:
        for at in self._index.others:
            relation = self._index.relations[at]
            if isinstance(relation, AfterAny) and step in relation.of - {relation.then}:
                yield self._told(
                    relation,
                    other=relation.then,
                    title=self._title(relation.then),
                    met=not self._done.isdisjoint(relation.of),
                )

    def _title(self, step: str) -> str:
        return self._derived.work.step(step).title

    def _in_order(self, steps: Iterable[str]) -> list[str]:
        return sorted(steps, key=lambda s: (self._place.get(s, 0), s))
