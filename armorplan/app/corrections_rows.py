"""Proposals for a pattern from the dry fits of its builds, each thing once, with before and after."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from statistics import median

from armorplan.app.corrections_advice import advised
from armorplan.app.corrections_model import (
    CorrectionRow,
    CutAdvice,
    FoundIn,
    HoleMove,
    PatternBuild,
    Standing,
)
from armorplan.app.draft import Draft
from armorplan.app.fit_corrections import (
    CORRECTIONS,
    FitChange,
    changes_for,
    not_mended_yet,
    texts_of,
    told_with_place,
)
from armorplan.app.fit_findings import FitFinding, FoundKind
from armorplan.app.fit_gathering import Gathered, gathered, plain_id
from armorplan.app.fit_moves import joints_about
from armorplan.app.fit_naming import started
from armorplan.pattern.parts import Point
from armorplan.pattern.pattern import Pattern

_CAUSES = frozenset(("bend-tighter-than-beneath", "row-misfit", "rows-shifted"))
"""Findings of the check that make plates gape, however well their holes lie from the edge."""
_SAME_MM = 0.15
"""What was moved in a drawing by as much as it should, to a tenth, was moved for this."""


def proposals(draft: Draft, builds: Sequence[PatternBuild]) -> tuple[CorrectionRow, ...]:
    """Return what the dry fits of builds ask of a pattern, in the order in which it was found.

    The same thing found in several builds counts once, by the most mm; found both ways it becomes
    a check. A finding at one joint goes before what was found of its whole row.

    Args:
        draft: the pattern as it stands now.
        builds: its builds, the oldest first.
    """
    by_step: dict[str, PatternBuild] = {}
    found: list[tuple[str, FitFinding]] = []
    known: set[tuple[str, FitFinding]] = set()
    for build in builds:
        for said, one in not_mended_yet(build.derived, build.ledger, build.begun_at):
            # What a build took over from another was told there.
            if (said.id, one) not in known:
                known.add((said.id, one))
                by_step[said.step] = build
                found.append((said.step, one))
    made, moved = list[CorrectionRow](), dict[str, set[str]]()
    groups = [told for told in gathered(found) if by_step[told.step].derived.work.has(told.step)]
    for told in sorted(groups, key=lambda each: not _is_single(by_step[each.step], each)):
        build = by_step[told.step]
        before = moved.setdefault(told.axis, set())
        changes = changes_for(build.derived, told, frozenset(before))
        if changes:
            row = _row(draft, told, changes, build=build, found=_found(told, found, by_step))
            before.update(move.hole for move in row.moves)
            advice = tuple(_advice(build.derived.pattern, row.moves, builds))
            made.append(replace(row, advice=advice))
    places = {_key(told): at for at, told in enumerate(groups)}
    return tuple(sorted(made, key=lambda row: places[row.key]))


def _key(told: Gathered) -> str:
    return f"{told.plain}:{told.axis}" if told.axis else told.plain


def _is_single(build: PatternBuild, told: Gathered) -> bool:
    return told.found.about in build.derived.work.step(told.step).joints


def _found(
    told: Gathered,
    found: Sequence[tuple[str, FitFinding]],
    by_step: dict[str, PatternBuild],
) -> Iterator[FoundIn]:
    """Yield all that was found of one thing, build by build."""
    for step, one in found:
        build = by_step[step]
        mine = gathered([(step, one)])[0]
        if (plain_id(one.about), mine.axis) == (told.plain, told.axis):
            yield FoundIn(
                build=build.build,
                name=build.name,
                version=build.version,
                words=told_with_place(build.derived, step, one),
            )


def _row(
    draft: Draft,
    told: Gathered,
    changes: tuple[FitChange, ...],
    *,
    build: PatternBuild,
    found: Iterator[FoundIn],
) -> CorrectionRow:
    was, now = build.derived.pattern, draft.pattern
    kept = all(_is_kept(draft, was, change) for change in changes)
    return CorrectionRow(
        key=_key(told),
        title=started(str(changes[0].values["name"])),
        text=" ".join(texts_of(changes)),
        moves=tuple(_moves(was, now, changes, kept=kept)),
        found=tuple(found),
        standing=Standing.KEPT if kept else Standing.OFFERED,
        advice=(),
        changes=changes,
        told=told,
        causes=tuple(_causes(build, told)),
    )


def _causes(build: PatternBuild, told: Gathered) -> Iterator[str]:
    """Yield what the check says of the holes where plates stand apart, or lie too far over each other."""
    derived = build.derived
    if told.found.kind not in (FoundKind.GAP, FoundKind.OVERLAP):
        return
    joints = joints_about(derived, derived.work.step(told.step), told.found.about)
    plain = {joint.joint.id for joint in joints}
    for finding in derived.findings:
        if finding.code in _CAUSES and plain & {*finding.about}:
            yield f"{finding.text} {finding.remedy}".strip()


def _is_kept(draft: Draft, was: Pattern, change: FitChange) -> bool:
    """Tell whether the pattern has an entry, or its drawing was moved by as much."""
    there = draft.entry(change.table, change.id)
    if there and all(there.get(key) == value for key, value in change.values.items()):
        return True
    now = draft.pattern
    if now is None or change.table != CORRECTIONS:
        return False
    across, down = change.values["move_mm"]
    moved = [_moved_mm(was, now, hole) for hole in change.values["holes"]]
    return all(
        one is not None and abs(complex(*one) - complex(across, down)) <= _SAME_MM for one in moved
    )


def _moved_mm(was: Pattern, now: Pattern, hole: str) -> Point | None:
    """Return by how much a hole lies elsewhere in its part; ``None`` where it is no longer drawn."""
    try:
        before, after = was.hole(hole), now.hole(hole)
    except KeyError:
        return None
    former = {each.id: each.centre for each in was.part(before.part).holes}
    shifts = [
        (each.centre[0] - former[each.id][0], each.centre[1] - former[each.id][1])
        for each in now.part(after.part).holes
        if each.id in former
    ]
    # A part that was moved on its page has all its holes elsewhere.
    page_x, page_y = (median(each[axis] for each in shifts) for axis in (0, 1))
    x, y = after.centre[0] - before.centre[0], after.centre[1] - before.centre[1]
    return x - page_x, y - page_y


def _moves(
    was: Pattern, now: Pattern | None, changes: tuple[FitChange, ...], *, kept: bool
) -> Iterator[HoleMove]:
    for change in changes:
        if change.table != CORRECTIONS:
            continue
        across, down = change.values["move_mm"]
        for name in change.values["holes"]:
            hole = was.hole(name)
            if now is not None and not kept:
                hole = next((h for p in now.parts for h in p.holes if h.id == name), hole)
            x, y = hole.centre
            yield HoleMove(
                hole=name,
                part=hole.part,
                part_name=was.part(hole.part).name,
                before=(x, y),
                after=(round(x + across, 3), round(y + down, 3)),
            )


def _advice(
    was: Pattern, moves: Sequence[HoleMove], builds: Sequence[PatternBuild]
) -> Iterator[CutAdvice]:
    """Yield what moves mean for each build whose drawing had the holes where they were."""
    for build in builds:
        cut_from = build.derived.pattern
        mine = [
            move
            for move in moves
            if (off := _moved_mm(was, cut_from, move.hole)) is not None
            and abs(complex(*off)) < move.mm - _SAME_MM
        ]
        yield from advised(build, mine)
