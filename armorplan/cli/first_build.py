"""Which build a window opens with, and the shop it is worked in."""

from argparse import Namespace
from dataclasses import replace
from pathlib import Path

from armorplan.app.kin_builds import KinBuilds
from armorplan.app.opening import Opened, build_named, first_sample, open_build, resume_build
from armorplan.app.ordered_builds import shop_file_of
from armorplan.app.starting_orders import ShopOrders, begin_orders
from armorplan.cli.reading import pattern_folder, tell, warn
from armorplan.files.shop_file import ShopFile, read_shop_file
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError, UnreadableError
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop


def meant_shop(chosen: Namespace, workshop: WorkshopFile) -> Path | None:
    """Return the shop file a window is worked by; ``None``: one maker with the usual hours.

    It is the one named, or where nothing is named the one that ordered the build that is opened.

    Raises:
        ArmorplanError: two shops are named.
    """
    given = shop_file_of(chosen.pattern) if chosen.pattern else None
    if given is not None and chosen.shop is not None:
        message = f"--shop {chosen.shop}: {chosen.pattern} is a shop already. Name one of the two."
        raise ArmorplanError(message)
    if given or chosen.shop or chosen.pattern:
        return given or chosen.shop
    return _shop_before(chosen, workshop)


def _shop_before(chosen: Namespace, workshop: WorkshopFile) -> Path | None:
    names = tuple(workshop.names())
    build = chosen.build or (names[-1] if names else "")
    sources = {order.build: order.source for order in workshop.orders.all()}
    file = Path(sources.get(build) or "")
    if not file.is_file():
        return None
    try:
        read_shop_file(file)
    except UnreadableError as error:
        tell(f"{error} The shop that ordered '{build}' cannot be read: the usual hours count.")
        return None
    return file


def first_build(
    chosen: Namespace,
    workshop: WorkshopFile,
    where: tuple[Shelf, Shop],
    file: Path | None,
    kin: KinBuilds,
) -> Opened:
    """Return the build meant: named, of the shop or folder given, the latest, or of the first sample.

    What a shop file orders is begun in the workshop, each order once.

    Args:
        chosen: the options.
        workshop: where builds are found, and begun.
        where: the shelf and the shop as they are now.
        file: the shop file, if there is one.
        kin: told of what follows from builds that are begun.

    Raises:
        UnreadableError: the pattern or the shop cannot be read, or no order of it can be made.
        WorkshopError: the workshop file cannot be read or written.
    """
    shelf, shop = where
    if chosen.build is not None:
        build = build_named(workshop.builds(), chosen.build)
        return resume_build(build, shop, today=shelf)
    if file is not None and (chosen.pattern is None or shop_file_of(chosen.pattern) == file):
        read = read_shop_file(file)
        if read.orders:
            what = ShopOrders(file=file, orders=read.orders, shelf=shelf, shop=shop)
            return _ordered(what, workshop, kin)
        if chosen.pattern is not None:
            raise _no_builds(file, read)
    builds = workshop.builds()
    if chosen.pattern is None and builds:
        return resume_build(builds[-1], shop, today=shelf)
    folder = pattern_folder(chosen.pattern) if chosen.pattern else first_sample()
    return open_build(folder, workshop, shelf, shop, clock=SystemClock())


def _ordered(what: ShopOrders, workshop: WorkshopFile, kin: KinBuilds) -> Opened:
    """Begin the orders and return the build due the soonest, with what hindered the others."""
    begun = begin_orders(what, workshop, SystemClock())
    warn(begun.findings)
    for derived in begun.derived:
        kin.know(derived)
    if not begun.first:
        raise UnreadableError(begun.findings)
    opened = resume_build(workshop.build(begun.first), what.shop, today=what.shelf)
    findings = (*begun.findings, *opened.derived.findings)
    return replace(opened, derived=replace(opened.derived, findings=findings))


def _no_builds(file: Path, read: ShopFile) -> ArmorplanError:
    who = ", ".join(person.name for person in read.shop.people)
    return ArmorplanError(
        f"{file}: there are no builds in this shop file, only who works there ({who}). Write a "
        f"table [builds.ID] for each, or open a pattern with --shop {file}."
    )
