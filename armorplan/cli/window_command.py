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
from armorplan.app.plan_naming import naming_of
from armorplan.app.session import Session
from armorplan.app.test_strip import keep_neutral
from armorplan.app.wishes import Wishes
from armorplan.cli.airs import Airs
from armorplan.cli.build_reading import BuildReading
from armorplan.cli.drafts import Drafts
from armorplan.cli.first_build import begin_left, first_build, meant_shop
from armorplan.cli.reading import shelf_for
from armorplan.cli.shop_now import ShopNow, shop_now
from armorplan.cli.trials import Trials
from armorplan.cli.who_works import who_works
from armorplan.desktop.display import why_no_window
from armorplan.files.shop_file import SHOP_FILE
from armorplan.files.source import PATTERN_FILE
from armorplan.geometry.bends.strip import StripResult
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError, SolverLostError
from armorplan.kernel.shipped import samples_folder
from armorplan.schedule.deadline import Deadline
from armorplan.schedule.planning import begun_plan, first_plan, sought_plan
from armorplan.schedule.problem import Plan, Problem
from armorplan.solving.keeper import SolverKeeper
from armorplan.store.places import default_workshop_path, own_catalogues_path
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shelf import Shelf

LOOK_FOR_S = 20.0
"""How long a better plan is looked for after each change at the bench."""


def window(chosen: Namespace) -> int:
    """Open the window; return its exit code, or raise ArmorplanError where none can open."""
    reason = why_no_window(os.environ, sys.platform)
    if reason:
        raise ArmorplanError(reason)
    from armorplan.desktop.run import run_window
    from armorplan.desktop.strip_fields import StripBench

    clock = SystemClock()
    path = chosen.workshop or default_workshop_path()
    # Read anew for each folder that is opened, so that a price mended meanwhile counts.
    shelf = partial(shelf_for, chosen.catalogues)
    workshop = WorkshopFile.open(path, clock)
    keeper = SolverKeeper()
    try:
        file = meant_shop(chosen, workshop)
        shop = shop_now(file, path, shelf, clock)
        keeper.warm_up()
        drafts, kin = Drafts(shelf, shop), KinBuilds()
        seat = partial(_seat, workshop, drafts, kin, who_works(chosen.who, shop.told, file))
        folder = chosen.catalogues or own_catalogues_path()
        today = shelf()
        reading = BuildReading(path=path, shelf=shelf, shop=shop, kin=kin, seat=seat)
        started = first_build(chosen, workshop, (today, shop(today)), file, kin)
        return run_window(
            seat(started.opened),
            reading,
            planner=partial(_seek, keeper, shop),
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
            ),
            airs=Airs(shop=shop),
            resumer=reading.resume,
            wishes=Wishes(solver=keeper),
            later=partial(begin_left, path, started.left, kin) if started.left else None,
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


def _seek(
    keeper: SolverKeeper,
    shop: ShopNow,
    problem: Problem,
    *,
    hint: Plan | None,
    on_better: Callable[[Plan], None],
    should_stop: Callable[[], bool],
) -> Plan:
    """Return the serial plan at once through ``on_better``, then the best found in time."""
    naming = naming_of(shop.told, problem)
    timed = Deadline(LOOK_FOR_S, should_stop)
    first = first_plan(problem, naming=naming, timed=timed)
    on_better(first)
    try:
        return sought_plan(
            problem,
            keeper,
            begun_plan(problem, first, hint or first, should_stop=timed),
            seconds=timed.left_s,
            on_better=on_better,
            should_stop=should_stop,
            naming=naming,
        )
    except SolverLostError:
        return first
