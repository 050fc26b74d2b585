"""The builds that a shop file has in hand: pattern, dates, weight, choices, colours."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from armorplan.files.faults import brief
from armorplan.files.local_times import LocalTimes
from armorplan.files.references import Names, ref, refs
from armorplan.files.tables import Table
from armorplan.files.values import maybe_text, text, texts, whole
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.orders import Order
from armorplan.workshop.shop import Wearer

MOST_WEIGHT = 100
MOST_ALIKE = 200
"""So many builds of one table at the most."""


def order_folder(base: Path, pattern: str) -> Path:
    """Return the pattern folder an order names: from the shop file's folder, else a sample."""
    here = base / pattern
    sample = samples_folder() / pattern
    is_name = len(Path(pattern).parts) == 1 and not here.exists()
    return sample if is_name and sample.is_dir() else here


def read_orders(
    top: Table, base: Path, times: LocalTimes, wearers: Sequence[Wearer]
) -> tuple[Order, ...]:
    """Return the builds in hand, in the order they are written; alike ones as often as counted."""
    rows = top.table("builds").rows()
    reader = _Reader(base=base, times=times, ids=[key for key, _ in rows], wearers=wearers)
    read = [(row, reader.order(key, row), reader.count(row)) for key, row in rows]
    for row, _, _ in read:
        row.finish()
    _check_ring({order.id: (order.after, row) for row, order, _ in read})
    names = {order.id: _names(order.id, count) for _, order, count in read}
    return tuple(
        replace(
            order, id=name, after=tuple(n for each in order.after for n in names.get(each, ()))
        )
        for _, order, _ in read
        for name in names[order.id]
    )


def _names(name: str, count: int) -> tuple[str, ...]:
    """Return the ids of builds alike: the id itself for one, else numbered from 1."""
    return (name,) if count == 1 else tuple(f"{name}-{at + 1}" for at in range(count))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Reader:
    base: Path
    times: LocalTimes
    ids: Sequence[str]
    wearers: Sequence[Wearer]

    def count(self, row: Table) -> int:
        return whole(row, "count", least=1, most=MOST_ALIKE, default=1)

    def order(self, key: str, row: Table) -> Order:
        due_at, ready_at = self._dates(row)
        people = Names(what="wearer", ids=[wearer.id for wearer in self.wearers])
        return Order(
            id=key,
            pattern=self._pattern(row),
            title=maybe_text(row, "title") or "",
            due_at=due_at,
            ready_at=ready_at,
            weight=whole(row, "weight", least=1, most=MOST_WEIGHT, default=1),
            chosen=tuple(_pairs(row.table("with"))),
            dyed=tuple(_pairs(row.table("dyed"))),
            dipped=texts(row, "dip"),
            wearer=ref(row, "wearer", people) if row.has("wearer") else "",
            after=refs(row, "after", Names(what="build", ids=self.ids)),
        )

    def _pattern(self, row: Table) -> str:
        pattern = text(row, "pattern")
        if pattern and not order_folder(self.base, pattern).is_dir():
            row.fault(
                "pattern",
                "no-such-pattern",
                f'There is no pattern folder "{brief(pattern)}".',
                mend="Name a folder beside this file, or a sample: elbow_cop, collar, three_lames, "
                "arm_harness.",
            )
        return pattern

    def _dates(self, row: Table) -> tuple[datetime | None, datetime | None]:
        due_at = self.times.instant(row, "due", ends=True)
        ready_at = self.times.instant(row, "from")
        if due_at is not None and ready_at is not None and due_at <= ready_at:
            row.fault(
                "due",
                "due-before-start",
                "This build is due before it may begin.",
                mend="Let it begin sooner, or be due later.",
            )
        return due_at, ready_at


def _pairs(table: Table) -> Iterator[tuple[str, str]]:
    for key in table.written():
        yield key, text(table, key)


def _check_ring(after: Mapping[str, tuple[tuple[str, ...], Table]]) -> None:
    """Tell builds that wait for each other, once."""
    for name, (_, row) in after.items():
        ring = _ring_from(name, {each: waits for each, (waits, _) in after.items()})
        if ring:
            words = " waits for ".join(f'"{each}"' for each in ring)
            row.fault(
                "after",
                "builds-in-a-ring",
                f"These builds wait for each other: {words}.",
                mend="Take one of them out of after.",
                about=ring,
            )
            return


def _ring_from(name: str, after: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """Return a ring of builds through this one, from it to itself; nothing where there is none."""
    paths: list[tuple[str, ...]] = [(name,)]
    seen: set[str] = set()
    while paths:
        path = paths.pop()
        for other in after.get(path[-1], ()):
            if other == name:
                return (*path, other)
            if other not in seen:
                seen.add(other)
                paths.append((*path, other))
    return ()
