"""One build in hand: its work, what was done of it, and when it is due."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from armorplan.assembly.model import Assembly
from armorplan.relations.model import Relation
from armorplan.schedule.bench_history import NOTHING_DONE, History
from armorplan.schedule.workplace import Workplace
from armorplan.steps.model import Work


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildInHand:
    """A build as the planner takes it.

    Attributes:
        id: the build's; its activities' ids begin with it.
        title: what sentences call it.
        relations: those that bind become demands; so do those that only steer, where ``order``
            keeps them, since what is easier in the order is easier in the plan. Overruled ones
            ask for nothing.
        workplace: people and their hours, the air of the room, the treatments.
        order: the chosen order, that of the joints as it stands; of other steps the lags leave
            free, the earlier one is placed first.
        history: what was done.
        due_at, ready_at, weight: as in ``workshop.orders.Order``.
        assembly: its parts, for how much of a bath and a rack they take; ``None``: reckoned with
            a usual part.
        wearer: who it is fitted on; empty: the shop's only wearer, where it has one.
        after: ids of builds that are finished before it begins.
    """

    id: str
    title: str
    work: Work
    relations: Iterable[Relation]
    workplace: Workplace
    order: tuple[str, ...]
    history: History = NOTHING_DONE
    due_at: datetime | None = None
    ready_at: datetime | None = None
    weight: int = 1
    assembly: Assembly | None = None
    wearer: str = ""
    after: tuple[str, ...] = ()
