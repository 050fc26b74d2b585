"""Which of two dips of different families comes first in a bath, for the solver."""

from collections.abc import Mapping
from itertools import combinations

from armorplan.schedule.cp.acts import Acts
from armorplan.schedule.cp.batch import Batch
from armorplan.schedule.cp.draft import Draft, Told
from armorplan.schedule.problem import Bath
from armorplan.solving.model import opposite


class Orders:
    """The literals of who comes first; ``inside`` says by which literal a dip goes into a bath."""

    def __init__(
        self,
        draft: Draft,
        acts: Acts,
        batches: list[Batch],
        inside: Mapping[tuple[str, str], str | None],
    ) -> None:
        self._draft = draft
        self._acts = acts
        self._inside = inside
        self._orders: dict[tuple[str, str], str] = {}
        self._sure = draft.boolean("sure", lambda _: 1)
        draft.some_of(self._sure)
        self._lay(batches)

    def before(self, one: str, other: str) -> str:
        """Return the literal that a dip lies before one of another family, in the same bath."""
        history = self._acts.history
        if one in history and other in history:
            is_so = history[one].start_min < history[other].start_min
            return self._sure if is_so else opposite(self._sure)
        if (one, other) in self._orders:
            return self._orders[one, other]
        return opposite(self._orders[other, one])

    def _lay(self, batches: list[Batch]) -> None:
        """Add which comes first of any two dips of different families that may meet in a bath.

        Between them lie the minutes of a change.
        """
        baths = [bath.id for bath in self._acts.problem.baths]
        nodes = [(b.leader, b.dip.family) for b in batches]
        meet = {b.leader: {i for i in baths if b.may_be_in(i)} for b in batches}
        for (one, family), (other, another) in combinations(nodes, 2):
            is_told = one in self._acts.history and other in self._acts.history
            if family != another and not is_told and meet[one] & meet[other]:
                literal = self._draft.boolean(
                    f"{self._acts.start(one)} before {self._acts.key(other)}",
                    _told_before(one, other),
                )
                self._orders[one, other] = literal
                for bath in self._acts.problem.baths:
                    if bath.id in meet[one] & meet[other]:
                        self._lay_order(bath, one, other, literal)
                        self._lay_order(bath, other, one, opposite(literal))

    def _lay_order(self, bath: Bath, one: str, other: str, literal: str) -> None:
        acts = self._acts
        inside = (self._inside[one, bath.id], self._inside[other, bath.id])
        self._draft.gap(
            acts.end(one), acts.start(other), least=bath.change_min, only_if=(literal, *inside)
        )


def _told_before(one: str, other: str) -> Told:
    return lambda plan: int(
        plan.bath(one) == plan.bath(other) and plan.start(one) < plan.start(other)
    )
