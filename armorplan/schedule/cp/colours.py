"""How often a bath changes its colour, for the solver."""

from armorplan.schedule.cp.acts import Acts
from armorplan.schedule.cp.batch import Batch
from armorplan.schedule.cp.batches import Batches
from armorplan.schedule.cp.draft import Draft, Told
from armorplan.schedule.cp.reading import Reading
from armorplan.schedule.problem import Bath
from armorplan.solving.model import opposite


def colour_changes(draft: Draft, acts: Acts, batches: Batches) -> list[str]:
    """Add a literal for each batch before which a bath may have to be changed; return them.

    No change is needed where a batch of the same family lies before and none of another between,
    or where nothing lies before and the bath holds the family already.
    """
    literals = []
    for bath in acts.problem.baths:
        mine = batches.in_bath(bath.id)
        families = {batch.dip.family for batch in mine}
        if not mine or families == {bath.holds} or (len(families) == 1 and not bath.holds):
            continue
        changes = _Changes(draft, acts, batches, bath)
        literals += [changes.lay(batch) for batch in mine]
    return literals


class _Changes:
    """The changes of one bath."""

    def __init__(self, draft: Draft, acts: Acts, batches: Batches, bath: Bath) -> None:
        self._draft = draft
        self._acts = acts
        self._batches = batches
        self._bath = bath
        self._mine = batches.in_bath(bath.id)

    def lay(self, batch: Batch) -> str:
        """Add the literal that the bath is changed before a batch."""
        start = self._acts.start(batch.leader)
        changed = self._draft.boolean(
            f"{start} changes {self._bath.id}", _told_change(self._acts, batch.leader, self._bath)
        )
        instead = [self._lay_after(batch, other) for other in self._alike(batch)]
        if self._bath.holds in ("", batch.dip.family):
            instead.append(self._lay_first(batch))
        leads = [lead for lead, v in batch.leads if v.way.bath == self._bath.id]
        for lead in leads:
            self._draft.some_of(opposite(lead), changed, *instead)
        if not leads:
            self._draft.some_of(changed, *instead)
        return changed

    def _alike(self, batch: Batch) -> list[Batch]:
        family = batch.dip.family
        return [b for b in self._mine if b is not batch and b.dip.family == family]

    def _others(self, batch: Batch) -> list[Batch]:
        return [b for b in self._mine if b.dip.family != batch.dip.family]

    def _lay_first(self, batch: Batch) -> str:
        """Add the literal that no batch of another family lies before."""
        first = self._draft.boolean(
            f"{self._acts.start(batch.leader)} first in {self._bath.id}",
            lambda plan: int(
                plan.leader(batch.leader) == batch.leader
                and plan.bath(batch.leader) == self._bath.id
                and not plan.before(batch.leader)
            ),
        )
        for other in self._others(batch):
            before = self._batches.orders.before(other.leader, batch.leader)
            self._draft.some_of(opposite(first), *self._not_in(other), opposite(before))
        return first

    def _lay_after(self, batch: Batch, other: Batch) -> str:
        """Add the literal that another batch lies before, and between them none that differs."""
        acts, bath = self._acts, self._bath.id
        one, two = other.leader, batch.leader
        after = self._draft.boolean(
            f"{acts.start(two)} after {acts.key(one)} in {bath}",
            lambda plan: int(plan.bath(two) == bath and plan.before(two) == one),
        )
        for inside in (self._batches.inside(one, bath), self._batches.inside(two, bath)):
            if inside is not None:
                self._draft.some_of(opposite(after), inside)
        if not acts.history.keys() >= {one, two}:
            self._draft.gap(acts.end(one), acts.start(two), least=0, only_if=(after,))
        elif acts.history[one].start_min >= acts.history[two].start_min:
            self._draft.some_of(opposite(after))
        for differing in self._others(batch):
            self._draft.some_of(
                opposite(after),
                *self._not_in(differing),
                opposite(self._batches.orders.before(differing.leader, two)),
                self._batches.orders.before(differing.leader, one),
            )
        return after

    def _not_in(self, batch: Batch) -> list[str]:
        inside = self._batches.inside(batch.leader, self._bath.id)
        return [] if inside is None else [opposite(inside)]


def _told_change(acts: Acts, leader: str, bath: Bath) -> Told:
    def told(plan: Reading) -> int:
        if plan.bath(leader) != bath.id or plan.leader(leader) != leader:
            return 0
        before = plan.before(leader)
        dips = (acts.by_id[name].dip for name in (before, leader) if name)
        held = ([] if before or not bath.holds else [bath.holds]) + [d.family for d in dips if d]
        return int(len(set(held)) > 1)

    return told
