"""What a fit showed becomes part of the pattern's next version: holes moved, or a check to come.

The running build stays as it is. A move is a known correction of the drawing; what is no matter of
mm becomes a check at the card mock-up, before leather is cut again, or at the dry fit where the
piece has none.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from armorplan.app.derived import Derived
from armorplan.app.draft import Draft, Refused, refused
from armorplan.app.fit_findings import FitFinding, found_words, told_in
from armorplan.app.fit_gathering import Gathered, gathered
from armorplan.app.fit_move_words import moved_words
from armorplan.app.fit_moves import joints_about, moves_for
from armorplan.app.fit_naming import names_in, started
from armorplan.app.fit_seams import fit_seams
from armorplan.ledger.state import LedgerState
from armorplan.ledger.told import Told
from armorplan.pattern.wearing import CheckTime
from armorplan.steps.model import Step, StepKind

CORRECTIONS, CHECKS = "corrections", "fit_checks"
_FOUND, _FOUND_ID, _MOVE = "Found at the dry fit", "found_", "_move_"
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


def changes_for(
    derived: Derived, told: Gathered, moved: frozenset[str] = frozenset()
) -> tuple[FitChange, ...]:
    """Return what was found at a dry fit becomes in the pattern; empty where the fit is not known.

    Args:
        derived: the build at whose fit it was found.
        told: what was found of one thing.
        moved: holes that move already for what was found at them alone.
    """
    if not derived.work.has(told.step):
        return ()
    fit = derived.work.step(told.step)
    if told.against:
        return (_check(derived, fit, told, "It was found both ways, so no hole was moved."),)
    moves = moves_for(derived, fit, told.found)
    if not moves:
        return (_check(derived, fit, told),)
    left = {move: tuple(h for h in holes if h not in moved) for move, holes in moves.items()}
    return tuple(
        _corrections(derived, fit, told, {move: holes for move, holes in left.items() if holes})
    )


def _corrections(
    derived: Derived,
    fit: Step,
    told: Gathered,
    moves: Mapping[tuple[float, float], tuple[str, ...]],
) -> Iterator[FitChange]:
    """Yield an entry for each way in which holes move; all of them say the same sentence."""
    name, note = _found_words(derived, fit, told), told.found.note
    holes = [hole for moved in moves.values() for hole in moved]
    how = moved_words(derived, fit, told.found, holes)
    both = " Left and right are drawn once: both move." if told.sides else ""
    for at, (move_mm, moved) in enumerate(moves.items(), start=1):
        number = f"{_MOVE}{at}" if len(moves) > 1 else ""
        values = {"name": name, "holes": list(moved), "move_mm": list(move_mm)}
        yield FitChange(
            table=CORRECTIONS,
            id=f"{_base(derived, told)}{number}",
            values=values | ({"notes": note} if note else {}),
            text=f"{started(name)}: {how}{both}",
        )


def texts_of(changes: Iterable[FitChange]) -> tuple[str, ...]:
    """Return what changes do, each sentence once."""
    return tuple(dict.fromkeys(change.text for change in changes))


def _check(derived: Derived, fit: Step, told: Gathered, why: str = "") -> FitChange:
    """Return what was found as a check to come; ``why``: why its holes were not moved."""
    work, name = derived.work, _found_words(derived, fit, told)
    notes = " ".join(filter(None, (told.found.note, why)))
    mocked = any(s.piece == fit.piece for s in work.of_kind(StepKind.MOCK_UP))
    when = CheckTime.MOCK_UP if mocked else CheckTime.DRY_FIT
    parts = _plain_parts(derived, fit, told.found.about)
    values: dict[str, Any] = {"name": name, "piece": fit.piece, "when": when.value}
    values |= {"parts": parts} if parts else {}
    values |= {"notes": notes} if notes else {}
    return FitChange(
        table=CHECKS,
        id=_base(derived, told),
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


def _found_words(derived: Derived, fit: Step, told: Gathered) -> str:
    """Say the same of a pattern's own entry."""
    both = ", on both sides" if told.sides > 1 else ""
    return f"{_FOUND}: {told_with_place(derived, fit.id, told.found)}{both}"


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


def _base(derived: Derived, told: Gathered) -> str:
    """Return the plain id of an entry, another one where the build's own pattern has it already."""
    axis = f"_{told.axis}" if told.axis else ""
    base = name = f"{_FOUND_ID}{told.plain or derived.pattern.slug}{axis}"
    pattern, number = derived.pattern, 1
    known = {row.id for row in pattern.corrections} | {row.id for row in pattern.fit_checks}
    while any(_is_of(one, name) for one in known):
        number += 1
        name = f"{base}_{number}"
    return name


def not_mended_yet(
    derived: Derived, ledger: LedgerState, begun_at: datetime
) -> tuple[tuple[Told, FitFinding], ...]:
    """Return what a build's fits showed, without what a former build told and its pattern has since.

    A build that goes on from another takes its findings over; where that one's were kept as the
    version it is cut from, its holes lie right already.

    Args:
        derived: the build.
        ledger: how it stands.
        begun_at: when it was begun.
    """
    pattern = derived.pattern
    entries = {row.id for row in pattern.corrections}
    entries |= {row.id for row in pattern.fit_checks}
    return tuple(
        (told, found)
        for told, found in told_in(ledger)
        if told.at >= begun_at or not _has(entries, *gathered([(told.step, found)]))
    )


def _has(entries: Iterable[str], told: Gathered) -> bool:
    axis = f"_{told.axis}" if told.axis else ""
    return any(_is_of(entry, f"{_FOUND_ID}{told.plain}{axis}") for entry in entries)


def _is_of(entry: str, base: str) -> bool:
    """Tell whether an entry is the one, or one of those, that a finding becomes."""
    return entry == base or entry.startswith(f"{base}{_MOVE}")


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
        twice: what is found later of the same thing takes its place. Where moving the holes would
        make the pattern wrong, which says that the cut was out and not the drawing, the finding
        becomes a check that says so.
    """
    told = gathered(found)
    changed, changes = draft, list[FitChange]()
    moved: dict[str, set[str]] = {}
    for one in sorted(told, key=lambda each: not _is_single(derived, each)):
        made = _with_finding(changed, derived, one, moved)
        if isinstance(made, Refused):
            return made
        changes += made.changes if made.draft is not changed else ()
        changed = made.draft
    if changed is draft:
        return refused("There is nothing new in what the fits showed.", code="nothing-found")
    raised = changed.raised_above(derived.pattern.version)
    if isinstance(raised, Refused):
        return raised
    return NextVersion(draft=raised, changes=tuple(changes))


def _is_single(derived: Derived, told: Gathered) -> bool:
    """Tell whether it was found at one joint: that goes before what was found of its whole row."""
    work = derived.work
    return work.has(told.step) and told.found.about in work.step(told.step).joints


def _with_finding(
    draft: Draft, derived: Derived, told: Gathered, moved: dict[str, set[str]]
) -> NextVersion | Refused:
    """Return the draft with what was found of one thing; ``moved``: holes by axis, added to."""
    before = moved.setdefault(told.axis, set())
    made = with_told(draft, derived, told, changes_for(derived, told, frozenset(before)))
    if not isinstance(made, Refused):
        before.update(hole for one in made.changes for hole in one.values.get("holes", ()))
    return made


def with_told(
    draft: Draft, derived: Derived, told: Gathered, changes: tuple[FitChange, ...]
) -> NextVersion | Refused:
    """Return the draft with what one finding becomes; a check where moving the holes is refused.

    Args:
        draft: the pattern as it stands now.
        derived: the build at whose fit it was found.
        told: what was found.
        changes: what it becomes, from ``changes_for``.
    """
    made = _with_all(draft, derived, told, changes)
    if isinstance(made, Refused) and derived.work.has(told.step):
        why = f"The holes were not moved in the drawing: {made.words}"
        check = _check(derived, derived.work.step(told.step), told, why)
        return _with_all(draft, derived, told, (check,))
    return made


def _with_all(
    draft: Draft, derived: Derived, told: Gathered, changes: tuple[FitChange, ...]
) -> NextVersion | Refused:
    """Return the draft with entries; what this build wrote of the same thing before goes out."""
    base, wanted = _base(derived, told), {(change.table, change.id) for change in changes}
    for table in (CORRECTIONS, CHECKS):
        for entry in draft.entry(table, ""):
            if _is_of(entry, base) and (table, entry) not in wanted:
                made = draft.drop_entry(table, entry)
                if isinstance(made, Refused):
                    return made
                draft = made
    for change in changes:
        made = _with_change(draft, change)
        if isinstance(made, Refused):
            return made
        draft = made
    return NextVersion(draft=draft, changes=changes)


def _with_change(draft: Draft, change: FitChange) -> Draft | Refused:
    there = draft.entry(change.table, change.id)
    if not there:
        return draft.add_entry(change.table, change.id, change.values)
    keys = (key for key in (*change.values, *there) if change.values.get(key) != there.get(key))
    path = (change.table, change.id)
    return draft.put(*(((*path, key), change.values.get(key)) for key in dict.fromkeys(keys)))
