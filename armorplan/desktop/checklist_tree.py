"""The checklist's rows as a tree of numbered nodes; numbers stay, whatever moves around them."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from armorplan.app.rows import ChecklistRow

ROOT = 0


@dataclass(slots=True)
class Node:
    """A row in the tree: its number, its parent's, its children's in order."""

    number: int
    parent: int
    row: ChecklistRow | None
    children: list[int] = field(default_factory=list)


def by_parent(rows: tuple[ChecklistRow, ...]) -> dict[str | None, list[ChecklistRow]]:
    """Return the rows under each parent id, in order; ``None`` for the top."""
    under: dict[str | None, list[ChecklistRow]] = {}
    for row in rows:
        under.setdefault(row.parent, []).append(row)
    return under


class Tree:
    """Nodes by number, and numbers by row id. A number is never used twice."""

    def __init__(self) -> None:
        self._next = ROOT
        self._nodes: dict[int, Node] = {}
        self._number: dict[str, int] = {}
        self.clear()

    def clear(self) -> None:
        """Forget every row."""
        self._nodes = {ROOT: Node(ROOT, ROOT, None)}
        self._number = {}

    def node(self, number: int) -> Node:
        """Return a node; an empty one without a row where it is gone."""
        return self._nodes.get(number) or Node(number, ROOT, None)

    def find(self, row_id: str) -> Node | None:
        """Return the node of a row id, if it is in the tree."""
        number = self._number.get(row_id)
        return None if number is None else self._nodes[number]

    def rows_under(self, number: int) -> list[ChecklistRow]:
        """Return the rows of a node's children, in order."""
        return [row for child in self._nodes[number].children if (row := self._nodes[child].row)]

    def position(self, number: int) -> int:
        """Return a node's place among its siblings."""
        return self._nodes[self._nodes[number].parent].children.index(number)

    def add(
        self,
        parent: int,
        at: int,
        rows: Iterable[ChecklistRow],
        under: Mapping[str | None, Sequence[ChecklistRow]],
    ) -> None:
        """Put rows with all that is under them at a place of a parent."""
        for offset, row in enumerate(rows):
            self._next += 1
            node = Node(self._next, parent, row)
            self._nodes[node.number] = node
            self._number[row.id] = node.number
            self._nodes[parent].children.insert(at + offset, node.number)
            self.add(node.number, 0, under.get(row.id, ()), under)

    def cut(self, parent: int, first: int, last: int) -> None:
        """Take out children ``first`` to ``last`` (inclusive) with all that is under them."""
        siblings = self._nodes[parent].children
        for number in siblings[first : last + 1]:
            self._drop(number)
        del siblings[first : last + 1]

    def _drop(self, number: int) -> None:
        node = self._nodes.pop(number)
        if node.row is not None:
            del self._number[node.row.id]
        for child in node.children:
            self._drop(child)


def runs(positions: Iterable[int]) -> Iterator[tuple[int, int]]:
    """Join ascending positions to runs, first and last inclusive."""
    first = last = None
    for at in positions:
        if first is None or last is None:
            first = last = at
        elif at == last + 1:
            last = at
        else:
            yield first, last
            first = last = at
    if first is not None and last is not None:
        yield first, last
