"""Which of two comes first, asked from the window: what can be named, and the answer to a pair."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Protocol

from armorplan.app.between_rows import BetweenRow, between_shown
from armorplan.app.derived import Derived
from armorplan.app.named_work import WorkKind
from armorplan.geometry.ways_in import ReachPicture


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkName:
    """Something that can be asked of.

    Attributes:
        written: its name as ``named_work`` takes it for this and nothing else.
        shown: as a maker knows it; no two are alike.
        step: id of the step it is; empty for a row, part, joint or form.
    """

    written: str
    shown: str
    step: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BetweenTold:
    """An answer, with the titles of the steps it names.

    ``setting`` is the step of the two, the first if both, that sets a fastener; empty: neither does.
    ``picture`` shows in section how a tool gets to what comes first, where reach tells.
    """

    row: BetweenRow
    titles: Mapping[str, str]
    setting: str = ""
    picture: ReachPicture | None = None


class Between(Protocol):
    """Answers which of two comes first; both take a while, call them in another thread."""

    def names(self) -> tuple[WorkName, ...]:
        """Return what can be named: steps in the order shown, then rows, parts, joints, forms."""
        ...

    def told(self, one: str, other: str) -> BetweenTold:
        """Return whether one comes before the other; ArmorplanError where nothing can be asked."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class AskingBetween:
    """Asks a build as it stood when this was made; fulfils ``Between``."""

    derived: Derived

    def names(self) -> tuple[WorkName, ...]:
        """Return what can be named: steps in the order shown, then rows, parts, joints, forms."""
        return tuple(_apart((*_steps(self.derived), *_things(self.derived))))

    def told(self, one: str, other: str) -> BetweenTold:
        """Return whether one comes before the other.

        Raises:
            ArmorplanError: a name stands for nothing or for several things, or nothing can be asked of
                the two.
        """
        row, picture = between_shown(self.derived, one, other)
        named = {row.first, *row.then}
        for link in (*row.chain, *row.aside):
            named |= {link.first, *link.of}
        work = self.derived.work
        titles = {step: work.step(step).title for step in sorted(named - {""})}
        setting = (step for step in (row.first, *row.then) if work.sets(work.step(step)))
        return BetweenTold(row=row, titles=titles, setting=next(setting, ""), picture=picture)


def _steps(derived: Derived) -> Iterator[WorkName]:
    for step_id in derived.order or tuple(step.id for step in derived.work.steps):
        title = derived.work.step(step_id).title
        yield WorkName(written=f"{WorkKind.STEP}:{step_id}", shown=title, step=step_id)


def _things(derived: Derived) -> Iterator[WorkName]:
    """Yield rows, parts, joints and forms once each, whatever sides they are made on."""
    assembly = derived.assembly
    rows = ((s.seam.id, s.seam.name) for s in assembly.seams)
    parts = ((p.part.id, p.part.name) for p in assembly.parts)
    joints = ((j.joint.id, j.joint.id) for j in assembly.joints)
    forms = ((f.form.id, f.form.id) for f in assembly.forms)
    kinds = (
        (WorkKind.ROW, rows),
        (WorkKind.PART, parts),
        (WorkKind.JOINT, joints),
        (WorkKind.FORM, forms),
    )
    for kind, found in kinds:
        for thing, name in dict.fromkeys(found):
            yield WorkName(written=f"{kind}:{thing}", shown=f"{name} \N{EN DASH} {kind}")


def _apart(found: tuple[WorkName, ...]) -> Iterator[WorkName]:
    """Yield names that no two share: what would be shown alike has its id behind it."""
    counts = Counter(name.shown for name in found)
    for name in found:
        if counts[name.shown] == 1:
            yield name
        else:
            tail = name.written.partition(":")[2].partition("/")[2] or name.written
            shown = f"{name.shown} ({tail})"
            yield WorkName(written=name.written, shown=shown, step=name.step)
