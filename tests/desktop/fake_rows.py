"""Grouping of the invented steps into headings and trays."""

from dataclasses import replace

from desktop.fake_scenario import FakeStep

from armorplan.app.rows import BenchState, ChecklistRow

Pairs = list[tuple[FakeStep, ChecklistRow]]


def _merged(rows: list[ChecklistRow]) -> BenchState:
    states = {r.state for r in rows}
    for state in (BenchState.RUNNING, BenchState.DRYING, BenchState.PAUSED, BenchState.READY):
        if state in states:
            return state
    return BenchState.WAITING if BenchState.WAITING in states else BenchState.DONE


def _group(
    key: str, title: str, kind: str, rows: list[ChecklistRow], parent: str | None
) -> ChecklistRow:
    return ChecklistRow(
        id=key,
        parent=parent,
        title=title,
        kind=kind,
        state=_merged(rows),
        steps=tuple(s for r in rows for s in r.steps),
        parts=tuple(sorted({p for r in rows for p in r.parts})),
        joints=tuple(sorted({j for r in rows for j in r.joints})),
        minutes=sum(r.minutes for r in rows if r.attended),
        attended=True,
        done_count=sum(r.done_count for r in rows),
        start_at=min((r.start_at for r in rows if r.start_at), default=None),
        end_at=max((r.end_at for r in rows if r.end_at), default=None),
        waits_for=rows[0].waits_for if _merged(rows) is BenchState.WAITING else "",
    )


def rows_by_piece(pairs: Pairs) -> tuple[ChecklistRow, ...]:
    """Return headings by piece, in them trays, in them steps."""
    pieces: dict[str, dict[str, Pairs]] = {}
    for step, row in pairs:
        pieces.setdefault(step.piece, {}).setdefault(step.tray, []).append((step, row))
    out: list[ChecklistRow] = []
    for piece, trays in pieces.items():
        heading = f"heading:{piece}"
        inside = [row for group in trays.values() for _, row in group]
        out.append(_group(heading, piece, "heading", inside, None))
        for tray, group in trays.items():
            title = group[0][0].tray_title
            out.append(_group(tray, title, group[0][0].kind, [r for _, r in group], heading))
            out.extend(row for _, row in group)
    return tuple(out)


def rows_by_day(pairs: Pairs) -> tuple[ChecklistRow, ...]:
    """Return headings by day, in them steps."""
    days: dict[str, list[ChecklistRow]] = {}
    for _, row in sorted(pairs, key=lambda p: (p[1].start_at, p[1].id)):
        assert row.start_at is not None
        days.setdefault(f"{row.start_at:%A %d %B}", []).append(row)
    out: list[ChecklistRow] = []
    for day, rows in days.items():
        heading = f"heading:{day}"
        out.append(_group(heading, day, "heading", rows, None))
        out.extend(replace(row, parent=heading) for row in rows)
    return tuple(out)
