"""``armorplan promise``: by when builds can be promised, how surely, and what costs most."""

from argparse import Namespace
from collections.abc import Iterator
from datetime import datetime
from zoneinfo import ZoneInfo

from armorplan.app.promises import (
    Asked,
    OddsRow,
    PromiseRow,
    Promises,
    names_in,
    promises,
    runs_words,
)
from armorplan.app.shop_air import air_words
from armorplan.cli.exits import CLEAN, FAULTY
from armorplan.cli.in_shop import tell_air
from armorplan.cli.plan_command import planned
from armorplan.cli.planned_week import week_asked
from armorplan.cli.reading import say, say_json, tell, warn


def promise(chosen: Namespace) -> int:
    """Print by when each build can be promised; return 0, or 1 where there is no plan of all."""
    asked = week_asked(chosen)
    warn((*asked.missing, *(asked.hindering or asked.told)))
    if asked.hindering:
        return FAULTY
    made = planned(asked, chosen.seconds)
    if not made.placed:
        tell(made.conflict)
        return FAULTY
    how = Asked(
        odds_pct=chosen.odds, runs=chosen.runs, seed=chosen.seed, names=names_in(asked.shop)
    )
    found = promises(asked.problem, made, asked.shop.zone, how)
    if chosen.json:
        tell_air(asked.air)
        say_json(found)
    else:
        for line in _lines(found):
            say(line)
        say(air_words(asked.air))
    return FAULTY if asked.missing else CLEAN


def _lines(found: Promises) -> Iterator[str]:
    zone = ZoneInfo(found.zone)
    for row in found.builds:
        yield row.title or "This build"
        yield f"  Promise it for {_promise(row.promise, zone)}."
        yield f"  {_odds_line(row, zone)}"
        if row.due_at is not None:
            yield f"  {_due_line(row, row.due_at, zone)}"
        yield from (f"  - {cause.text}" for cause in row.causes)
    yield runs_words(found)


def _promise(told: OddsRow, zone: ZoneInfo) -> str:
    odds = f"{told.odds_pct} %"
    if told.at is None:
        return f"no date yet: {odds} lie beyond the days planned ahead"
    within = f"from {_when(told.low_at, zone)} to {_when(told.high_at, zone)}"
    return f"{_when(told.at, zone)}: {odds}; drawn anew {within}"


def _odds_line(row: PromiseRow, zone: ZoneInfo) -> str:
    usual = ", ".join(f"{told.odds_pct} % by {_when(told.at, zone)}" for told in row.usual)
    return f"Planned for {_when(row.planned_at, zone)}; {usual}."


def _due_line(row: PromiseRow, due_at: datetime, zone: ZoneInfo) -> str:
    return (
        f"Due {_when(due_at, zone)}: kept in {row.kept_pct:.0f} % of the runs, "
        f"± {row.kept_error_pct:.0f} %. {row.spare}"
    )


def _when(at: datetime | None, zone: ZoneInfo) -> str:
    if at is None:
        return "beyond the days planned ahead"
    local = at.astimezone(zone)
    return f"{local:%a} {local.day} {local:%b %H:%M}"
