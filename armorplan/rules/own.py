"""The maker's own relations, from names to steps: left with left, right with right."""

from collections.abc import Iterator

from armorplan.assembly.model import Side
from armorplan.kernel.findings import Finding, Place, Severity
from armorplan.pattern.own_work import OwnKind, OwnRelation
from armorplan.relations.model import (
    OWN,
    AfterAny,
    Apart,
    Before,
    BeforeAll,
    Force,
    Reason,
    Relation,
    Together,
)
from armorplan.rules.facts import Facts
from armorplan.rules.own_names import StepNames, on_side
from armorplan.steps.model import Step, StepKind

SOURCE = "the maker's own"
_LEAST = 2


def own_relations(facts: Facts) -> tuple[tuple[Relation, ...], tuple[Finding, ...]]:
    """Return the relations a maker added, and what is wrong with those that say nothing."""
    names, relations, findings = StepNames(facts), list[Relation](), list[Finding]()
    for own in facts.assembly.pattern.own_relations:
        unknown = _unknown(own, names, with_options=bool(facts.assembly.pattern.options))
        findings += unknown
        if unknown:
            continue
        made = dict.fromkeys(_Reading(facts, names, own).relations())
        relations += made
        if not made:
            findings.append(_says_nothing(own))
    return tuple(relations), tuple(findings)


def _unknown(own: OwnRelation, names: StepNames, *, with_options: bool) -> list[Finding]:
    """Return a finding for each name no step has; a choice may have left the step out."""
    missing = [name for name in _names(own) if not names.steps(name)]
    return [
        Finding(
            code="own-relation-names-no-step",
            severity=Severity.WARNING if with_options else Severity.ERROR,
            text=f"Your relation '{own.id}' names '{name}', and this build has no such step.",
            remedy=f"{_CHOICE if with_options else ''}{_offer(names.nearest(name))}",
            about=(own.id,),
            place=_place(own),
        )
        for name in missing
    ]


_CHOICE = "Where a choice leaves the step out, write the relation's only_with. Otherwise: "


def _offer(nearest: tuple[str, ...]) -> str:
    if nearest:
        return f"Nearest to it is {' or '.join(nearest)}."
    return "Name it as the order lists it: the last two parts of the step's id."


def _says_nothing(own: OwnRelation) -> Finding:
    return Finding(
        code="own-relation-says-nothing",
        severity=Severity.WARNING,
        text=f"Your relation '{own.id}' names one step only, so that it orders nothing.",
        remedy="Name at least two different steps, or take the relation out.",
        about=(own.id,),
        place=_place(own),
    )


def _place(own: OwnRelation) -> Place:
    return Place(file="pattern.toml", key=f"relations.{own.id}")


def _names(own: OwnRelation) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*((own.step,) if own.step else ()), *own.others)))


class _Reading:
    """One own relation, read into relations between steps."""

    def __init__(self, facts: Facts, names: StepNames, own: OwnRelation) -> None:
        self._facts, self._own = facts, own
        self._found = {name: names.steps(name) for name in _names(own)}

    def relations(self) -> Iterator[Relation]:
        """Yield what the relation says on each side; the same twice where no side is named."""
        own = self._own
        if own.kind is OwnKind.APART:
            # What they cannot share there is only one of, whatever the side.
            yield from self._apart(own.others)
        elif own.kind is OwnKind.TOGETHER:
            yield from self._together()
        else:
            for side in self._sides():
                yield from self._ordered(side)

    def _sides(self) -> tuple[Side | None, ...]:
        """Return the sides on which every name has a step; ``None``, any side, where there is none."""
        both = (Side.LEFT, Side.RIGHT)
        meeting = [s for s in both if all(on_side(steps, s) for steps in self._found.values())]
        return tuple(meeting) or (None,)

    def _of(self, name: str, side: Side | None) -> tuple[Step, ...]:
        return self._found[name] if side is None else on_side(self._found[name], side)

    def _set(self, names: tuple[str, ...], side: Side | None) -> frozenset[str]:
        return frozenset(step.id for name in names for step in self._of(name, side))

    def _ends(self, names: tuple[str, ...], side: Side | None) -> frozenset[str]:
        return frozenset(self._end(step) for name in names for step in self._of(name, side))

    def _end(self, step: Step) -> str:
        """Return the step that ends an own step: its waiting, where it has one."""
        wait = self._facts.work.drying_of(step.id) if step.kind is StepKind.OWN else None
        return step.id if wait is None else wait.id

    def _ordered(self, side: Side | None) -> Iterator[Relation]:
        own, reason = self._own, self._reason()
        if own.kind is OwnKind.AFTER_ANY:
            of = self._ends(own.others, side)
            for then in sorted(self._set((own.step,), side)):
                if others := of - {then}:
                    yield AfterAny(then=then, of=others, reason=reason)
            return
        of = self._set(own.others, side)
        for first in sorted(self._ends((own.step,), side)):
            if own.kind is OwnKind.BEFORE_ALL:
                if others := of - {first}:
                    yield BeforeAll(first=first, of=others, reason=reason)
                continue
            for then in sorted(of - {first}):
                yield Before(
                    first=first,
                    then=then,
                    reason=reason,
                    lag_min=own.lag_min,
                    max_lag_min=own.max_lag_min,
                )

    def _together(self) -> Iterator[Relation]:
        others = self._own.others
        sets = [self._set(others, side) for side in self._sides()]
        if all(len(of) < _LEAST for of in sets):
            # One name of a pair: its left and its right.
            sets = [self._set(others, None)]
        for of in sets:
            if len(of) >= _LEAST:
                yield Together(of=of, reason=self._reason())

    def _apart(self, names: tuple[str, ...]) -> Iterator[Relation]:
        of = self._set(names, None)
        if len(of) >= _LEAST:
            yield Apart(of=of, on=self._own.on, reason=self._reason())

    def _reason(self) -> Reason:
        own = self._own
        text = own.why.strip() or "You want it so"
        touched = (part for steps in self._found.values() for step in steps for part in step.parts)
        return Reason(
            rule=f"{OWN}{own.id}",
            text=text if text[-1] in ".!?" else f"{text}.",
            force=Force(own.force),
            source=SOURCE,
            about=tuple(dict.fromkeys(touched)),
            price_min=own.price_min,
        )
