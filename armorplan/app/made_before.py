"""Leather that was cut, punched or formed before its pattern was changed, and what it is out by.

A maker who corrects a drawing has leather lying there: a tick tells that it was made, and this
tells that it was made to the former pattern.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.assembly.model import SidedForm
from armorplan.geometry.alike.changed import Reshaped, reshaped
from armorplan.geometry.told import listed, quoted
from armorplan.kernel.findings import Finding, Severity
from armorplan.ledger.records import StepStatus
from armorplan.ledger.state import LedgerState
from armorplan.needs.figures import thickness_words
from armorplan.pattern.parts import Part, PartKind
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import part_name

_TOLD = 12
"""So many parts get a finding of their own; the rest are named in one."""
_TO_OUTLINE = (
    StepKind.CUT,
    StepKind.BEVEL,
    StepKind.SKIVE,
    StepKind.PREPARE_STRAP,
    StepKind.TOOL,
    StepKind.FORM,
    StepKind.FORM_DRY,
    StepKind.BURNISH,
    StepKind.LAY_OUT,
    StepKind.MOCK_UP,
)
"""Work that takes a part's outline over; the first of these that was done is named."""
_TO_LEATHER = (StepKind.CUT, StepKind.SKIVE, StepKind.LAY_OUT)
_FORMED = (StepKind.FORM, StepKind.FORM_DRY)


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeBefore:
    """A part made to the former pattern: what was done and how it differs, as sentences."""

    part: str
    name: str
    sentences: tuple[str, ...]


def made_before(old: Derived, new: Derived, state: LedgerState) -> tuple[MadeBefore, ...]:
    """Return the parts on which work was done, or begun, that now has another shape.

    Args:
        old: what follows from the former pattern.
        new: what follows from the changed one.
        state: how the new build stands, with what was carried over.
    """
    former = {sided.id: sided.part for sided in old.assembly.parts}
    found = []
    for sided in new.assembly.parts:
        if sided.id in former:
            case = _Case(old, new, state, sided.id)
            sentences = tuple(case.sentences(former[sided.id], sided.part))
            if sentences:
                found.append(MadeBefore(part=sided.id, name=case.name, sentences=sentences))
    return tuple(found)


def made_before_findings(made: tuple[MadeBefore, ...]) -> tuple[Finding, ...]:
    """Return a warning for each part, and one that names the rest where there are many."""
    found = [_finding(" ".join(one.sentences), (one.part,)) for one in made[:_TOLD]]
    if rest := made[_TOLD:]:
        names = listed([one.name for one in rest], named=len(rest))
        many = f"Made to the former pattern, and differing from this one, are also {names}."
        found.append(_finding(many, tuple(one.part for one in rest)))
    return tuple(found)


def _finding(text: str, about: tuple[str, ...]) -> Finding:
    return Finding(
        code="made-before-change",
        severity=Severity.WARNING,
        text=text,
        remedy="Lay it on the new drawing. If it still serves, go on; if not, take back its ticks "
        "and make it anew.",
        about=about,
    )


class _Case:
    """One part in both patterns, with what was done on it."""

    def __init__(self, old: Derived, new: Derived, state: LedgerState, part_id: str) -> None:
        self._old, self._new, self._part_id = old, new, part_id
        self.name = part_name(new.assembly, part_id)
        self._begun = {
            step.kind: (step, state.record(step.id).status)
            for step in reversed(new.work.touching(part_id))
            if state.record(step.id).status is not StepStatus.UNTOUCHED
        }
        self._state = state

    def sentences(self, was: Part, now: Part) -> Iterator[str]:
        if not self._begun:
            return
        shape = reshaped(was, now)
        if shape.outline_mm:
            far = f": it differs by up to {shape.outline_mm:.1f} mm"
            yield from self._said(_TO_OUTLINE, "to the former outline", far)
        if holes := "; ".join(_hole_words(shape, self._marked(now))):
            yield from self._said((StepKind.PUNCH,), "to the former drawing", f": {holes}")
        yield from self._leather(was, now)
        if was.tooling != now.tooling:
            yield from self._said(
                (StepKind.TOOL,), f"as '{was.tooling}'", _wanted(f"'{now.tooling}'")
            )
        yield from self._forms()

    def _marked(self, part: Part) -> frozenset[str]:
        """Return the holes that are marked on the wearer, wherever they are drawn."""
        if part.kind is PartKind.STRAP:
            return frozenset()
        placed = (j for j in self._new.pattern.joints if j.placed_on_wearer)
        return frozenset(hole for joint in placed for hole in joint.stack)

    def _said(self, kinds: tuple[StepKind, ...], how: str, rest: str) -> Iterator[str]:
        """Yield what was done in which step, the first of these kinds that was."""
        for kind in kinds:
            if kind in self._begun:
                step, status = self._begun[kind]
                yield self._sentence(step, status, how, rest)
                return

    def _sentence(self, step: Step, status: StepStatus, how: str, rest: str) -> str:
        title = step.title.rstrip(".")
        of = "" if self.name in title else f" of {self.name}"
        done = "was done" if status is StepStatus.DONE else "was begun"
        return f"{title} {done} {how}{of}{rest}."

    def _leather(self, was: Part, now: Part) -> Iterator[str]:
        before, after = (thickness_words(p.least_mm, p.thickness_mm) for p in (was, now))
        if before != after:
            yield from self._said(_TO_LEATHER, f"in leather of {before}", _wanted(after))
        kinds = [_leather_name(d, p) for d, p in ((self._old, was), (self._new, now))]
        if kinds[0] != kinds[1]:
            yield from self._said(_TO_LEATHER, f"in '{kinds[0]}'", _wanted(f"'{kinds[1]}'"))
        if was.count != now.count:
            many = f"when {was.count} {'was' if was.count == 1 else 'were'} wanted"
            yield from self._said((StepKind.CUT,), many, f"; now it is {now.count}")

    def _forms(self) -> Iterator[str]:
        former = {sided.id: sided for sided in self._old.assembly.forms}
        for sided in self._new.assembly.forms:
            was = former.get(sided.id)
            if was is None or self._part_id not in sided.parts:
                continue
            before, after = _form_words(was), _form_words(sided)
            for step in self._new.work.touching(self._part_id, *_FORMED):
                status = self._state.record(step.id).status
                mine = step.id.endswith(f"/{sided.id}") and status is not StepStatus.UNTOUCHED
                if mine and before != after:
                    yield self._sentence(step, status, f"to {before}", _wanted(after))


def _hole_words(shape: Reshaped, marked: frozenset[str]) -> Iterator[str]:
    moved = [(hole, far_mm) for hole, far_mm in shape.moved if hole not in marked]
    if moved:
        (first, far_mm), *more = moved
        if more:
            yield f"{1 + len(more)} holes or slots are out by up to {far_mm:.1f} mm, '{first}' most"
        else:
            yield f"'{first}' is out by {far_mm:.1f} mm"
    if added := [hole for hole in shape.added if hole not in marked]:
        yield f"{listed(quoted(added))} {_is(added)} new and not in it yet"
    if shape.gone:
        yield f"{listed(quoted(shape.gone))} {_is(shape.gone)} no longer drawn"


def _wanted(what: str) -> str:
    return f", where {what} is wanted now"


def _is(ids: Sequence[str]) -> str:
    return "is" if len(ids) == 1 else "are"


def _leather_name(derived: Derived, part: Part) -> str:
    uses = {material.id: material.leather for material in derived.pattern.materials}
    leather = derived.shelf.leather(uses.get(part.material, ""))
    return leather.name if leather else uses.get(part.material, part.material)


def _form_words(sided: SidedForm) -> str:
    form = sided.form
    radius = "no radius said" if form.radius_mm is None else f"a radius of {form.radius_mm:g} mm"
    return radius if form.angle_deg is None else f"{radius} and {form.angle_deg:g}°"
