"""``armorplan [PATTERN]``: the window, with the real clock, workshop file and solver process."""

import os
import sys
from argparse import Namespace
from collections.abc import Callable
from functools import partial
from pathlib import Path
from uuid import uuid4

from armorplan.app.kin_builds import KinBuilds
from armorplan.app.opening import Opened
from armorplan.app.own_pins import OwnPins
from armorplan.app.printer_scales import OwnPrinters
from armorplan.app.session import Session
from armorplan.app.test_strip import keep_neutral
from armorplan.app.wishes import Wishes
from armorplan.cli.airs import Airs
from armorplan.cli.build_reading import BuildReading
from armorplan.cli.drafts import Drafts
from armorplan.cli.first_build import begin_left, first_build, meant_shop
from armorplan.cli.kept_workshop import Backups, opened_workshop
from armorplan.cli.reading import shelf_for
from armorplan.cli.seeking import Seeker
from armorplan.cli.shop_now import shop_now
from armorplan.cli.trials import Trials
from armorplan.cli.who_works import who_works
from armorplan.cli.workshop_turn import not_begun_here, turn_of_a_window
from armorplan.desktop.display import why_no_window
from armorplan.files.shop_file import SHOP_FILE
from armorplan.files.source import PATTERN_FILE
from armorplan.geometry.bends.strip import StripResult
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.shipped import samples_folder
from armorplan.solving.keeper import SolverKeeper
from armorplan.store.gate import ReadsAlongError
from armorplan.store.one_writer import OneWriter
from armorplan.store.places import default_workshop_path, own_catalogues_path, printers_folder
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shelf import Shelf


def window(chosen: Namespace) -> int:
    """Open the window; return its exit code, or raise ArmorplanError where none can open."""
    reason = why_no_window(os.environ, sys.platform)
    if reason:
        raise ArmorplanError(reason)
    clock = SystemClock()
    path = chosen.workshop or default_workshop_path()
    with turn_of_a_window(path, clock, write_here=chosen.write_here) as turn:
        return _run(chosen, Backups(path=path, clock=clock, gate=turn), turn)


def _run(chosen: Namespace, backups: Backups, turn: OneWriter) -> int:
    from armorplan.desktop.run import run_window
    from armorplan.desktop.strip_fields import StripBench
    from armorplan.desktop.widgets.workshop_keeping import StoreBench

    path, clock = backups.path, backups.clock
    # Read anew for each folder that is opened, so that a price mended meanwhile counts.
    shelf = partial(shelf_for, chosen.catalogues)
    workshop = opened_workshop(backups)
    keeper = SolverKeeper()
    try:
        file = meant_shop(chosen, workshop)
        shop = shop_now(file, path, shelf, clock, gate=turn)
        keeper.warm_up()
        drafts, kin = Drafts(shelf, shop), KinBuilds()
        seat = partial(_seat, workshop, drafts, kin, who_works(chosen.who, shop.told, file))
        folder = chosen.catalogues or own_catalogues_path()
        today = shelf()
        reading = BuildReading(path=path, shelf=shelf, shop=shop, kin=kin, seat=seat, gate=turn)
        try:
            started = first_build(chosen, workshop, (today, shop(today)), file, kin)
        except ReadsAlongError as error:
            raise not_begun_here(turn, path) from error
        return run_window(
            seat(started.opened),
            reading,
            planner=Seeker(keeper, lambda: shop.told),
            clock=clock,
            samples=_samples(),
            drafts=drafts,
            strips=StripBench(partial(_leathers, shelf), partial(_keep_strip, folder)),
            trials=Trials(
                workshop_path=path,
                own_catalogues_dir=folder,
                shelf=shelf,
                shop=shop,
                seat=seat,
                clock=clock,
                gate=turn,
            ),
            airs=Airs(shop=shop),
            resumer=reading.resume,
            wishes=Wishes(solver=keeper),
            later=partial(begin_left, path, started.left, kin, gate=turn)
            if started.left
            else None,
            store=StoreBench(turn, backups),
            pins=OwnPins(folder=folder, shelf=shelf),
            printers=OwnPrinters(printers_folder()),
            shelf=shelf,
        )
    finally:
        keeper.close()
        workshop.close()


def _leathers(shelf: Callable[[], Shelf]) -> tuple[tuple[str, str], ...]:
    return tuple((leather.id, leather.name) for leather in shelf().leathers)


def _keep_strip(folder: Path, leather: str, result: StripResult) -> str:
    """Write what a strip told of a leather; say what it was before, and for what it counts."""
    if result.neutral is None:
        message = "The strip is no measure. Nothing was kept."
        raise ArmorplanError(message)
    kept = keep_neutral(folder, leather, result.neutral)
    before = "" if kept.former is None else f", before {kept.former:g}"
    return (
        f"Kept for {kept.leather}: K = {kept.value:g}{before}. It counts for builds started from "
        f"now on. Written: {kept.path}"
    )


def _samples() -> tuple[Path, ...]:
    found = (p for name in (PATTERN_FILE, SHOP_FILE) for p in samples_folder().glob(f"*/{name}"))
    return tuple(sorted({p.parent for p in found}))


def _seat(
    workshop: WorkshopFile, drafts: Drafts, kin: KinBuilds, who: str, opened: Opened
) -> Session:
    drafts.know(opened)
    session = Session(
        opened.build,
        opened.derived,
        workshop,
        SystemClock(),
        new_id=lambda: str(uuid4()),
        who=who,
    )
    session.share(kin)
    return session
