"""What a step closes off, in a line before the blow: what is then out of reach, hidden, or for good."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from armorplan.app.closing_order import ClosingOrder
from armorplan.app.closing_reach import Harder, Loss, harder_after
from armorplan.app.closing_words import (
    Line,
    for_good_lines,
    harder_lines,
    hidden_lines,
    joints_of,
    late_lines,
    nothing_words,
)
from armorplan.app.derived import Derived
from armorplan.relations.index import first_and_members, is_plain
from armorplan.relations.model import Relation
from armorplan.steps.model import Step

HIDES = "hidden-before-cover"
"""The rule whose relations say which cover lies on which head."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosesOff:
    """What is closed off.

    Attributes:
        text: one line, the gravest of it.
        more: further lines, in the order of weight.
        joints: sided ids of the joints that the lines are about.
        by: ids of the steps that close them off; empty where nothing is closed off.
        is_grave: something can then not be done any more as it should.
    """

    text: str
    more: tuple[str, ...] = ()
    joints: tuple[str, ...] = ()
    by: tuple[str, ...] = ()
    is_grave: bool = False


def closes_off(
    derived: Derived,
    order: ClosingOrder,
    done_joints: Collection[str],
    steps: Iterable[str],
    *,
    done: Collection[str] = (),
) -> ClosesOff:
    """Return what doing steps closes off, in a line; what the rest of their row will, after that.

    Args:
        derived: the build.
        order: reach along its order, which names the tools.
        done_joints: the joints that are set, with their sides.
        steps: what is done next, in one go.
        done: further steps that stand, for what is then too late; those that set joints are known.
    """
    work = derived.work
    chosen = tuple(work.step(one) for one in dict.fromkeys(steps) if work.has(one))
    standing = _standing(derived, done_joints, done)
    blow = _Blow(derived, frozenset(done_joints), standing, chosen)
    own = [
        *harder_lines(derived, order, blow.harder),
        *late_lines(derived, blow.late, blow.too_late_under),
        *hidden_lines(derived, chosen, blow.hidden),
        *for_good_lines(chosen),
    ]
    # What the row closes off later can still be done before: less grave than what this blow does.
    grave, other = (
        [line for line in own if line.is_grave is is_grave] for is_grave in (True, False)
    )
    lines = [*grave, *_row_lines(order, blow), *other]
    if not lines:
        return ClosesOff(text=nothing_words(chosen))
    return ClosesOff(
        text=lines[0].text,
        more=tuple(line.text for line in lines[1:]),
        joints=tuple(dict.fromkeys(joint for line in lines for joint in line.joints)),
        by=tuple(step.id for step in chosen),
        is_grave=bool(grave),
    )


def _standing(derived: Derived, done_joints: Iterable[str], done: Iterable[str]) -> frozenset[str]:
    setting = (derived.work.setting(joint) for joint in done_joints)
    return frozenset(done) | {step.id for step in setting if step is not None}


def _row_lines(order: ClosingOrder, blow: "_Blow") -> Iterator[Line]:
    """Yield what the rest of a row will close off: one is taken as one thing once it is begun."""
    derived, rest = blow.derived, blow.rest_of_row()
    if not rest:
        return
    whole = _Blow(derived, blow.made, blow.standing, (*blow.chosen, *rest))
    after = "the next one" if len(rest) == 1 else "the last of this row"
    out = [one for one in whole.harder if one.loss is Loss.OUT and one not in blow.harder]
    yield from harder_lines(derived, order, out, after)
    late = [step for step in whole.late if step not in blow.late]
    under = [step for step in whole.too_late_under if step not in blow.too_late_under]
    yield from late_lines(derived, late, under, after, "before that")


class _Blow:
    """Some steps done in one go, from what is set and what stands."""

    def __init__(
        self,
        derived: Derived,
        made: frozenset[str],
        standing: frozenset[str],
        chosen: tuple[Step, ...],
    ) -> None:
        self.derived, self.made = derived, made
        self.standing, self.chosen = standing, chosen
        self._after = standing | {step.id for step in chosen}

    @cached_property
    def harder(self) -> tuple[Harder, ...]:
        """The joints that are harder to get at then."""
        sets = [joint for step in self.chosen for joint in self.derived.work.sets(step)]
        return harder_after(self.derived, self.made, sets) if sets else ()

    @cached_property
    def late(self) -> tuple[str, ...]:
        """The steps that come too late then."""
        return tuple(first for first, rule in self._shut if rule != HIDES and self._is_open(first))

    @cached_property
    def too_late_under(self) -> tuple[str, ...]:
        """The steps that are not done and whose heads are hidden then."""
        return tuple(first for first, rule in self._shut if rule == HIDES and self._is_open(first))

    def _is_open(self, first: str) -> bool:
        """Tell whether a step is not done then, and not told to be out of reach."""
        told = {one.joint for one in self.harder if one.loss is Loss.OUT}
        return first not in self._after and not told.intersection(
            joints_of(self.derived, (first,))
        )

    @cached_property
    def hidden(self) -> tuple[str, ...]:
        """The steps that are done and whose heads are hidden then."""
        return tuple(f for f, rule in self._shut if rule == HIDES and f in self._after)

    @cached_property
    def _shut(self) -> tuple[tuple[str, str], ...]:
        """What comes first, and the rule, of relations of which all that comes after stands then."""
        found = ((first, relation.reason.rule) for first, relation in self._last_of())
        return tuple(dict.fromkeys(found))

    def _last_of(self) -> Iterator[tuple[str, Relation]]:
        index, after = self.derived.index, self._after
        now = {index.number[step.id] for step in self.chosen if step.id in index.number}
        for at in sorted({at for number in now for at in index.by_member[number]}):
            relation = index.relations[at]
            if relation.reason.binds and is_plain(relation):
                first, members = first_and_members(relation)
                if members <= after and not (first in after and relation.reason.rule != HIDES):
                    yield first, relation

    def rest_of_row(self) -> tuple[Step, ...]:
        """Return what is still to be set of the rows that these steps are of."""
        work = self.derived.work
        rows = {_row_of(self.derived, step) for step in self.chosen if work.sets(step)}
        touching = {s.id: s for one in self.chosen for p in one.parts for s in work.touching(p)}
        alike = (step for step in touching.values() if step.id not in self._after)
        return tuple(s for s in alike if work.sets(s) and _row_of(self.derived, s) in rows)


def _row_of(derived: Derived, step: Step) -> tuple[str, ...]:
    """Return what the joints of a row have in common: their seam, else the parts that they join."""
    seam = derived.assembly.seam_of(derived.work.sets(step)[0])
    return tuple(sorted(step.parts)) if seam is None else (seam.id,)
