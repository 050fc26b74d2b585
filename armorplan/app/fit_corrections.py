"""What a fit showed becomes part of the pattern's next version: holes moved, or a check to come.

The running build stays as it is. A move is a known correction of the drawing; what is no matter of
mm becomes a check at the card mock-up, before leather is cut again, or at the dry fit where the
piece has none.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from armorplan.app.derived import Derived
from armorplan.app.draft import Draft, Refused, refused
from armorplan.app.fit_findings import FitFinding, found_words
from armorplan.app.fit_moves import joints_about, moves_for
from armorplan.app.fit_naming import listed, names_in, started
from armorplan.app.fit_seams import fit_seams
from armorplan.files.corrections import move_words
from armorplan.pattern.wearing import CheckTime
from armorplan.steps.model import Step, StepKind

CORRECTIONS, CHECKS = "corrections", "fit_checks"
_TRIAL = {CheckTime.MOCK_UP: "card mock-up", CheckTime.DRY_FIT: "dry fit"}


@dataclass(frozen=True, slots=True, kw_only=True)
class FitChange:
    """An entry of the pattern that a finding becomes.

    Attributes:
        table: ``corrections`` or ``fit_checks``; ``values``: what is written there.
        text: what it does, in a sentence.
    """

    table: str
    id: str
    values: Mapping[str, Any]
    text: str


def changes_for(derived: Derived, step: str, found: FitFinding) -> tuple[FitChange, ...]:
    """Return what a finding at a dry fit becomes in the pattern; empty where the fit is not known."""
    if not derived.work.has(step):
        return ()
    fit = derived.work.step(step)
    joints = joints_about(derived, fit, found.about)
    moves = moves_for(derived, joints, found)
    if not moves:
        return (_check(derived, fit, found),)
    return tuple(_corrections(derived, fit, found, moves))


def _corrections(
    derived: Derived,
    fit: Step,
    found: FitFinding,
    moves: Mapping[tuple[float, float], tuple[str, ...]],
) -> Iterator[FitChange]:
    name = _found_words(derived, fit, found)
    for at, (move_mm, holes) in enumerate(moves.items(), start=1):
        parts = dict.fromkeys(derived.pattern.hole(hole).part for hole in holes)
        where = listed([derived.pattern.part(part).name for part in parts])
        number = f"_{at}" if len(moves) > 1 else ""
        values = {"name": name, "holes": list(holes), "move_mm": list(move_mm)}
        told = listed([*holes]) if len(holes) > 1 else holes[0]
        yield FitChange(
            table=CORRECTIONS,
            id=f"found_{_slug(derived, found.about)}{number}",
            values=values | ({"notes": found.note} if found.note else {}),
            text=f"{started(name)}: {told} in {where} moved {move_words(move_mm)} for the next cut.",
        )


def _check(derived: Derived, fit: Step, found: FitFinding, why: str = "") -> FitChange:
    """Return a finding as a check to come; ``why``: why its holes were not moved."""
    work, name = derived.work, _found_words(derived, fit, found)
    notes = " ".join(filter(None, (found.note, why)))
    mocked = any(s.piece == fit.piece for s in work.of_kind(StepKind.MOCK_UP))
    when = CheckTime.MOCK_UP if mocked else CheckTime.DRY_FIT
    parts = _plain_parts(derived, fit, found.about)
    values: dict[str, Any] = {"name": name, "piece": fit.piece, "when": when.value}
    values |= {"parts": parts} if parts else {}
    values |= {"notes": notes} if notes else {}
    return FitChange(
        table=CHECKS,
        id=f"found_{_slug(derived, found.about)}",
        values=values,
        text=f"{started(name)}: looked for at the next {_TRIAL[when]}.",
    )


def _plain_parts(derived: Derived, fit: Step, about: str) -> list[str]:
    """Return the plain ids of the parts a finding is about, of the fit's own piece."""
    joints = joints_about(derived, fit, about)
    parts = [part for joint in joints for part in joint.parts] or [about]
    known = [derived.assembly.part(part).part for part in parts if part in fit.parts]
    return list(dict.fromkeys(part.id for part in known if part.piece == fit.piece))


def told_with_place(derived: Derived, step: str, found: FitFinding) -> str:
    """Say what was found at a fit, and where: 'a gap of 4 mm, left row, hole 3'."""
    if not derived.work.has(step):
        return found_words(found)
    where = _where(derived, derived.work.step(step), found.about)
    return f"{found_words(found)}, {where}"


def _found_words(derived: Derived, fit: Step, found: FitFinding) -> str:
    """Say the same of a pattern's own entry."""
    return f"Found at the dry fit: {told_with_place(derived, fit.id, found)}"


def _where(derived: Derived, fit: Step, about: str) -> str:
    names = names_in(derived.assembly, fit)
    seams = {seam.id: seam for seam in fit_seams(derived, fit)}
    if about in seams:
        return seams[about].name
    if about in fit.joints:
        row = derived.assembly.seam_of(about)
        seam = next((s for s in seams.values() if about in s.joints), None)
        if row is not None:
            return f"{names.row(row)}, hole {row.joints.index(about) + 1}"
        return seam.name if seam else about
    return names.part(about) if about in fit.parts else "the whole of it"


def _slug(derived: Derived, about: str) -> str:
    """Return a plain id: the pattern is drawn once for both sides."""
    for side in ("left", "right"):
        about = about.removesuffix(f".{side}")
    return about or derived.pattern.slug


@dataclass(frozen=True, slots=True, kw_only=True)
class NextVersion:
    """The pattern's next version, and what of it the findings are."""

    draft: Draft
    changes: tuple[FitChange, ...]


def with_findings(
    draft: Draft, derived: Derived, found: Iterable[tuple[str, FitFinding]]
) -> NextVersion | Refused:
    """Return the pattern's next version with what a build's fits showed.

    Args:
        draft: the pattern as it stands now.
        derived: the build at whose fits it was found; it stays as it is.
        found: by id of the dry-fit step.

    Returns:
        The version is raised once above the build's. What stands there already is not written
        twice. Where moving the holes would make the pattern wrong, which says that the cut was out
        and not the drawing, the finding becomes a check that says so.
    """
    changed, changes = draft, list[FitChange]()
    for step, finding in found:
        made = _with_finding(changed, derived, step, finding)
        if isinstance(made, Refused):
            return made
        changes += made.changes if made.draft is not changed else ()
        changed = made.draft
    if changed is draft:
        return refused("There is nothing new in what the fits showed.", code="nothing-found")
    raised = _raised(changed, derived.pattern.version + 1)
    return (
        raised
        if isinstance(raised, Refused)
        else NextVersion(draft=raised, changes=tuple(changes))
    )


def _with_finding(
    draft: Draft, derived: Derived, step: str, found: FitFinding
) -> NextVersion | Refused:
    made = _with_all(draft, changes_for(derived, step, found))
    if not isinstance(made, Refused) or not derived.work.has(step):
        return made
    why = f"The holes were not moved in the drawing: {made.words}"
    return _with_all(draft, (_check(derived, derived.work.step(step), found, why),))


def _with_all(draft: Draft, changes: tuple[FitChange, ...]) -> NextVersion | Refused:
    for change in changes:
        made = _with_change(draft, change)
        if isinstance(made, Refused):
            return made
        draft = made
    return NextVersion(draft=draft, changes=changes)


def _with_change(draft: Draft, change: FitChange) -> Draft | Refused:
    name = change.id
    number = 1
    while draft.entry(change.table, name):
        if dict(draft.entry(change.table, name)) == dict(change.values):
            return draft
        number += 1
        name = f"{change.id}_{number}"
    return draft.add_entry(change.table, name, change.values)


def _raised(draft: Draft, version: int) -> Draft | Refused:
    now = draft.entry("pattern", "").get("version")
    if isinstance(now, int) and now >= version:
        return draft
    return draft.put((("pattern", "version"), version))
