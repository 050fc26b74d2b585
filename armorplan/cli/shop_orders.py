"""The builds of a shop file that a command plans: as they stand in the workshop, or not begun yet."""

from argparse import Namespace
from contextlib import closing
from dataclasses import replace
from pathlib import Path

from armorplan.app.ordered_builds import BuildToPlan, derive_orders
from armorplan.app.standing_builds import standing_builds
from armorplan.app.starting_orders import ShopOrders, known_orders
from armorplan.cli.instants import start_of
from armorplan.cli.reading import tell
from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError, WorkshopError
from armorplan.kernel.findings import Finding
from armorplan.store.places import default_workshop_path
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.orders import Order

Found = tuple[tuple[BuildToPlan, ...], tuple[Finding, ...]]


def orders_of(file: Path) -> tuple[Order, ...]:
    """Return the orders of a shop file.

    Raises:
        UnreadableError: with every fault of the file.
        ArmorplanError: it has none.
    """
    orders = read_shop_file(file).orders
    if not orders:
        message = (
            f"{file}: there are no builds in this shop file to plan. Write a table [builds.ID] "
            "for each, with its pattern."
        )
        raise ArmorplanError(message)
    return orders


def builds_to_plan(chosen: Namespace, ordered: ShopOrders) -> Found:
    """Return what is to be planned, and of what cannot be why.

    Once the shop was opened in the window, its builds are planned as they stand in the workshop,
    with the others in hand there; ``--from`` plans all orders anew from then on.

    Raises:
        WorkshopError: the workshop that was named cannot be read.
    """
    path = chosen.workshop or default_workshop_path()
    found: Found | None = None
    if chosen.start is None and path.exists():
        try:
            with closing(WorkshopFile.open(path, SystemClock())) as workshop:
                found = _as_they_stand(workshop, ordered)
        except WorkshopError as error:
            if chosen.workshop is not None:
                raise
            tell(f"{error} The builds are planned as if none was begun.")
    if found is not None:
        return found
    return derive_orders(ordered.orders, ordered.file, ordered.shelf, ordered.shop)


def _as_they_stand(workshop: WorkshopFile, ordered: ShopOrders) -> Found | None:
    """Return the builds in hand, and the orders that were not begun; ``None`` where none was."""
    begun = {order.key: order for order in known_orders(ordered, workshop)}
    if not begun:
        return None
    origin_at = start_of(None, ordered.shop.zone)
    standing, told = standing_builds(workshop, ordered.shop, SystemClock(), origin_at=origin_at)
    new = tuple(order for order in ordered.orders if order.id not in begun)
    ids = {key: order.build for key, order in begun.items()}
    new = tuple(replace(o, after=tuple(ids.get(f, f) for f in o.after)) for o in new)
    more, why = derive_orders(new, ordered.file, ordered.shelf, ordered.shop)
    tell(f"Planned as they stand in the workshop: {_names(standing) or 'none, all are done'}.")
    return (*standing, *more), (*told, *why)


def _names(builds: tuple[BuildToPlan, ...]) -> str:
    return ", ".join(build.in_hand.title for build in builds)
