"""``armorplan plan … --around-tonight``: tomorrow laid anew around what dries in the workshop."""

from argparse import Namespace
from contextlib import closing
from functools import partial
from pathlib import Path
from uuid import uuid4
from zoneinfo import ZoneInfo

from armorplan.app.opening import resume_build
from armorplan.app.ordered_builds import shop_file_of
from armorplan.app.plan_naming import naming_of
from armorplan.app.session import Session
from armorplan.app.shown_plan import ShownPlan, plan_from
from armorplan.app.wish_report import TonightReport, moved_report
from armorplan.app.wishes import EACH_S, Tonight, Wishes
from armorplan.cli.exits import CLEAN, FAULTY
from armorplan.cli.reading import pattern_folder, say, say_json, shelf_for
from armorplan.cli.shop_now import shop_now
from armorplan.cli.workshop_turn import turn_of_a_command
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError, WorkshopError
from armorplan.ledger.builds import BuildRecord
from armorplan.schedule.checker import CheckedPlan
from armorplan.store.places import default_workshop_path
from armorplan.store.workshop_file import WorkshopFile


def around_tonight(chosen: Namespace) -> int:
    """Lay tomorrow anew, keep it as the plan, and say what moved; return 1 where nothing holds.

    Raises:
        WorkshopError: there is no such workshop, it cannot be read, or a window writes in it.
        ArmorplanError: nothing of this pattern or shop is in hand there, or no plan was shown yet.
    """
    path = chosen.workshop or default_workshop_path()
    if not path.exists():
        message = f"There is no workshop file {path}. Nothing can be drying in it."
        raise WorkshopError(message)
    clock = SystemClock()
    with (
        turn_of_a_command(path, clock) as turn,
        closing(WorkshopFile.open(path, clock, turn)) as workshop,
    ):
        session, at_hand = _session(chosen, workshop), plan_from(workshop.latest_plan() or "")
        if at_hand is None or not at_hand.plan.placed:
            message = f"No plan was shown yet in {path}. Open the window once, it makes one."
            raise ArmorplanError(message)
        found = _laid(session, at_hand, chosen.seconds)
    if chosen.json:
        moved = tuple(moved_report(row) for row in found.moved)
        say_json(
            TonightReport(
                sentence=found.words, reach_h=found.reach_h, kept=found.kept, moved=moved
            )
        )
    else:
        _say(found, ZoneInfo(session.shop().zone))
    return CLEAN if found.plan.placed else FAULTY


def _laid(session: Session, at_hand: ShownPlan, seconds: float) -> Tonight:
    from armorplan.solving.keeper import SolverKeeper

    session.plan_from_now()
    problem = session.asking()()
    with SolverKeeper() as keeper:
        wishes = Wishes(solver=keeper, each_s=min(seconds, EACH_S))
        naming = naming_of(session.shop(), problem)
        found = wishes.tonight(problem, at_hand, naming, lambda: False)
    if found.plan.placed:
        session.take_plan(CheckedPlan(problem=problem, plan=found.plan))
    return found


def _say(found: Tonight, zone: ZoneInfo) -> None:
    say(found.words)
    for row in found.moved:
        to = row.start_at.astimezone(zone)
        since = f"{row.before_at.astimezone(zone):%a %d %b %H:%M}" if row.before_at else "-"
        say(f"  {since:>16} \N{RIGHTWARDS ARROW} {to:%a %d %b %H:%M}  {row.title}")


def _session(chosen: Namespace, workshop: WorkshopFile) -> Session:
    build = _in_hand(chosen.pattern, workshop)
    shelf = partial(shelf_for, chosen.catalogues)
    given = shop_file_of(chosen.pattern) or chosen.shop
    today = shelf()
    shop = shop_now(given, workshop.path, shelf, SystemClock())(today)
    opened = resume_build(build, shop, today=today)
    return Session(
        opened.build, opened.derived, workshop, SystemClock(), new_id=lambda: str(uuid4())
    )


def _in_hand(pattern: Path, workshop: WorkshopFile) -> BuildRecord:
    """Return the latest build of a pattern, or of those that a shop ordered."""
    file = shop_file_of(pattern)
    if file is not None:
        ordered = {o.build for o in workshop.orders.all() if _is_same(o.source, file)}
        mine = [build for build in workshop.builds() if build.id in ordered]
    else:
        folder = pattern_folder(pattern)
        mine = [build for build in workshop.builds() if _is_same(build.folder, folder)]
    if not mine:
        message = (
            f"Nothing of {pattern} is in hand in {workshop.path}. Open it in the window first."
        )
        raise ArmorplanError(message)
    return mine[-1]


def _is_same(noted: str, path: Path) -> bool:
    return bool(noted) and Path(noted).resolve() == path.resolve()
