"""Which build a window opens with, and the shop it is worked in."""

from argparse import Namespace
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from armorplan.app.kin_builds import KinBuilds
from armorplan.app.opening import Opened, build_named, first_sample, open_build, resume_build
from armorplan.app.ordered_builds import shop_file_of
from armorplan.app.starting_orders import ShopOrders, begin_first, begin_orders
from armorplan.cli.reading import pattern_folder, tell, warn
from armorplan.files.shop_file import ShopFile, read_shop_file
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError, UnreadableError
from armorplan.store.gate import OPEN, Gate
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Started:
    """The build a window opens with, and the orders of its shop if some are left to begin."""

    opened: Opened
    left: ShopOrders | None = None


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
) -> Started:
    """Return the build meant: named, of the shop or folder given, the latest, or of the first sample.

    Of what a shop file orders the build due the soonest is begun; ``begin_left`` begins the others.

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
        return Started(opened=resume_build(build, shop, today=shelf))
    if file is not None and (chosen.pattern is None or shop_file_of(chosen.pattern) == file):
        read = read_shop_file(file)
        if read.orders:
            what = ShopOrders(file=file, orders=read.orders, shelf=shelf, shop=shop)
            return _ordered(what, workshop, kin)
        if chosen.pattern is not None:
            raise _no_builds(file, read)
    builds = workshop.builds()
    if chosen.pattern is None and builds:
        return Started(opened=resume_build(builds[-1], shop, today=shelf))
    folder = pattern_folder(chosen.pattern) if chosen.pattern else first_sample()
    return Started(opened=open_build(folder, workshop, shelf, shop, clock=SystemClock()))


def _ordered(what: ShopOrders, workshop: WorkshopFile, kin: KinBuilds) -> Started:
    """Begin the build due the soonest, and leave the others for later; or go on with all."""
    begun = begin_first(what, workshop, SystemClock(), on_begun=kin.know)
    if not begun.first:
        raise UnreadableError(begun.findings)
    if begun.is_whole:
        kin.not_begun = begun.findings
        warn(begun.findings)
    opened = resume_build(workshop.build(begun.first), what.shop, today=what.shelf)
    return Started(opened=opened, left=None if begun.is_whole else what)


def open_shop(
    file: Path, workshop: WorkshopFile, where: tuple[Shelf, Shop], kin: KinBuilds
) -> Opened:
    """Begin all that a shop file orders, and return the build due the soonest.

    Raises:
        UnreadableError: the shop cannot be read, or no order of it can be made.
        ArmorplanError: it orders nothing.
        WorkshopError: the workshop file cannot be read or written.
    """
    shelf, shop = where
    read = read_shop_file(file)
    if not read.orders:
        raise _no_builds(file, read)
    what = ShopOrders(file=file, orders=read.orders, shelf=shelf, shop=shop)
    begun = begin_orders(what, workshop, SystemClock(), on_begun=kin.know)
    if not begun.first:
        raise UnreadableError(begun.findings)
    kin.not_begun = begun.findings
    return resume_build(workshop.build(begun.first), shop, today=shelf)


def begin_left(
    path: Path,
    what: ShopOrders,
    kin: KinBuilds,
    should_stop: Callable[[], bool],
    *,
    gate: Gate = OPEN,
) -> None:
    """Begin what a shop orders besides, in any thread, over a connection of its own.

    Raises:
        WorkshopError: the workshop file cannot be read or written.
    """
    with closing(WorkshopFile.open(path, SystemClock(), gate)) as own:
        begun = begin_orders(what, own, SystemClock(), on_begun=kin.know, should_stop=should_stop)
    kin.not_begun = begun.findings
    warn(begun.findings)


def _no_builds(file: Path, read: ShopFile) -> ArmorplanError:
    who = ", ".join(person.name for person in read.shop.people)
    return ArmorplanError(
        f"{file}: there are no builds in this shop file, only who works there ({who}). Write a "
        f"table [builds.ID] for each, or open a pattern with --shop {file}."
    )
