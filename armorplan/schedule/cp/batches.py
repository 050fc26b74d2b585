"""Baths for the solver: who dips with whom, how long a batch takes, and which comes first.

Of the dips of a batch the first in the problem's order leads it, and the others join: the batch is
the leader's interval, and so it takes hands and bath once. A batch that history began is led by
history; a free dip may join it only where that leaves its end as it is.
"""

from collections.abc import Iterable

from armorplan.schedule.activity import Dip
from armorplan.schedule.calendars import merged
from armorplan.schedule.cp.acts import Acts
from armorplan.schedule.cp.batch import Batch, Join, Kept, go_together, kept_batches
from armorplan.schedule.cp.draft import Draft, Told
from armorplan.schedule.cp.hands import Hands
from armorplan.schedule.cp.orders import Orders
from armorplan.schedule.cp.reading import Reading
from armorplan.schedule.cp.variants import Variant
from armorplan.schedule.problem import Bath
from armorplan.solving.model import NoOverlap, at_most, opposite


class Batches:
    """Writes what baths ask for."""

    def __init__(self, draft: Draft, acts: Acts, hands: Hands) -> None:
        self._draft = draft
        self._acts = acts
        self._hands = hands
        self._inside: dict[tuple[str, str], str | None] = {}
        self.batches = kept_batches(acts)
        """Every batch there can be, led by history or by a free dip."""
        for activity in acts.problem.activities:
            if activity.dip is not None and activity.id not in acts.history:
                self._lay_dip(activity.id, activity.dip)
        for batch in self.batches:
            self._lay_batch(batch)
        self.orders = Orders(draft, acts, self.batches, self._inside)
        for bath in acts.problem.baths:
            self._lay_bath(bath)

    def inside(self, name: str, bath: str) -> str | None:
        """Return the literal that a dip goes into a bath; ``None`` where it surely does."""
        return self._inside[name, bath]

    def led(self) -> list[str]:
        """Return a literal for each way in which a free dip leads a batch: each has to be set up."""
        return [lead for batch in self.batches for lead, _ in batch.leads]

    def in_bath(self, bath: str) -> list[Batch]:
        """Return the batches that may go into a bath."""
        return [batch for batch in self.batches if batch.may_be_in(bath)]

    def _lay_dip(self, name: str, dip: Dip) -> None:
        """Add who leads and who joins whom: each dip does one of it, and so does each variant."""
        mine = Batch(leader=name, dip=dip, end=self._acts.end(name))
        choices: list[str] = []
        for at, (variant, literal) in enumerate(self._acts.chosen(name)):
            lead = self._draft.boolean(
                f"{self._acts.start(name)} leads {at}", _told_lead(name, variant)
            )
            mine.leads.append((lead, variant))
            room = self._capacity(variant.way.bath)
            takers = (b for b in self.batches if b.takes_in(dip, variant, room))
            parts = [lead, *(self._join(name, at, variant, batch) for batch in takers)]
            if literal is not None:
                terms = (*((part, 1) for part in parts), (literal, -1))
                self._draft.keep(terms, ((0, 0),))
            choices += parts
        if choices:
            self._draft.one_of(*choices)
            self.batches.append(mine)
        self._lay_inside(name)

    def _join(self, name: str, at: int, variant: Variant, batch: Batch) -> str:
        """Add the literal that a dip joins a batch, and what it follows from it."""
        acts = self._acts
        literal = self._draft.boolean(
            f"{acts.start(name)} joins {acts.key(batch.leader)} {at}",
            _told_join(name, variant, batch.leader),
        )
        dip = acts.by_id[name].dip or Dip(family="")
        batch.joins.append(Join(literal=literal, name=name, dip=dip, variant=variant))
        start = ((acts.start(name), 1), (acts.start(batch.leader), -1))
        self._draft.keep(start, ((0, 0),), literal)
        (mine, more), (end, offset) = acts.end(name), batch.end
        self._draft.keep(((mine, 1), (end, -1)), ((offset - more,) * 2,), literal)
        if batch.leads:
            allowed = [lead for lead, theirs in batch.leads if go_together(theirs, variant)]
            self._draft.some_of(opposite(literal), *allowed)
        return literal

    def _lay_inside(self, name: str) -> None:
        """Add the literals that a dip goes into each of its baths."""
        chosen = self._acts.chosen(name)
        baths = dict.fromkeys(v.way.bath for v, _ in chosen)
        for bath in baths:
            literals = [x for v, x in chosen if v.way.bath == bath and x is not None]
            if len(baths) == 1:
                self._inside[name, bath] = None
            elif len(literals) == 1:
                self._inside[name, bath] = literals[0]
            else:
                inside = self._draft.boolean(
                    f"{self._acts.start(name)} in {bath}", _told_inside(name, bath)
                )
                self._draft.keep(
                    ((inside, 1), *((x, -1) for x in literals)),
                    ((0, 0),),
                )
                self._inside[name, bath] = inside

    def _lay_batch(self, batch: Batch) -> None:
        if batch.kept is not None:
            self._inside[batch.leader, batch.kept.bath] = None
            self._lay_kept(batch, batch.kept)
            return
        for bath in sorted({v.way.bath for _, v in batch.leads}):
            joined = tuple(
                (j.literal, j.dip.amount) for j in batch.joins if j.variant.way.bath == bath
            )
            if joined:
                room = self._capacity(bath) - batch.dip.amount
                self._draft.keep(joined, at_most(room))
        end, start = self._acts.end(batch.leader)[0], self._acts.start(batch.leader)
        set_up = batch.lay_set_up(self._draft, start)
        shares = [(j.literal, j.variant.way.minutes) for j in batch.joins]
        longer = tuple((literal, -minutes) for literal, minutes in (*shares, *set_up))
        for lead, variant in batch.leads:
            lasts = variant.way.minutes + batch.dip.set_up_min
            terms = ((end, 1), (start, -1), *longer)
            self._draft.keep(terms, ((lasts, lasts),), lead)
            if variant.way.who is not None:
                interval = self._acts.interval(batch.leader, lead)
                for person in dict.fromkeys((variant.way.who, *variant.way.also)):
                    self._hands.take(person, interval)
        self._lay_company(batch)

    def _lay_kept(self, batch: Batch, kept: Kept) -> None:
        """Let dips join a batch of history only where it ends as it does."""
        if not batch.joins:
            return
        leader = batch.leader
        names = [j.name for j in batch.joins]
        joined = self._draft.boolean(
            f"joined {self._acts.key(leader)}",
            lambda plan: int(any(plan.leader(name) == leader for name in names)),
        )
        for join in batch.joins:
            self._draft.some_of(opposite(join.literal), joined)
        room = self._capacity(kept.bath) - kept.amount
        amounts = tuple((j.literal, j.dip.amount) for j in batch.joins)
        self._draft.keep(amounts, at_most(room), joined)
        shares = tuple((j.literal, j.variant.way.minutes) for j in batch.joins)
        left = kept.left_min - batch.dip.set_up_min
        set_up = batch.lay_set_up(self._draft, self._acts.start(leader))
        self._draft.keep((*shares, *set_up), ((left, left),), joined)

    def _lay_company(self, batch: Batch) -> None:
        """Let a batch take the time of everybody who has to be there for one of its dips."""
        by_id, leader = self._acts.by_id, batch.leader
        members = [(lead, leader, v) for lead, v in batch.leads]
        members += [(j.literal, j.name, j.variant) for j in batch.joins]
        people = dict.fromkeys(p for _, name, _ in members for p in by_id[name].also)
        for person in people:
            wanted = [
                literal
                for literal, name, v in members
                if person in by_id[name].also and person not in (v.way.who, *v.way.also)
            ]
            there = self._draft.boolean(
                f"{self._acts.start(leader)} with {person}", _told_there(wanted)
            )
            for literal in wanted:
                self._draft.some_of(opposite(literal), there)
            self._hands.take(person, self._acts.interval(leader, there), is_own=False)

    def _lay_bath(self, bath: Bath) -> None:
        """Keep the batches of a bath apart, and what history keeps in it."""
        intervals = [
            self._acts.interval(batch.leader, lead)
            for batch in self.batches
            for lead, variant in batch.leads
            if variant.way.bath == bath.id
        ]
        kept = merged(
            (b.kept.start_min, b.kept.end_min)
            for b in self.batches
            if b.kept is not None and b.kept.bath == bath.id
        )
        if intervals:
            fixed = (self._draft.interval(begin, end - begin) for begin, end in kept)
            self._draft.need(NoOverlap(intervals=(*intervals, *fixed)))

    def _capacity(self, bath: str) -> int:
        return next(b.capacity for b in self._acts.problem.baths if b.id == bath)


def _is_way(plan: Reading, name: str, variant: Variant) -> bool:
    lies = plan.lies[name]
    return (lies.who, lies.mode) == (variant.way.who, variant.way.name)


def _told_lead(name: str, variant: Variant) -> Told:
    return lambda plan: int(plan.leader(name) == name and _is_way(plan, name, variant))


def _told_join(name: str, variant: Variant, leader: str) -> Told:
    return lambda plan: int(plan.leader(name) == leader and _is_way(plan, name, variant))


def _told_inside(name: str, bath: str) -> Told:
    return lambda plan: int(plan.bath(name) == bath)


def _told_there(wanted: Iterable[str]) -> Told:
    literals = tuple(wanted)
    return lambda plan: int(any(plan.at((literal, 0)) for literal in literals))
