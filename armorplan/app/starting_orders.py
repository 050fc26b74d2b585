"""Begins the builds that a shop file orders in a workshop; a second time it goes on with the same."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path
from typing import Protocol

from armorplan.app.begun_record import begun_record
from armorplan.app.derived import Derived, derive_build
from armorplan.app.opening import Builds
from armorplan.app.ordered_builds import not_made, read_order
from armorplan.app.orders_in_turn import due_by_file, formers_first, with_formers
from armorplan.app.other_builds import OrderShelf
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import ArmorplanError, FaultyPatternError, WorkshopError
from armorplan.kernel.findings import Finding, Severity
from armorplan.ledger.build_orders import BuildOrder
from armorplan.ledger.builds import next_build_id
from armorplan.workshop.orders import Order
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop

_MADE = " made "
"""Parts, in what was told of an order, dates and weight from what is made."""


class OrderingWorkshop(Builds, Protocol):
    """A workshop whose builds are ordered."""

    @property
    def orders(self) -> OrderShelf:
        """Where orders are kept."""
        ...

    def names(self) -> dict[str, str]:
        """Return the names of all builds by their ids, oldest first."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopOrders:
    """What a shop file orders.

    Attributes:
        file: the shop file.
        orders: its orders.
        shelf, shop: what the builds are made from, and where.
    """

    file: Path
    orders: tuple[Order, ...]
    shelf: Shelf
    shop: Shop

    @property
    def source(self) -> str:
        """What names the file in the workshop."""
        return str(self.file.resolve())


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """What became of the orders.

    Attributes:
        first: the build to open: of those ordered the one due the soonest; empty where none is.
        derived: what follows from those begun just now.
        findings: of those that could not be begun, why.
        is_whole: nothing is left to begin.
    """

    first: str
    derived: tuple[Derived, ...] = ()
    findings: tuple[Finding, ...] = ()
    is_whole: bool = True


@dataclass(slots=True, kw_only=True)
class _Starting:
    """Begins orders one by one; each is kept whole before the next is looked at."""

    what: ShopOrders
    workshop: OrderingWorkshop
    clock: Clock
    on_begun: Callable[[Derived], None] | None = None
    ids: dict[str, str] = field(default_factory=dict)
    derived: list[Derived] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)

    def run(self, should_stop: Callable[[], bool]) -> None:
        known = self._know()
        for order in formers_first(self.what.orders):
            if should_stop():
                return
            if order.id in known:
                self._go_on(order, known[order.id])
            else:
                self._begin(order)

    def run_first(self) -> None:
        """Begin of all orders the one due the soonest that can be begun, with what it waits for."""
        if len(self._know()) == len(self.what.orders):
            self.run(lambda: False)
            return
        tried: set[str] = set()
        for wanted in sorted(self.what.orders, key=due_by_file):
            for order in formers_first(with_formers(wanted, self.what.orders)):
                if order.id not in self.ids and order.id not in tried:
                    tried.add(order.id)
                    self._begin(order)
            if wanted.id in self.ids:
                return

    def _know(self) -> dict[str, BuildOrder]:
        known = {order.key: order for order in known_orders(self.what, self.workshop)}
        self.ids = {key: order.build for key, order in known.items()}
        return known

    def _go_on(self, order: Order, kept: BuildOrder) -> None:
        """Take over what the file says anew; what was agreed at the bench since stands."""
        if kept.told != _told(order):
            anew = self._agreed(order, kept.build)
            self.workshop.orders.keep(replace(anew, in_hand=kept.in_hand))
            if _made_as(kept.told) != _made_as(anew.told):
                self.findings.append(_begun_otherwise(order, kept.build))
        elif kept.source != self.what.source:
            self.workshop.orders.keep(replace(kept, source=self.what.source))

    def _begin(self, order: Order) -> None:
        try:
            made_from = read_order(order, self.what.file.parent, self.what.shelf)
            build = next_build_id(order.id, self.workshop.names())
            derived = derive_build(made_from.pattern, self.what.shelf, self.what.shop, build=build)
            if not derived.order:
                raise FaultyPatternError(derived.findings)
        except WorkshopError:
            raise
        except ArmorplanError as error:
            self.findings.append(not_made(order, error))
            return
        record = begun_record(
            derived,
            made_from.source,
            shelf=self.what.shelf,
            at=self.clock.now(),
            name=made_from.title,
            folder=str(made_from.folder.resolve()),
        )
        if self.on_begun is not None:
            self.on_begun(derived)
        try:
            self.workshop.add_build(record, order=self._agreed(order, build))
        except WorkshopError:
            # Another window may have begun it meanwhile.
            begun = [o for o in known_orders(self.what, self.workshop) if o.key == order.id]
            if not begun:
                raise
            build = begun[0].build
        else:
            self.derived.append(derived)
        self.ids[order.id] = build

    def _agreed(self, order: Order, build: str) -> BuildOrder:
        return BuildOrder(
            build=build,
            due_at=order.due_at,
            ready_at=order.ready_at,
            weight=order.weight,
            wearer=order.wearer,
            after=tuple(self.ids[former] for former in order.after if former in self.ids),
            source=self.what.source,
            key=order.id,
            told=_told(order),
        )


def begin_orders(
    what: ShopOrders,
    workshop: OrderingWorkshop,
    clock: Clock,
    *,
    on_begun: Callable[[Derived], None] | None = None,
    should_stop: Callable[[], bool] = lambda: False,
) -> Begun:
    """Begin what a shop file orders, each order once however often this is called.

    A date or weight changed in the file counts anew; one changed at the bench stands until then.

    Args:
        what: the orders.
        workshop: where they are begun.
        clock: tells when.
        on_begun: told what follows from a build just before the workshop has it.
        should_stop: asked before each; those that are left are begun another time.

    Raises:
        WorkshopError: the workshop file cannot be read or written.
    """
    starting = _Starting(what=what, workshop=workshop, clock=clock, on_begun=on_begun)
    starting.run(should_stop)
    return _begun(starting)


def begin_first(
    what: ShopOrders,
    workshop: OrderingWorkshop,
    clock: Clock,
    *,
    on_begun: Callable[[Derived], None] | None = None,
) -> Begun:
    """Begin of what a shop file orders the build due the soonest, so that a window can show it.

    Where all were begun before it goes on with them; else ``Begun.is_whole`` says that others are
    left for ``begin_orders``.

    Raises:
        WorkshopError: the workshop file cannot be read or written.
    """
    starting = _Starting(what=what, workshop=workshop, clock=clock, on_begun=on_begun)
    starting.run_first()
    return _begun(starting)


def _begun(starting: _Starting) -> Begun:
    what, ids = starting.what, starting.ids
    agreed = {order.build: order for order in starting.workshop.orders.all()}
    mine = [ids[order.id] for order in what.orders if order.id in ids]
    in_hand = [build for build in mine if agreed[build].in_hand]
    first = min(in_hand or mine, key=lambda build: _due(agreed, build), default="")
    return Begun(
        first=first,
        derived=tuple(starting.derived),
        findings=tuple(starting.findings),
        is_whole=len(mine) + len(starting.findings) == len(what.orders),
    )


class _Ordered(Protocol):
    @property
    def orders(self) -> OrderShelf: ...


def known_orders(what: ShopOrders, workshop: _Ordered) -> list[BuildOrder]:
    """Return the orders of this file that were begun; also of where it lay before it was moved."""
    asked = {order.id for order in what.orders}
    found = [order for order in workshop.orders.all() if order.key in asked]
    here = [order for order in found if order.source == what.source]
    return here or [order for order in found if not Path(order.source).exists()]


def _due(agreed: Mapping[str, BuildOrder], build: str) -> tuple[bool, float]:
    due_at: datetime | None = agreed[build].due_at
    return due_at is None, due_at.timestamp() if due_at else 0.0


def _told(order: Order) -> str:
    """Return what the file says of an order, as a text that is another as soon as that is."""
    said = (order.due_at, order.ready_at, order.weight, order.wearer, order.after)
    made = (order.pattern, order.chosen, order.dyed, order.dipped)
    return f"{said!r}{_MADE}{made!r}"


def _made_as(told: str) -> str:
    return told.partition(_MADE)[2]


def _begun_otherwise(order: Order, build: str) -> Finding:
    return Finding(
        code="begun-otherwise",
        severity=Severity.WARNING,
        text=f"The shop file has '{order.id}' made otherwise now; its build {build} was begun "
        "before, and goes on as it was begun.",
        remedy="To make it otherwise, order it anew under another id and lay this build aside.",
        about=(build,),
    )
