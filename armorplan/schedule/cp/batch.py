"""One batch that may go into a bath: who may lead it, and who may join."""

from dataclasses import dataclass, field

from armorplan.schedule.activity import Dip, Mode
from armorplan.schedule.cp.acts import Acts
from armorplan.schedule.cp.draft import Draft, Told
from armorplan.schedule.cp.reading import Reading
from armorplan.schedule.cp.variants import Variant
from armorplan.schedule.problem import Placed
from armorplan.solving.model import Term, at_most, opposite


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """A dip that may join a batch in one of its variants; ``literal`` says that it does."""

    literal: str
    name: str
    dip: Dip
    variant: Variant


@dataclass(slots=True, kw_only=True)
class Batch:
    """A batch while the model is written.

    Attributes:
        leader: the dip that speaks for it.
        dip: what the leader asks for; of a batch of history the most set-up of its members.
        end: the variable of its end, and what is added to it.
        leads: the literals that the leader leads, each with its variant; none where history does.
        joins: what may join.
        kept: the batch of history.
    """

    leader: str
    dip: Dip
    end: Term
    leads: list[tuple[str, Variant]] = field(default_factory=list)
    joins: list[Join] = field(default_factory=list)
    kept: "Kept | None" = None

    def takes_in(self, dip: Dip, variant: Variant, capacity: int) -> bool:
        """Tell whether a dip of a variant may join, as far as that is told beforehand."""
        if dip.family != self.dip.family:
            return False
        if self.kept is not None:
            return self.kept.takes_in(self.dip, dip, variant, capacity)
        together = any(go_together(theirs, variant) for _, theirs in self.leads)
        return together and self.dip.amount + dip.amount <= capacity

    def may_be_in(self, bath: str) -> bool:
        """Tell whether it may go into a bath."""
        if self.kept is not None:
            return self.kept.bath == bath
        return any(v.way.bath == bath for _, v in self.leads)

    def lay_set_up(self, draft: Draft, start: str) -> tuple[Term, ...]:
        """Add what its set-up may take beyond the leader's; return it as terms of minutes.

        It takes the most of its members: one literal for each length, which some member that has
        joined asks for, and no member asks for more.
        """
        own = self.dip.set_up_min
        literals: dict[int, str] = {}
        for minutes in sorted({j.dip.set_up_min for j in self.joins if j.dip.set_up_min > own}):
            literal = draft.boolean(f"{start} set-up {minutes}", self._told_set_up(minutes))
            literals[minutes] = literal
            asking = (j.literal for j in self.joins if j.dip.set_up_min == minutes)
            draft.some_of(opposite(literal), *asking)
        for join in self.joins:
            if join.dip.set_up_min > own:
                enough = (x for minutes, x in literals.items() if minutes >= join.dip.set_up_min)
                draft.some_of(opposite(join.literal), *enough)
        if len(literals) > 1:
            draft.keep(tuple((x, 1) for x in literals.values()), at_most(1))
        return tuple((x, minutes - own) for minutes, x in literals.items())

    def _told_set_up(self, minutes: int) -> Told:
        def told(plan: Reading) -> int:
            asked = (j.dip.set_up_min for j in self.joins if plan.leader(j.name) == self.leader)
            return int(max(asked, default=0) == minutes)

        return told


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A batch of history.

    Attributes:
        amount: of all its members.
        left_min: minutes from start to end that are nobody's share: its set-up.
        is_one: it has one family and one person with the same beside, and all end together.
    """

    bath: str
    who: str | None
    also: tuple[str, ...]
    start_min: int
    end_min: int
    amount: int
    left_min: int
    is_one: bool

    def takes_in(self, own: Dip, dip: Dip, variant: Variant, capacity: int) -> bool:
        """Tell whether a dip may join without changing when it ends."""
        spare = self.left_min - max(own.set_up_min, dip.set_up_min) - variant.way.minutes
        way = variant.way
        same = (way.bath, way.who, way.also) == (self.bath, self.who, self.also)
        return self.is_one and same and spare >= 0 and self.amount + dip.amount <= capacity


def go_together(one: Variant, other: Variant) -> bool:
    """Tell whether two dips may be one batch: the same bath and the same person, alike beside."""
    mine, theirs = one.way, other.way
    return (mine.bath, mine.who, mine.also) == (theirs.bath, theirs.who, theirs.also)


def kept_batches(acts: Acts) -> list[Batch]:
    """Return the batches of history, in order of bath and start."""
    known = {bath.id for bath in acts.problem.baths}
    members: dict[tuple[str, int], list[tuple[Placed, Dip, Mode]]] = {}
    for activity in acts.problem.activities:
        placed = acts.history.get(activity.id)
        way = activity.way(placed.who, placed.mode) if placed else None
        if placed is not None and activity.dip is not None and way and way.bath in known:
            batch = members.setdefault((way.bath, placed.start_min), [])
            batch.append((placed, activity.dip, way))
    return [_kept(bath, members[bath, start], acts) for bath, start in sorted(members)]


def _kept(bath: str, members: list[tuple[Placed, Dip, Mode]], acts: Acts) -> Batch:
    leader, dip, way = members[0]
    end = max(p.end_min for p, _, _ in members)
    alike = {(p.end_min, p.who, w.also, d.family) for p, d, w in members}
    set_up = max(d.set_up_min for _, d, _ in members)
    return Batch(
        leader=leader.id,
        dip=Dip(family=dip.family, amount=dip.amount, set_up_min=set_up),
        end=(acts.start(leader.id), end - leader.start_min),
        kept=Kept(
            bath=bath,
            who=leader.who,
            also=way.also,
            start_min=leader.start_min,
            end_min=end,
            amount=sum(d.amount for _, d, _ in members),
            left_min=end - leader.start_min - sum(w.minutes for _, _, w in members),
            is_one=len(alike) == 1,
        ),
    )
