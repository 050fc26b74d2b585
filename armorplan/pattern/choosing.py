"""A pattern as one build has it: every option decided, and what the choices leave out gone.

Whatever names something absent forgets it, or goes with it where nothing else is left: a joint
that held three layers may still hold two, a thread that lost all its slots is no thread.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from math import prod
from typing import Protocol, TypeVar

from armorplan.pattern.joining import Applying, Form, Joint, Route, Seam, Thread, Treatment
from armorplan.pattern.moving import Movement
from armorplan.pattern.options import Choice, Option
from armorplan.pattern.parts import Part
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.wearing import StrapPlace

_LEAST_LAYERS = 2
"""Layers of a joint, and parts that turn on each other."""


class _Conditional(Protocol):
    @property
    def id(self) -> str: ...
    @property
    def only_with(self) -> tuple[str, ...]: ...


_T = TypeVar("_T", bound=_Conditional)


def settled(pattern: Pattern, chosen: Mapping[str, str] | None = None) -> Pattern:
    """Return the pattern as it is built with these choices.

    Entries whose ``only_with`` does not hold are gone, and with them every reference to them: a
    joint with fewer than two layers left goes, and holes and slots that only such joints and
    threads used are not in the parts any more. Settling once more changes nothing.

    Args:
        pattern: as read.
        chosen: option id -> choice id; options not named keep the choice in force.

    Raises:
        ValueError: an option or a choice is not there; the message names those that are.
    """
    options = _decided(pattern.options, chosen or {})
    in_force = {option.id: option.chosen for option in options}
    return _Settling(pattern=pattern, options=options, in_force=in_force).settle()


def choices_in_force(pattern: Pattern) -> tuple[Choice, ...]:
    """Return the choice in force of each option, in the pattern's order."""
    return tuple(option.in_force for option in pattern.options)


def cut_by_machine(pattern: Pattern) -> bool:
    """Tell whether a choice in force cuts the parts on a machine."""
    return any(choice.by_machine for choice in choices_in_force(pattern))


def time_factor(pattern: Pattern, kind: str) -> float:
    """Return the factor on the hands-on minutes of a step kind; choices multiply."""
    choices = choices_in_force(pattern)
    return prod(factor for choice in choices for name, factor in choice.times if name == kind)


def _named(what: str, name: str, known: Iterable[str]) -> ValueError:
    listed = ", ".join(f"'{other}'" for other in known) or "none"
    return ValueError(f"There is no {what} '{name}'; there is: {listed}.")


def _decided(options: tuple[Option, ...], chosen: Mapping[str, str]) -> tuple[Option, ...]:
    ids = tuple(option.id for option in options)
    for name in chosen:
        if name not in ids:
            raise _named("option", name, ids)
    decided = tuple(replace(o, chosen=chosen.get(o.id, o.chosen)) for o in options)
    for option in decided:
        choices = tuple(choice.id for choice in option.choices)
        if option.chosen not in choices:
            raise _named(f"choice of '{option.id}' called", option.chosen, choices)
    return decided


def _holds(only_with: tuple[str, ...], in_force: Mapping[str, str]) -> bool:
    """Tell whether for every option named the choice in force is among those named."""
    wanted: dict[str, set[str]] = {}
    for name in only_with:
        option, _, choice = name.partition(".")
        wanted.setdefault(option, set()).add(choice)
    unknown = next((option for option in wanted if option not in in_force), None)
    if unknown is not None:
        raise _named("option", unknown, in_force)
    return all(in_force[option] in choices for option, choices in wanted.items())


def _left(names: Iterable[str], there: frozenset[str]) -> tuple[str, ...]:
    return tuple(name for name in names if name in there)


def _orphaned(before: tuple[str, ...], after: tuple[str, ...]) -> bool:
    """Tell whether a list lost all it named; one that was empty from the start did not."""
    return bool(before) and not after


@dataclass(frozen=True, kw_only=True)
class _Settling:
    pattern: Pattern
    options: tuple[Option, ...]
    in_force: Mapping[str, str]

    def _kept(self, entries: Iterable[_T]) -> tuple[_T, ...]:
        return tuple(entry for entry in entries if _holds(entry.only_with, self.in_force))

    def settle(self) -> Pattern:
        """Return the settled pattern, from the parts upward to what names them."""
        pattern = self.pattern
        there = self._kept(pattern.parts)
        ids = frozenset(part.id for part in there)
        joints = tuple(self._joints(there))
        joint_ids = frozenset(joint.id for joint in joints)
        seams = tuple(_seams(pattern.seams, joint_ids))
        threads = tuple(self._threads(there, joint_ids))
        places = self._strap_places(ids)
        parts = self._cut(there, joints, threads, (hole for p in places for hole in p.holes))
        holes = frozenset(hole.id for part in parts for hole in part.holes)
        return replace(
            pattern,
            parts=parts,
            joints=joints,
            seams=seams,
            threads=threads,
            forms=tuple(self._forms(ids, frozenset(seam.id for seam in seams))),
            treatments=self._treatments(ids),
            hardware=tuple(
                replace(use, held_by=_left(use.held_by, joint_ids))
                for use in self._kept(pattern.hardware)
                if use.part in ids
            ),
            strap_places=tuple(replace(p, holes=_left(p.holes, holes)) for p in places),
            fit_checks=tuple(
                replace(check, parts=_left(check.parts, ids))
                for check in pattern.fit_checks
                if not _orphaned(check.parts, _left(check.parts, ids))
            ),
            suspensions=tuple(s for s in pattern.suspensions if s.part in ids),
            own_steps=tuple(
                replace(step, parts=_left(step.parts, ids))
                for step in self._kept(pattern.own_steps)
                if not _orphaned(step.parts, _left(step.parts, ids))
            ),
            own_relations=self._kept(pattern.own_relations),
            corrections=tuple(
                replace(c, holes=_left(c.holes, holes))
                for c in pattern.corrections
                if not _orphaned(c.holes, _left(c.holes, holes))
            ),
            options=self.options,
            movements=tuple(self._movements(ids)),
            scalings=tuple(
                replace(scaling, parts=here)
                for scaling in pattern.scalings
                if (here := _left(scaling.parts, ids))
            ),
        )

    def _joints(self, there: tuple[Part, ...]) -> Iterator[Joint]:
        parts = frozenset(part.id for part in there)
        holes = frozenset(hole.id for part in there for hole in part.holes)
        for joint in self._kept(self.pattern.joints):
            stack, layers = _left(joint.stack, holes), _left(joint.layers, parts)
            whole = (stack, layers) == (joint.stack, joint.layers)
            if whole or len(stack) + len(layers) >= _LEAST_LAYERS:
                yield replace(joint, stack=stack, layers=layers)

    def _threads(self, there: tuple[Part, ...], joints: frozenset[str]) -> Iterator[Thread]:
        slots = {slot.id for part in there for slot in part.slots}
        passable = frozenset(slots | {part.id for part in there})
        for thread in self._kept(self.pattern.threads):
            through = _left(thread.through, passable)
            if thread.part in passable and not _orphaned(thread.through, through):
                closed_by = _left(thread.closed_by, joints)
                yield replace(thread, through=through, closed_by=closed_by)

    def _forms(self, parts: frozenset[str], seams: frozenset[str]) -> Iterator[Form]:
        for form in self._kept(self.pattern.forms):
            here, drawn_by = _left(form.parts, parts), _left(form.seams, seams)
            undrawn = form.route is Route.BY_SEAM and _orphaned(form.seams, drawn_by)
            if not undrawn and not _orphaned(form.parts, here):
                yield replace(form, parts=here, seams=drawn_by)

    def _movements(self, parts: frozenset[str]) -> Iterator[Movement]:
        for movement in self._kept(self.pattern.movements):
            left = _left(movement.parts, parts)
            if len(left) >= _LEAST_LAYERS:
                yield replace(movement, parts=left, shares_deg=movement.shares_of(left))

    def _treatments(self, parts: frozenset[str]) -> tuple[Treatment, ...]:
        applying = self._applying()
        return tuple(
            replace(treatment, parts=here, applying=applying or treatment.applying)
            for treatment in self._kept(self.pattern.treatments)
            if not _orphaned(treatment.parts, here := _left(treatment.parts, parts))
        )

    def _strap_places(self, parts: frozenset[str]) -> tuple[StrapPlace, ...]:
        places = self._kept(self.pattern.strap_places)
        return tuple(p for p in places if p.strap in parts and p.meets in parts)

    def _applying(self) -> Applying | None:
        """Return how the last choice that says so puts every treatment on."""
        said = [choice.applying for option in self.options if (choice := option.in_force).applying]
        return said[-1] if said else None

    def _cut(
        self,
        there: tuple[Part, ...],
        joints: tuple[Joint, ...],
        threads: tuple[Thread, ...],
        still_used: Iterable[str],
    ) -> tuple[Part, ...]:
        """Return the parts without holes and slots that only what is gone would have used."""
        pattern = self.pattern
        gone = {hole for joint in pattern.joints for hole in joint.stack}
        gone -= {hole for joint in joints for hole in joint.stack} | set(still_used)
        gone |= {name for thread in pattern.threads for name in thread.through} - {
            name for thread in threads for name in thread.through
        }
        kept = frozenset(joint.id for joint in joints)
        made = frozenset(part.id for part in there)
        tooled = all(option.in_force.tooling for option in self.options)
        return tuple(
            replace(
                part,
                holes=tuple(hole for hole in part.holes if hole.id not in gone),
                slots=tuple(slot for slot in part.slots if slot.id not in gone),
                tooling=part.tooling if tooled else None,
                hides=_left(part.hides, kept),
                lies_over=_left(part.lies_over, made),
            )
            for part in there
        )


def _seams(seams: Iterable[Seam], joints: frozenset[str]) -> Iterator[Seam]:
    for seam in seams:
        here = _left(seam.joints, joints)
        if not _orphaned(seam.joints, here):
            yield replace(seam, joints=here)
