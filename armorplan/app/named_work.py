"""What a maker names by a joint, row, form, part or step: the steps it stands for, side by side."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from armorplan.app.derived import Derived
from armorplan.app.misnamed_work import misnamed
from armorplan.assembly.model import Side
from armorplan.kernel.errors import ArmorplanError
from armorplan.rules.own_names import step_name
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import lowered, with_side

_SHAPING = (StepKind.FORM, StepKind.FORM_DRY, StepKind.HARDEN)
_OFFERED = 4


class WorkKind(StrEnum):
    """What kind of thing a name stands for; ``joint:boss_1`` says which of two of a name is meant."""

    JOINT = "joint"
    ROW = "row"
    FORM = "form"
    PART = "part"
    STEP = "step"


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedWork:
    """One thing named, and the steps that do it.

    Attributes:
        id: as it was found: a plain or sided id, or that of a step.
        name: as a maker says it, without a side.
        by_side: ids of the steps that do it on each side it is made on. Of a joint the step that sets
            it; of a row those of its joints; of a part those that hold it; of a form its shaping,
            or the rows that draw it.
    """

    id: str
    kind: WorkKind
    name: str
    by_side: Mapping[Side, tuple[str, ...]]

    def said(self, side: Side) -> str:
        """Return the name with the side it is looked at on."""
        return with_side(self.name, side if side in self.by_side else Side.SINGLE)


def named_work(derived: Derived, written: str) -> NamedWork:
    """Return what a maker names.

    Raises:
        ArmorplanError: nothing has that name, it could be several things, or nothing is done for it.
    """
    kind, name = _kind_and_name(written.strip())
    found = [one for one in _all(derived, name) if kind in (None, one.kind)]
    meant = _alike_once(found)
    if not meant:
        raise ArmorplanError(misnamed(derived, name))
    if len(meant) > 1:
        raise ArmorplanError(_ambiguous(name, meant))
    if not any(meant[0].by_side.values()):
        message = (
            f"No step of this build sets or shapes {meant[0].kind} '{name}'. Name one that does."
        )
        raise ArmorplanError(message)
    return meant[0]


def _kind_and_name(written: str) -> tuple[WorkKind | None, str]:
    head, mark, tail = written.partition(":")
    known = next((kind for kind in WorkKind if kind == head), None)
    return (known, tail.strip()) if mark and known else (None, written)


def _alike_once(found: list[NamedWork]) -> list[NamedWork]:
    """Leave out what stands for the very same steps: a row and the closure it draws."""
    once: dict[tuple[tuple[str, ...], ...], NamedWork] = {}
    for one in found:
        once.setdefault(tuple(tuple(sorted(s)) for s in one.by_side.values()), one)
    return list(once.values())


def _all(derived: Derived, name: str) -> Iterator[NamedWork]:
    makers = (_joint, _row, _form, _part)
    things = [one for make in makers if (one := make(derived, name)) is not None]
    # The tail of an id that names a thing as well says no more than the thing does.
    yield from things or tuple(_steps(derived, name)) or _shown(derived, name)


def _of(
    found: Iterable[tuple[str, Side, Iterable[Step | None]]], *, kind: WorkKind, name: str
) -> NamedWork | None:
    sides: dict[Side, tuple[str, ...]] = {}
    one = ""
    for sided_id, side, steps in found:
        one = sided_id
        ids = dict.fromkeys(step.id for step in steps if step is not None)
        sides[side] = tuple(ids)
    if not sides:
        return None
    if len(sides) > 1:
        one = one.rpartition(".")[0]
    return NamedWork(id=one, kind=kind, name=name, by_side=sides)


def _joint(derived: Derived, name: str) -> NamedWork | None:
    found = [j for j in derived.assembly.joints if name in (j.id, j.joint.id)]
    setting = derived.work.setting
    return _of(
        ((j.id, j.side, (setting(j.id),)) for j in found),
        kind=WorkKind.JOINT,
        name=f"joint '{found[0].joint.id}'" if found else "",
    )


def _row(derived: Derived, name: str) -> NamedWork | None:
    found = [s for s in derived.assembly.seams if name in (s.id, s.seam.id)]
    setting = derived.work.setting
    return _of(
        ((s.id, s.side, map(setting, s.joints)) for s in found),
        kind=WorkKind.ROW,
        name=f"the joints of '{found[0].seam.name}'" if found else "",
    )


def _form(derived: Derived, name: str) -> NamedWork | None:
    found = [f for f in derived.assembly.forms if name in (f.id, f.form.id)]
    rows = {s.id: s.joints for s in derived.assembly.seams}
    shaping = derived.work.of_kind(*_SHAPING)

    def steps(form_id: str, seams: tuple[str, ...]) -> Iterator[Step | None]:
        for step in shaping:
            if f"{step.id.rpartition('/')[2]}.".startswith(f"{form_id}."):
                yield step
        for seam in seams:
            yield from map(derived.work.setting, rows.get(seam, ()))

    return _of(
        ((f.id, f.side, steps(f.id, f.seams)) for f in found),
        kind=WorkKind.FORM,
        name=f"the steps of form '{found[0].form.id}'" if found else "",
    )


def _part(derived: Derived, name: str) -> NamedWork | None:
    found = [p for p in derived.assembly.parts if name in (p.id, p.part.id)]
    work, assembly = derived.work, derived.assembly
    return _of(
        ((p.id, p.side, [work.setting(j.id) for j in assembly.joints_of(p.id)]) for p in found),
        kind=WorkKind.PART,
        name=f"the joints of {lowered(found[0].part.name)}" if found else "",
    )


def _steps(derived: Derived, name: str) -> Iterator[NamedWork]:
    """Yield the steps a whole id or its tail names; left and right of one are one thing."""
    pairs: dict[tuple[str, str], list[Step]] = {}
    for step in derived.work.steps:
        if f"/{step.id}".endswith(f"/{name}") or step_name(step) == name:
            pairs.setdefault((step.piece, step_name(step)), []).append(step)
    yield from map(_as_step, pairs.values())


def _as_step(steps: list[Step]) -> NamedWork:
    by_side = {step.side: (step.id,) for step in steps}
    found = steps[0].id if len(steps) == 1 else step_name(steps[0])
    return NamedWork(id=found, kind=WorkKind.STEP, name=f"'{_title(steps)}'", by_side=by_side)


def _shown(derived: Derived, name: str) -> Iterator[NamedWork]:
    """Yield what is shown by a name: a row, a part or the title of a step, whatever its capitals."""
    wanted = " ".join(name.casefold().split())
    seams = {s.seam.id for s in derived.assembly.seams if s.seam.name.casefold() == wanted}
    parts = {p.part.id for p in derived.assembly.parts if p.part.name.casefold() == wanted}
    for make, ids in ((_row, seams), (_part, parts)):
        yield from (one for each in sorted(ids) if (one := make(derived, each)) is not None)
    pairs: dict[tuple[str, str], list[Step]] = {}
    for step in derived.work.steps:
        if wanted in (step.title.casefold(), _title_of(step).casefold()):
            pairs.setdefault((step.piece, step_name(step)), []).append(step)
    yield from map(_as_step, pairs.values())


def _title(steps: list[Step]) -> str:
    return steps[0].title if len(steps) == 1 else _title_of(steps[0])


def _title_of(step: Step) -> str:
    """Return a step's title without its side."""
    return step.title.replace(f" ({step.side})", "")


def _ambiguous(name: str, meant: list[NamedWork]) -> str:
    told = [f"{one.kind}:{one.id}" for one in meant[:_OFFERED]]
    more = f", or one of {len(meant) - _OFFERED} more" if len(meant) > _OFFERED else ""
    return f"'{name}' could be several things here. Write which is meant: {', '.join(told)}{more}."
