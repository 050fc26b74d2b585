"""Checks baths: batches of one family, not too full, as long as their dips, apart from each other."""

from collections.abc import Iterator

from armorplan.schedule.activity import Activity, Dip
from armorplan.schedule.problem import Bath, Placed, Problem
from armorplan.schedule.violation import Violation

_Member = tuple[Activity, Placed, Dip]


def bath_violations(
    problem: Problem, lies: dict[str, Placed], free: frozenset[str]
) -> Iterator[Violation]:
    """Check each bath's batches: dips that start in it at the same minute."""
    known = {bath.id for bath in problem.baths}
    members: dict[str, dict[int, list[_Member]]] = {}
    for activity in problem.activities:
        placed = lies.get(activity.id)
        if activity.dip is None or placed is None:
            continue
        way = activity.way(placed.who, placed.mode)
        name = way.bath if way else ""
        if name in known:
            starts = members.setdefault(name, {})
            starts.setdefault(placed.start_min, []).append((activity, placed, activity.dip))
        elif activity.id in free:
            text = f"{activity.id} goes into no bath there is ('{name}')."
            yield Violation(kind="no bath", about=(activity.id,), text=text)
    for bath in problem.baths:
        batches = members.get(bath.id, {})
        for batch in batches.values():
            if free.intersection(a.id for a, _, _ in batch):
                yield from _batch(bath, batch)
        yield from _apart(bath, [batches[start] for start in sorted(batches)], free)


def _batch(bath: Bath, batch: list[_Member]) -> Iterator[Violation]:
    about = tuple(sorted(a.id for a, _, _ in batch))
    families = sorted({dip.family for _, _, dip in batch})
    people = sorted({_told(a, p) for a, p, _ in batch})
    amount = sum(dip.amount for _, _, dip in batch)
    start = batch[0][1].start_min
    shares = (a.way(p.who, p.mode) for a, p, _ in batch)
    takes = max(dip.set_up_min for _, _, dip in batch) + sum(w.minutes for w in shares if w)
    ends = sorted({p.end_min for _, p, _ in batch})
    if len(families) > 1:
        yield Violation(kind="mixed batch", about=about, text=f"{bath.id} holds {families}.")
    if len(people) > 1:
        yield Violation(kind="shared batch", about=about, text=f"{people} dip in one batch.")
    if amount > bath.capacity:
        text = f"{bath.id} holds {bath.capacity}, a batch of {amount} goes in at {start}."
        yield Violation(kind="full bath", about=about, text=text)
    if ends != [start + takes]:
        text = f"A batch in {bath.id} from {start} ends at {start + takes}, not at {ends}."
        yield Violation(kind="batch duration", about=about, text=text)


def _told(activity: Activity, placed: Placed) -> str:
    """Return who dips, with who is beside them."""
    way = activity.way(placed.who, placed.mode)
    return " with ".join((str(placed.who), *(way.also if way else ())))


def _apart(bath: Bath, batches: list[list[_Member]], free: frozenset[str]) -> Iterator[Violation]:
    """Check that batches follow each other, with time to change where the family differs."""
    held = bath.holds
    if batches and held and batches[0][0][2].family != held:
        first = batches[0]
        about = tuple(sorted(a.id for a, _, _ in first))
        if first[0][1].start_min < bath.change_min and free.intersection(about):
            text = f"{bath.id} holds {held} and is changed by {bath.change_min} at the soonest."
            yield Violation(kind="no change", about=about, text=text)
    for at, other in enumerate(batches):
        for one in batches[:at]:
            yield from _pair(bath, one, other, free)


def _pair(
    bath: Bath, one: list[_Member], other: list[_Member], free: frozenset[str]
) -> Iterator[Violation]:
    """Check two batches, the one that begins first before the other."""
    end, start = max(p.end_min for _, p, _ in one), other[0][1].start_min
    differ = one[0][2].family != other[0][2].family
    wanted = end + (bath.change_min if differ else 0)
    if start >= wanted:
        return
    about = tuple(sorted(a.id for a, _, _ in (*one, *other)))
    if free.intersection(about):
        kind = "no change" if start >= end else "bath in use"
        text = f"{bath.id} is free again at {wanted}, the next batch starts at {start}."
        yield Violation(kind=kind, about=about, text=text)
