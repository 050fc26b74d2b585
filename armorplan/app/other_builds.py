"""The other builds in hand of the workshop: their orders and ledgers, read along."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from typing import Protocol

from armorplan.ledger.build_orders import BuildOrder
from armorplan.ledger.builds import BuildRecord
from armorplan.ledger.events import Event
from armorplan.ledger.state import LedgerState, derive


class OrderShelf(Protocol):
    """Where orders and promises are kept."""

    def all(self) -> tuple[BuildOrder, ...]:
        """Return what was agreed about each build."""
        ...

    def keep(self, *orders: BuildOrder) -> None:
        """Keep these, all or none."""
        ...

    def promise(self, plan_json: str) -> int:
        """Keep a plan as promised; return its number."""
        ...

    def promised(self) -> tuple[int, datetime, str] | None:
        """Return the plan promised last."""
        ...


class KinLedger(Protocol):
    """A workshop as the planning of several builds asks it."""

    @property
    def orders(self) -> OrderShelf:
        """Where orders are kept."""
        ...

    def names(self) -> dict[str, str]:
        """Return the names of all builds by their ids, oldest first."""
        ...

    def names_of(self, pattern_uuid: str) -> dict[str, str]:
        """Return the names of a pattern's builds by their ids, oldest first."""
        ...

    def build(self, build_id: str) -> BuildRecord:
        """Return a build; WorkshopError where there is none."""
        ...

    def events_since(self, build_id: str, seq: int) -> tuple[Event, ...]:
        """Return a build's entries after this number."""
        ...


@dataclass(frozen=True, kw_only=True)
class Beside:
    """Another build in hand, as its ledger stands."""

    build: str
    name: str
    order: BuildOrder
    events: tuple[Event, ...]

    @cached_property
    def ledger(self) -> LedgerState:
        """How it stands; derived once."""
        return derive(self.events)


class OtherBuilds:
    """Reads along what is agreed about all builds, and what is done at those in hand.

    Where something of the file cannot be read, WorkshopError comes out of ``read_new``.
    """

    def __init__(self, build: str, ledger: KinLedger) -> None:
        self._build = build
        self._ledger = ledger
        self._beside: dict[str, Beside] = {}
        self._records: dict[str, BuildRecord] = {}
        self.names: Mapping[str, str] = {}
        self.orders: Mapping[str, BuildOrder] = {}
        self.read_new()

    @property
    def beside(self) -> tuple[Beside, ...]:
        """The builds in hand other than the open one, by their ids."""
        return tuple(self._beside[build] for build in sorted(self._beside))

    @property
    def order(self) -> BuildOrder | None:
        """What was agreed about the open build; ``None``: nothing."""
        return self.orders.get(self._build)

    def read_new(self) -> bool:
        """Take in what is new; tell whether anything of it changes what has to be planned.

        Raises:
            WorkshopError: the file cannot be read.
        """
        self.names = self._ledger.names()
        orders = {order.build: order for order in self._ledger.orders.all()}
        changed = orders != self.orders
        found = {order.build: self._read(order) for order in self._in_hand(orders)}
        changed |= found != self._beside
        self.orders, self._beside = orders, found
        return changed

    def record(self, build: str) -> BuildRecord:
        """Return a build with its snapshot, which is large: ask where it has to be derived only.

        Raises:
            WorkshopError: the file cannot be read.
        """
        if build not in self._records:
            self._records[build] = self._ledger.build(build)
        return self._records[build]

    def _in_hand(self, orders: Mapping[str, BuildOrder]) -> Iterator[BuildOrder]:
        return (o for o in orders.values() if o.in_hand and o.build != self._build)

    def _read(self, order: BuildOrder) -> Beside:
        known, name = self._beside.get(order.build), self.names.get(order.build, order.build)
        events = known.events if known else ()
        new = self._ledger.events_since(order.build, events[-1].seq if events else 0)
        if known and not new and (order, name) == (known.order, known.name):
            return known
        return Beside(build=order.build, name=name, order=order, events=(*events, *new))
