"""Which rows of the checklist are shown. Pure: rows in, rows out."""

from collections.abc import Iterable

from armorplan.app.rows import BenchState, ChecklistRow

WORKABLE = frozenset(
    {
        BenchState.READY,
        BenchState.MISSED,
        BenchState.RUNNING,
        BenchState.PAUSED,
        BenchState.DRYING,
    }
)
"""What the maker can work on now, or what time works on for them."""


OVER = frozenset({BenchState.DONE, BenchState.EARLY})
"""What has been done, in its turn or before it."""


def is_step(row: ChecklistRow) -> bool:
    """Tell a step from a heading or a tray, which stand for several."""
    return row.steps == (row.id,)


def is_heading(row: ChecklistRow) -> bool:
    """Tell whether a row stands at the top: a piece, or a day."""
    return row.parent is None and not is_step(row)


def shown_rows(
    rows: tuple[ChecklistRow, ...], *, ready_only: bool, words: str
) -> tuple[ChecklistRow, ...]:
    """Return the rows that pass the filters, with the headings and trays above them.

    Args:
        rows: parents before children.
        ready_only: keep only steps that can be worked on now.
        words: every one of them has to stand in the step's title, state, or what stands above it;
            capitals do not matter.
    """
    wanted = words.casefold().split()
    if not ready_only and not wanted:
        return rows
    parents = {row.parent for row in rows}
    above: dict[str | None, str] = {None: ""}
    keep: set[str] = set()
    by_id = {row.id: row for row in rows}
    for row in rows:
        text = f"{above[row.parent]} {row.title} {row.state.value}".casefold()
        above[row.id] = text if row.id in parents else ""
        is_leaf = row.id not in parents
        if is_leaf and _passes(row, text, wanted, ready_only=ready_only):
            keep.update(_with_parents(row, by_id))
    return tuple(row for row in rows if row.id in keep)


def _passes(row: ChecklistRow, text: str, wanted: list[str], *, ready_only: bool) -> bool:
    if ready_only and row.state not in WORKABLE:
        return False
    return all(word in text for word in wanted)


def _with_parents(row: ChecklistRow, by_id: dict[str, ChecklistRow]) -> Iterable[str]:
    at: ChecklistRow | None = row
    while at is not None:
        yield at.id
        at = by_id[at.parent] if at.parent else None


class Folds:
    """Which headings and trays stand open, by id, whatever is filtered away meanwhile."""

    def __init__(self) -> None:
        self._open: dict[str, bool] = {}

    def put(self, row_id: str, *, is_open: bool) -> None:
        """Remember what the person did."""
        self._open[row_id] = is_open

    def is_open(self, row: ChecklistRow) -> bool:
        """Tell whether a row stands open; before the person has said, trays of present work do."""
        return self._open.setdefault(row.id, is_heading(row) or row.state in WORKABLE)
