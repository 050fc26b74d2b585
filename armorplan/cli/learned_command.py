"""``armorplan learned``: what a workshop learned of its dryings and its hands, before and after."""

from argparse import Namespace
from collections.abc import Iterator
from contextlib import closing, nullcontext
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from armorplan.app.learned_rows import DryingRow, HandRow, LearnedRows, learned_rows
from armorplan.app.learned_shop import ALL, forget, learned_shop, remember
from armorplan.app.learned_titles import titled
from armorplan.cli.exits import CLEAN
from armorplan.cli.learned_table import drying_table, hand_table
from armorplan.cli.reading import say, say_json, shelf_for
from armorplan.cli.shop_now import shop_now
from armorplan.cli.workshop_turn import turn_of_a_command
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError
from armorplan.store.gate import OPEN
from armorplan.store.places import default_workshop_path
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.learned_hands import hands_kind
from armorplan.workshop.shelf import Shelf

_NOTHING = LearnedRows(dryings=(), hands=())


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedReport:
    """What ``--json`` answers; ``since`` is from when on something is learned anew, if that was asked."""

    workshop: str
    dryings: tuple[DryingRow, ...]
    hands: tuple[HandRow, ...]
    since: datetime | None


def learned(chosen: Namespace) -> int:
    """Print what the workshop learned, and forget of it what is asked; return 0.

    Raises:
        UnreadableError: the shop file or the maker's own catalogues have faults.
        ArmorplanError: the workshop file cannot be read, or there is nothing of that name.
    """
    path: Path = chosen.workshop or default_workshop_path()
    shelf, what = shelf_for(chosen.catalogues), chosen.forget or chosen.remember
    if what:
        _check(what, shelf)
    found, since, zone = _NOTHING, None, "UTC"
    if path.exists():
        clock = SystemClock()
        shop = shop_now(chosen.shop, path, lambda: shelf, clock)()
        zone = shop.zone
        turn = turn_of_a_command(path, clock) if what else nullcontext(OPEN)
        with turn as gate, closing(WorkshopFile.open(path, clock, gate)) as workshop:
            since = _turned(chosen, workshop)
            rows = learned_rows(learned_shop(workshop, shelf), shelf, shop.room)
            found = titled(rows, workshop, shop)
    if chosen.json:
        report = LearnedReport(
            workshop=str(path), dryings=found.dryings, hands=found.hands, since=since
        )
        say_json(report)
        return CLEAN
    for line in _lines(chosen, found, zone):
        say(line)
    return CLEAN


def _turned(chosen: Namespace, workshop: WorkshopFile) -> datetime | None:
    if chosen.forget:
        return forget(workshop, chosen.forget)
    if chosen.remember:
        remember(workshop, chosen.remember)
    return None


def _check(what: str, shelf: Shelf) -> None:
    """Refuse what is no treatment and no kind of step."""
    treatments = sorted(entry.id for entry in shelf.treatments)
    kinds = sorted(
        {entry.kind for entry in shelf.durations}
        | {kind for entry in shelf.treatments if (kind := hands_kind(entry))}
    )
    if what not in {ALL, *treatments, *kinds}:
        message = (
            f"There is nothing called '{what}' to be learned. Name a treatment "
            f"({', '.join(treatments)}), a kind of step ({', '.join(kinds)}), or '{ALL}'."
        )
        raise ArmorplanError(message)


def _lines(chosen: Namespace, found: LearnedRows, zone: str) -> Iterator[str]:
    if chosen.forget:
        yield f"From now on learned anew: {chosen.forget}. Taken back by --remember {chosen.forget}."
    if chosen.remember:
        yield f"All that was seen counts again: {chosen.remember}."
    if found == _NOTHING:
        yield "Nothing was learned yet: the catalogue's times count."
        return
    if found.dryings:
        yield from drying_table(found.dryings, zone)
    if found.dryings and found.hands:
        yield ""
    if found.hands:
        yield from hand_table(found.hands, zone)
