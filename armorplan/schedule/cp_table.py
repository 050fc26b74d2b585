"""A duration that depends on its start, for the solver: the end is looked up by grid cell.

``Table.ready_at`` has three branches, and so has this: the cell's own ready time; the start
itself where that comes later; beyond the last cell the duration stays what it was there.
"""

from armorplan.schedule.draft import Draft
from armorplan.schedule.problem import Activity, Table
from armorplan.solving.model import Element, Linear, Term, at_least, at_most


def lay_table(draft: Draft, activity: Activity, start: str, most_min: int) -> tuple[str, str]:
    """Add the end and the duration of an activity with a table; return their names."""
    table = _table_of(activity)
    names = _names(start)
    cells, grid = len(table.ready), table.grid_min
    top = max(most_min, *table.ready) + grid
    draft.number(names["end"], ((0, top),))
    draft.number(names["takes"], ((0, top),))
    draft.number(names["cell"], ((0, cells - 1),))
    draft.number(names["ready"], ((min(table.ready), max(table.ready)),))
    draft.booleans += [names["beyond"], names["already"]]
    draft.need(Linear(terms=((names["end"], 1),), ranges=at_most(most_min)))
    draft.need(
        Linear(terms=((names["end"], 1), (start, -1), (names["takes"], -1)), ranges=((0, 0),))
    )
    draft.need(Element(index=names["cell"], table=table.ready, target=names["ready"]))
    beyond, already = names["beyond"], names["already"]
    edge = cells * grid
    in_cell = ((start, 1), (names["cell"], -grid))
    draft.need(Linear(terms=in_cell, ranges=((0, grid - 1),), only_if=(f"~{beyond}",)))
    draft.need(Linear(terms=((start, 1),), ranges=at_least(edge), only_if=(beyond,)))
    draft.need(Linear(terms=((names["cell"], 1),), ranges=((cells - 1,) * 2,), only_if=(beyond,)))
    lasting = max(0, table.ready[-1] - (edge - 1))
    takes = ((names["takes"], 1),)
    draft.need(Linear(terms=takes, ranges=((lasting,) * 2,), only_if=(beyond,)))
    ahead = ((names["ready"], 1), (start, -1))
    left = ((names["ready"], 1), (names["end"], -1))
    within = f"~{beyond}"
    draft.need(Linear(terms=ahead, ranges=at_least(0), only_if=(within, f"~{already}")))
    draft.need(Linear(terms=left, ranges=((0, 0),), only_if=(within, f"~{already}")))
    draft.need(Linear(terms=ahead, ranges=at_most(-1), only_if=(within, already)))
    draft.need(Linear(terms=takes, ranges=((0, 0),), only_if=(within, already)))
    draft.need(Linear(terms=((already, 1),), ranges=((0, 0),), only_if=(beyond,)))
    return names["end"], names["takes"]


def table_hints(activity: Activity, start: str, start_min: int) -> list[Term]:
    """Return the values that go with a start."""
    table = _table_of(activity)
    names = _names(start)
    cell = min(start_min // table.grid_min, len(table.ready) - 1)
    end = table.ready_at(start_min)
    beyond = start_min >= len(table.ready) * table.grid_min
    return [
        (names["end"], end),
        (names["takes"], end - start_min),
        (names["cell"], cell),
        (names["ready"], table.ready[cell]),
        (names["beyond"], int(beyond)),
        (names["already"], int(not beyond and table.ready[cell] < start_min)),
    ]


def _table_of(activity: Activity) -> Table:
    if activity.table is None:
        raise ValueError(f"{activity.id} has no table")
    return activity.table


def _names(start: str) -> dict[str, str]:
    return {
        name: f"{start} {name}" for name in ("end", "takes", "cell", "ready", "beyond", "already")
    }
